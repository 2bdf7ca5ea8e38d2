"""Whole windows for tests, each with settings and files of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.app.compared import opened
from tests.app.opened import bare_window, close
from tests.app.surveyed import at_surface, measured_pantry, room_job
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


@pytest.fixture
def store(window: Window) -> Window:
    """A window on a floor of 1.3 m x 0.9 m at the question of the surface; its grid has 5 x 4 places."""
    return at_surface(window, room_job())


@pytest.fixture
def pantry(window: Window) -> Window:
    """A window on the sample room that was measured."""
    return at_surface(window, measured_pantry())
