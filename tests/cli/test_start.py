"""The command line starts light: no library of the window, and of the sheets only when it prints."""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.calls import ROOT, SAMPLES

LAY = f"""
import sys
sys.argv = ["tilelayout", "lay", r"{SAMPLES / "potting_shed.tilejob"}", "--json"]
from tilelayout.__main__ import main
status = main()
loaded = {{name.split(".")[0] for name in sys.modules}}
print(status, sorted(loaded & {{"PySide6", "shiboken6", "reportlab"}}), file=sys.stderr)
"""
LIBRARIES = "import numpy, shapely"
OURS = "import tilelayout.__main__, tilelayout.cli.lay"


def python(code: str, **environment: str) -> subprocess.CompletedProcess[str]:
    inherited = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT, env={**inherited, **environment}, capture_output=True, text=True, check=True,
    )  # fmt: skip


def test_laying_loads_neither_window_nor_sheets() -> None:
    assert python(LAY).stderr.splitlines()[-1] == "0 []"


def cpu_seconds(code: str, compiled: Path) -> float:
    """Return what a run takes of the processor, which other work on the machine hardly changes."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    python(code, PYTHONPYCACHEPREFIX=str(compiled))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


@pytest.mark.benchmark
def test_start_of_the_command_line_against_its_two_libraries(tmp_path: Path) -> None:
    """The median of paired ratios, both sides compiled before."""
    for code in (LIBRARIES, OURS):
        python(code, PYTHONPYCACHEPREFIX=str(tmp_path))
    ratios = [cpu_seconds(OURS, tmp_path) / cpu_seconds(LIBRARIES, tmp_path) for _ in range(11)]
    ratio = statistics.median(ratios)
    print(f"\nstart of the command line: {ratio:.2f} x {LIBRARIES} (goal 1.40)")
    assert ratio <= 1.4 * 1.3
