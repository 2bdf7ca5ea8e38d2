"""Errors that a person can mend: one line that says what happened, one that says what to do.

Anything that is not a `TileLayoutError` is a bug and is shown as one.
"""

from __future__ import annotations


class TileLayoutError(Exception):
    """Something asked for could not be done; `what` happened and `mend` says what to do about it."""

    def __init__(self, what: str, mend: str = "") -> None:
        super().__init__(what, mend)
        self.what = what
        self.mend = mend

    def __str__(self) -> str:
        return f"{self.what} {self.mend}".rstrip()


class LengthError(TileLayoutError):
    """A text that cannot be read as a length: `why` not, and `forms` that would be."""

    def __init__(self, text: str, why: str, forms: tuple[str, str]) -> None:
        shown = text if len(text) <= 40 else f"{text[:37]}..."
        super().__init__(f"“{shown}” is no length here: {why}.", f"Write {forms[0]} or {forms[1]}.")
        self.text = text
        self.why = why
        self.forms = forms


class JobFileError(TileLayoutError):
    """A job file that cannot be read or written; names the file and the place in it."""

    def __init__(self, what: str, mend: str = "", *, file: str = "", place: str = "") -> None:
        super().__init__(what, mend)
        self.file = file
        self.place = place

    def __str__(self) -> str:
        where = ": ".join(part for part in (self.file, self.place) if part)
        return f"{where}: {super().__str__()}" if where else super().__str__()


class EditError(TileLayoutError):
    """An edit that the job as it stands does not allow."""


class LayoutError(TileLayoutError):
    """A layout that cannot be laid: a pattern that refuses the tile, a region with nothing left."""


class OutputError(TileLayoutError):
    """A sheet or file that could not be made or written."""
