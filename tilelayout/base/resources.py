"""Finds the folder of icons and data tables, from a source tree and from an installed wheel."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def resource(name: str) -> Path:
    """Return the path of `resources/name`; raise FileNotFoundError if it does not exist.

    A wheel carries the folder as `tilelayout/_resources`; a source tree has it beside the package.
    """
    for folder in (_PACKAGE / "_resources", _PACKAGE.parent / "resources"):
        path = folder / name
        if path.exists():
            return path
    raise FileNotFoundError(f"resources/{name}")
