"""How long the program takes to start, beside the least that its libraries need; and to print.

Starts are told by what a fresh process takes of the processor. The window's rival is an empty window of Qt.
"""

from __future__ import annotations

import os
import statistics
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.benchmarks import bench_print
from tests.benchmarks.measured import Measured
from tests.cli.test_start import LIBRARIES, OURS, cpu_seconds

pytestmark = pytest.mark.benchmark

ROUNDS = 7
SHOWN = "window.show(); application.processEvents(); window.repaint(); application.processEvents()"
EMPTY_WINDOW = f"""
from PySide6.QtWidgets import QApplication, QMainWindow
application, window = QApplication([]), QMainWindow()
window.resize(1440, 900); {SHOWN}
"""
OUR_WINDOW = f"""
from PySide6.QtWidgets import QApplication
from tilelayout.app.settings import Settings
from tilelayout.app.start import open_window
application = QApplication([]); window = open_window(application, Settings(), None)
{SHOWN}
"""


def ratio(ours: str, plain: str, compiled: Path) -> float:
    """Return the median of paired ratios of two starts, both compiled before."""
    for code in (ours, plain):
        cpu_seconds(code, compiled)
    return statistics.median(
        cpu_seconds(ours, compiled) / cpu_seconds(plain, compiled) for _ in range(ROUNDS)
    )


def measured() -> list[Measured]:
    """Start command line and window, then print."""
    with TemporaryDirectory() as folder:
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        home = os.environ.get("XDG_CONFIG_HOME")
        os.environ["XDG_CONFIG_HOME"] = folder
        command_line, window = (
            ratio(OURS, LIBRARIES, Path(folder)),
            ratio(OUR_WINDOW, EMPTY_WINDOW, Path(folder)),
        )
        if home is None:
            del os.environ["XDG_CONFIG_HOME"]
        else:
            os.environ["XDG_CONFIG_HOME"] = home
    return [
        Measured("start of the command line, over importing its libraries", command_line, 1.4, is_limit=True),
        Measured("first painted window, over an empty window", window, 2.0, is_limit=True),
        *bench_print.measured(),
    ]


def test_the_command_line_starts_quickly() -> None:
    rows = measured()
    print("\n" + "\n".join(row.row for row in rows))
    assert rows[0].is_near
