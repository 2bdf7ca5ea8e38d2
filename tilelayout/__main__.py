"""Entry of the program: the window if nothing else is asked for, the command line otherwise."""

from __future__ import annotations

import sys
from pathlib import Path

from tilelayout.cli.command_line import run


def main() -> int:
    """Run what was typed and return the exit status."""
    return run(sys.argv[1:], _open_window)


def _open_window(job: Path | None) -> int:
    from tilelayout.app.start import run as run_window  # the window's library is loaded only for the window

    return run_window([] if job is None else [str(job)])


if __name__ == "__main__":
    sys.exit(main())
