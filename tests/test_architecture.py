"""What the layout of the code promises, checked from outside: no Qt in the engine, README that is true."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "tilelayout",
    "resources",
    "tests",
    "sample_rooms",
}

ENGINE_WITHOUT_QT = """
import importlib, pkgutil, sys
import tilelayout
for info in pkgutil.walk_packages(tilelayout.__path__, "tilelayout."):
    if not info.name.startswith("tilelayout.app"):
        importlib.import_module(info.name)
print(sorted(name for name in sys.modules if name.startswith(("PySide6", "shiboken6"))))
"""


def test_engine_sheets_and_command_line_load_no_qt_module() -> None:
    shown = subprocess.run(
        [sys.executable, "-c", ENGINE_WITHOUT_QT], capture_output=True, text=True, check=True
    )
    assert shown.stdout.strip() == "[]"


def test_the_top_level_holds_only_what_a_newcomer_expects() -> None:
    made_here = {"build", "dist", "gallery"}
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith((".", "LICENSE"))}
    assert {name for name in found - made_here if not name.endswith(".pdf")} == TOP_LEVEL


def test_ci_runs_the_command_the_readme_gives_for_the_tests() -> None:
    command = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()[-1]
    assert command in (ROOT / "README.md").read_text(encoding="utf-8")
