"""Writes a file whole or not at all.

The bytes go to a new file in the same folder, are pushed to the disk, and then take the old file's name in
one step. Whatever stops the program before that step, the old file is still there; after it, the new one is.
"""

from __future__ import annotations

import os
import stat
from contextlib import suppress
from pathlib import Path


def write_whole(path: Path, content: bytes) -> None:
    """Write `content` as the file `path`, keeping its permissions and any link that leads to it.

    OSError if that cannot be done; the file is then as it was and nothing is left beside it.
    """
    import tempfile  # at first use: it costs more than a tenth of the command line's start

    target = path.resolve()
    permissions = _permissions(target)
    number, name = tempfile.mkstemp(prefix=f".{target.name[:100]}.", suffix=".part", dir=target.parent)
    aside = Path(name)
    try:
        with os.fdopen(number, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        aside.chmod(permissions)
        aside.replace(target)
    except BaseException:
        with suppress(OSError):
            aside.unlink()
        raise
    _push_to_disk(target.parent)


def _permissions(target: Path) -> int:
    """Return the permissions of the old file, or those a new one gets. OSError if it may not be written."""
    try:
        old = target.stat()
    except FileNotFoundError:
        return 0o666 & ~_mask()
    if stat.S_ISDIR(old.st_mode):
        raise IsADirectoryError(f"{target} is a folder")
    if not os.access(target, os.W_OK):
        raise PermissionError(f"{target} is read-only")
    return stat.S_IMODE(old.st_mode)


def _mask() -> int:
    """Return the permissions a new file must not have; they can only be asked for by setting them."""
    mask = os.umask(0o077)
    os.umask(mask)
    return mask


def _push_to_disk(folder: Path) -> None:
    """Make the new name last through a power cut, where the system lets a folder be opened."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)
