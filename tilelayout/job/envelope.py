"""What every file of ours begins with, and how it is read: its format, its version, and no more than fits.

A job file and a stock file are both one group of keys in JSON. What differs is a `FileKind`: the format it
names itself by and the words an error uses.
"""

from __future__ import annotations

import stat
from dataclasses import dataclass
from pathlib import Path

from tilelayout.base.errors import JobFileError
from tilelayout.base.whole_files import write_whole
from tilelayout.job.json_trees import tree_of
from tilelayout.job.limits import LARGEST_FILE


@dataclass(frozen=True)
class FileKind:
    """A kind of file: `format` and `version` stand in it, `word` is what a person calls what it holds."""

    format: str
    version: int
    word: str


def read_content(path: Path, kind: FileKind) -> bytes:
    """Return the bytes of a file. JobFileError if there is none, or none that can be read."""
    mend = f"Choose a {kind.word} file."
    try:
        state = path.stat()
        if stat.S_ISDIR(state.st_mode):
            raise JobFileError("This is a folder.", f"Choose a {kind.word} file in it.", file=str(path))
        if not stat.S_ISREG(state.st_mode):
            raise JobFileError("This is no ordinary file.", mend, file=str(path))
        check_size(state.st_size, kind, str(path))
        return path.read_bytes()
    except FileNotFoundError:
        mend = "Check the name and the folder."
        raise JobFileError("There is no such file.", mend, file=str(path)) from None
    except (OSError, ValueError) as error:
        mend = "Check the name, and that you may read the file."
        raise JobFileError(f"It cannot be read: {_reason(error)}.", mend, file=str(path)) from None


def write_content(path: Path, content: bytes) -> None:
    """Write the file, whole or not at all. JobFileError if that cannot be done."""
    try:
        write_whole(path, content)
    except OSError as error:
        mend = "The file is as it was. Make room, or save it under another name or in another folder."
        raise JobFileError(f"It could not be saved: {_reason(error)}.", mend, file=str(path)) from None


def check_size(size: int, kind: FileKind, file: str) -> None:
    """Refuse with a JobFileError what is larger than a file of ours ever is."""
    if size > LARGEST_FILE:
        most = f"a {kind.word} has at most {LARGEST_FILE // 2**20} MB"
        what = f"The file has {size / 2**20:.1f} MB; {most}."
        raise JobFileError(what, f"Choose a {kind.word} file.", file=file)


def keys_in(content: bytes, kind: FileKind, file: str) -> dict[str, object]:
    """Return the file's own keys, once format and version say that they can be read."""
    check_size(len(content), kind, file)
    tree = tree_of(content, file)
    if not isinstance(tree, dict):
        mend = f'It begins with {{"format": "{kind.format}", "version": 1.'
        raise JobFileError(f"This is no {kind.word}: a group of keys is wanted.", mend, file=file)
    _check_format(tree, kind, file)
    _check_version(tree, kind, file)
    return {key: value for key, value in tree.items() if key not in ("format", "version")}


def _check_format(tree: dict[str, object], kind: FileKind, file: str) -> None:
    if "format" not in tree:
        what = f"The file does not say that it is a {kind.word}."
        raise JobFileError(what, f'Begin it with "format": "{kind.format}".', file=file, place="format")
    if tree["format"] != kind.format:
        what = f"The format is not “{kind.format}”."
        raise JobFileError(what, f"Choose a {kind.word} file.", file=file, place="format")


def _check_version(tree: dict[str, object], kind: FileKind, file: str) -> None:
    version = tree.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        what = "The version is missing." if version is None else "The version is no number of a version."
        raise JobFileError(what, f'Write "version": {kind.version}.', file=file, place="version")
    if version > kind.version:
        what = f"The file is of version {version}; this program reads up to version {kind.version}."
        raise JobFileError(what, "Open it with a newer program.", file=file, place="version")


def _reason(error: Exception) -> str:
    said = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return said[:1].lower() + said[1:]
