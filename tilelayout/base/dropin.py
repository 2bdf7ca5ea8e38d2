"""Loads the modules of a drop-in folder, so that a new file is all it takes to add a thing.

Finding goes through `pkgutil`, which also works in a frozen program, and the order is the order of the
names, so that nothing depends on the file system.
"""

from __future__ import annotations

import importlib
import pkgutil
from types import ModuleType


def modules_in(package: ModuleType) -> dict[str, ModuleType]:
    """Return the public modules of `package` by name, in alphabetical order."""
    names = sorted(info.name for info in pkgutil.iter_modules(package.__path__))
    public = (name for name in names if not name.startswith("_"))
    return {name: importlib.import_module(f"{package.__name__}.{name}") for name in public}
