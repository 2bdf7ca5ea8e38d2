"""Turns what went wrong into one or two plain lines for a person, and an exit status."""

from __future__ import annotations

import sys

from tilelayout.base.errors import TileLayoutError

DONE = 0
STRICT_CHECK_FAILED = 1
WRONG_INPUT = 2
PIPE_CLOSED = 141
"""What a shell reports for a program that is stopped because nobody reads its output (128 + SIGPIPE)."""
INTERRUPTED = 130
"""What a shell reports for a program stopped from the keyboard (128 + SIGINT)."""


class CallError(TileLayoutError):
    """A call that cannot be understood or carried out as it stands."""


def tell(error: TileLayoutError) -> None:
    """Print what happened on standard error, and below it what to do about it."""
    mend = error.mend.strip()
    what = str(error)
    if mend and what.endswith(mend):
        what = what[: -len(mend)].rstrip()
    print(f"tilelayout: {_one_line(what)}", file=sys.stderr)
    if mend:
        print(f"  {_one_line(mend)}", file=sys.stderr)


def _one_line(text: str) -> str:
    return " ".join(text.split())
