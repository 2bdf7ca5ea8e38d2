"""Calls the command line as a person does: in this process, or as a program of its own."""

from __future__ import annotations

import contextlib
import io
import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from tilelayout.cli.command_line import run

ROOT = Path(__file__).resolve().parents[2]
SAMPLES = ROOT / "sample_rooms"


@dataclass(frozen=True)
class Outcome:
    """What a call left: its exit status and what it printed."""

    status: int
    out: str
    err: str


def no_window(job: Path | None) -> int:
    """Stand where the window is opened, and say what it was asked to open."""
    print(f"window on {job}")
    return 0


def called(*arguments: str) -> Outcome:
    """Call in this process."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        status = run(arguments, no_window)
    return Outcome(status, out.getvalue(), err.getvalue())


def started(*arguments: str, folder: Path = ROOT) -> Outcome:
    """Start the program."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", "tilelayout", *arguments]
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)
    return Outcome(done.returncode, done.stdout, done.stderr)
