"""Whole windows for tests, each with settings and files of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.app.compared import opened
from tests.app.opened import bare_window, close
from tilelayout.app.window import Window


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A shown window with an empty job in mm."""
    made = bare_window(tmp_path / "settings")
    yield made
    close(made)


@pytest.fixture
def two(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window with two layouts side by side."""
    made = opened(tmp_path / "settings", qtbot, 2)
    yield made
    close(made)


@pytest.fixture
def four(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window with five layouts, of which four stand side by side."""
    made = opened(tmp_path / "settings", qtbot, 5)
    yield made
    close(made)
