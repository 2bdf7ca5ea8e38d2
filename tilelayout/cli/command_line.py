"""Runs what was typed: hands each command its arguments, and every trouble to the person as plain lines.

Opening the window belongs to the program's entry, which hands it in: nothing here knows of a window.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from tilelayout.base.errors import TileLayoutError
from tilelayout.cli.arguments import parser
from tilelayout.cli.stopping import stoppable
from tilelayout.cli.trouble import DONE, INTERRUPTED, PIPE_CLOSED, WRONG_INPUT, tell

OpenWindow = Callable[[Path | None], int]


def run(arguments: Sequence[str], open_window: OpenWindow) -> int:
    """Carry out the call. Return its exit status: 0 done, 1 a strict check failed, 2 wrong input or call."""
    try:
        with stoppable():
            status = _run(arguments, open_window)
        sys.stdout.flush()
    except TileLayoutError as error:
        tell(error)
        return WRONG_INPUT
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PIPE_CLOSED
    except KeyboardInterrupt:
        return INTERRUPTED
    return status


def _run(arguments: Sequence[str], open_window: OpenWindow) -> int:
    try:
        call = parser().parse_args(arguments)
    except SystemExit:  # argparse leaves this way after --help and --version
        return DONE
    return _carry_out(call, open_window)


def _carry_out(call: argparse.Namespace, open_window: OpenWindow) -> int:
    if call.command == "lay":
        from tilelayout.cli.lay import lay  # loaded only for the command that needs it
        from tilelayout.cli.lay_wishes import Wishes

        wishes = Wishes(
            call.json,
            call.strict,
            call.ranges,
            call.findings,
            call.whole_job,
            call.fit,
            call.stock,
            call.keep_left,
        )
        return lay(call.job, call.layout, wishes)
    if call.command == "seek":
        from tilelayout.cli.seek import seek_call

        return seek_call(call)
    if call.command == "flat":
        from tilelayout.cli.flat import flat
        from tilelayout.cli.flat_prepared import Mend

        mend = Mend(call.way, call.meet)
        return flat(call.job, call.json, call.strict, wants_standards=call.standards, mend=mend)
    if call.command == "print":
        from tilelayout.cli.print_sheets import print_sheets

        return print_sheets(call.job, call.to, call.paper, call.layout)
    return open_window(call.job if call.command == "open" else None)
