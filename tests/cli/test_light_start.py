"""What the start of the command line must not load: a heavy library waits for what needs it."""

from __future__ import annotations

import pytest

from tests.cli.test_start import python

WINDOW = {"PySide6", "shiboken6"}
SHEETS = {"reportlab", "PIL"}
SOLVERS = {"highspy", "scipy"}
ENGINE = {"numpy", "shapely", "msgspec"}


def loaded(module: str) -> set[str]:
    """Return the top names of all that a fresh process has loaded after importing one module."""
    code = f"import sys, {module}; print(*{{name.split('.')[0] for name in sys.modules}})"
    return set(python(code).stdout.split())


def test_reading_the_call_loads_nothing_heavy() -> None:
    found = loaded("tilelayout.cli.command_line")
    assert "argparse" in found
    assert not found & (WINDOW | SHEETS | SOLVERS | ENGINE)


@pytest.mark.parametrize("command", ["lay", "seek", "flat"])
def test_a_command_loads_neither_window_nor_sheets_nor_solver_before_it_needs_them(command: str) -> None:
    found = loaded(f"tilelayout.cli.{command}")
    assert found >= ENGINE
    assert not found & (WINDOW | SHEETS | SOLVERS)
