"""A whole window for each test, with settings and files of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, close
from tilelayout.app.window import Window


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A shown window with an empty job in mm."""
    made = bare_window(tmp_path / "settings")
    yield made
    close(made)
