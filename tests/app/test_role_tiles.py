"""Patterns of several tiles in the window: chosen by a picture, filled with tiles that fit, and mended."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, close, potting_shed, settle
from tilelayout.app.bench import Stage
from tilelayout.app.window import Window
from tilelayout.job.edits.layouts import replace_layout
from tilelayout.layout.patterns import more_sizes
from tilelayout.layout.roles import is_of_size


@pytest.fixture
def shed(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window on a floor with a square tile that is laid."""
    made = bare_window(tmp_path / "settings", potting_shed())
    made.bench.show(stage=Stage.TILE)
    settle()
    made.tile.adds[0].click()
    settle()
    yield made
    close(made)


def lay_as(window: Window, words: str) -> None:
    next(button for button in window.tile.ways.buttons if button.text() == words).click()
    settle()


def test_a_modular_set_is_filled_with_tiles_that_fit_in_one_step(shed: Window, qtbot: QtBot) -> None:
    before = shed.bench.job
    lay_as(shed, "Modular, four sizes")
    layout, job = shed.bench.layout, shed.bench.job
    assert layout is not None and shed.bench.plan is not None
    assert set(layout.more_tiles) == {"oblong", "half", "small"}
    for role, size in more_sizes(layout, job.tile(layout.tile)).items():
        assert is_of_size(job.tile(layout.more_tiles[role]), size)
    assert [box.isVisible() for box in shed.tile.roles.boxes] == [True] * 3
    qtbot.waitUntil(lambda: len(shed.tile.roles.counts.text().splitlines()) == 4, timeout=20_000)
    shed.bench.session.undo()
    assert shed.bench.job == before


def test_another_pattern_takes_the_tiles_there_are_and_lets_go_of_the_rest(shed: Window) -> None:
    lay_as(shed, "Modular, four sizes")
    tiles = shed.bench.job.tiles
    lay_as(shed, "Squares and halves")
    assert shed.bench.layout is not None and set(shed.bench.layout.more_tiles) == {"half"}
    assert shed.bench.job.tiles == tiles
    lay_as(shed, "Plain grid")
    assert shed.bench.layout.more_tiles == {}
    assert not any(box.isVisible() for box in shed.tile.roles.boxes)
    assert not shed.tile.roles.counts.isVisible()


def test_a_joint_with_which_the_set_does_not_fit_is_said_and_mended(shed: Window) -> None:
    lay_as(shed, "Squares and halves")
    id, layout = shed.bench.job.layouts[0].id, shed.bench.layout
    assert layout is not None and shed.tile.roles.fit.isHidden()
    shed.bench.apply("Set joint", lambda job: replace_layout(job, id, joint=9.0))
    settle()
    assert "Use a joint of" in shed.bench.trouble
    assert shed.tile.roles.fit.isVisible()
    shed.tile.roles.fit.click()
    settle()
    assert shed.bench.trouble == "" and shed.tile.roles.fit.isHidden()


def test_a_role_is_given_another_tile_by_choice(shed: Window) -> None:
    lay_as(shed, "Pinwheel, turning left")
    first = shed.bench.job.layouts[0].more_tiles["small"]
    own = shed.bench.job.layouts[0].tile
    shed.tile.roles.boxes[0].choose(own)
    settle()
    assert shed.bench.job.layouts[0].more_tiles == {"small": own} and first != own
    assert shed.bench.plan is not None and len(shed.bench.plan.tiles) == 1
