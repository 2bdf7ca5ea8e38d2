"""How long the program takes to start and to print, beside the least that its libraries need.

Starts are told by what a fresh process takes of the processor. The window's rival is an empty window of Qt.
"""

from __future__ import annotations

import datetime
import os
import statistics
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time

import pytest
from msgspec.structs import replace

from tests.benchmarks.measured import Measured
from tests.cli.calls import SAMPLES
from tests.cli.test_start import LIBRARIES, OURS, cpu_seconds
from tilelayout.job.files import read_job
from tilelayout.job.values import Job

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
LEAST_PAGES, MOST_SECONDS = 58, 0.15


def ratio(ours: str, plain: str, compiled: Path) -> float:
    """Return the median of paired ratios of two starts, both compiled before."""
    for code in (ours, plain):
        cpu_seconds(code, compiled)
    return statistics.median(
        cpu_seconds(ours, compiled) / cpu_seconds(plain, compiled) for _ in range(ROUNDS)
    )


def measured() -> list[Measured]:
    """Start command line and window, and print a long job twice."""
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
        seconds, pages, is_same = printed(Path(folder))
    return [
        Measured("start of the command line, over importing its libraries", command_line, 1.4, is_limit=True),
        Measured("first painted window, over an empty window", window, 2.0, is_limit=True),
        Measured(
            f"printing {LEAST_PAGES} pages ({pages} measured)", seconds, MOST_SECONDS, is_limit=True, unit="s"
        ),
        Measured("same bytes when printed again", float(is_same), 1.0, unit="of 1"),
    ]


def long_job() -> Job:
    """A sample room with its layout on so many surfaces that the sheets have some sixty pages."""
    job = read_job(SAMPLES / "garden_room.tilejob")
    layout = job.layouts[0]
    layouts = [replace(layout, id=f"{layout.id}-{k}", start=(13.0 * k, 29.0 * k)) for k in range(12)]
    return replace(job, layouts=tuple(layouts))


def printed(folder: Path) -> tuple[float, int, bool]:
    """Print a long job twice; return the seconds for so many pages, the pages, and whether both are alike."""
    from pypdfium2 import PdfDocument  # type: ignore[import-untyped]

    from tilelayout.reports.to_pdf import print_job

    job, day, made = long_job(), datetime.date(2024, 5, 17), [folder / "1.pdf", folder / "2.pdf"]
    times = []
    for path in made:
        began = process_time()
        for _ in print_job(job, path, date=day, file_name="long.tilejob"):
            pass
        times.append(process_time() - began)
    pages = len(PdfDocument(made[0]))
    return min(times) * LEAST_PAGES / pages, pages, made[0].read_bytes() == made[1].read_bytes()


def test_start_and_print_are_quick() -> None:
    rows = measured()
    print("\n" + "\n".join(row.row for row in rows))
    assert rows[0].is_near
    assert rows[-1].figure == 1.0
