"""The shape of a tile, its sizes and the ways of laying it, as a person changes them on the card."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QCheckBox, QLabel
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, close, potting_shed, settle, type_in
from tilelayout.app.access_keys import key_of
from tilelayout.app.bench import Stage
from tilelayout.app.cards.ways import ways_for
from tilelayout.app.first_layouts import OTHER_SHAPES
from tilelayout.app.window import Window
from tilelayout.job.edits.tiles import replace_tile
from tilelayout.job.values import PolygonTile
from tilelayout.layout.patterns import shape_of


@pytest.fixture
def shed(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window on a floor with a tile that is laid."""
    made = bare_window(tmp_path / "settings", potting_shed())
    made.bench.show(stage=Stage.TILE)
    settle()
    yield made
    close(made)


@pytest.mark.parametrize("shape", [shape for _, shape in OTHER_SHAPES])
def test_a_tile_of_any_shape_is_sized_and_laid_with_keys_that_differ(shed: Window, shape: str) -> None:
    shed.tile.sizes.shape.choose(shape)
    settle()
    assert shed.bench.tile is not None and shape_of(shed.bench.tile) == shape
    assert shed.bench.plan is not None and shed.bench.plan.cut_rows
    labels = [each for each in shed.tile.findChildren(QLabel) if each.buddy()]
    ticks = shed.tile.findChildren(QCheckBox)
    keys = [key_of(each.text()) for each in labels if each.isVisible()]
    keys += [key_of(each.text()) for each in ticks if each.isVisible()]
    assert "" not in keys and len(set(keys)) == len(keys)
    assert {way.words for way in ways_for(shed.bench.tile)} == {
        button.text() for button in shed.tile.ways.buttons
    }
    length = next(box for key, box in shed.tile.sizes.lengths.items() if hasattr(shed.bench.tile, key))
    assert length.isVisible() and length.line.text()
    shed.bench.session.undo()
    settle()
    assert shape_of(shed.bench.tile) == "rectangle"


def test_an_angle_and_a_hand_are_changed_on_the_card(shed: Window) -> None:
    shed.tile.sizes.shape.choose("parallelogram")
    settle()
    type_in(shed.tile.sizes.angle, "60")
    assert getattr(shed.bench.tile, "angle", None) == 60.0
    chevron = next(button for button in shed.tile.ways.buttons if button.text() == "Chevron")
    chevron.click()
    settle()
    assert shed.bench.plan is not None and shed.bench.layout is not None
    assert shed.bench.layout.pattern == "chevron"
    shed.tile.sizes.both_hands.click()
    settle()
    assert "left and right" in shed.bench.trouble


def test_a_drawn_tile_from_a_file_is_shown_with_its_size_over_all(shed: Window) -> None:
    corners = ((0.0, 0.0), (200.0, 0.0), (240.0, 90.0), (30.0, 120.0))
    drawn = PolygonTile(id="slate-look", outline=corners)
    shed.bench.apply("Draw tile", lambda job: replace_tile(job, "slate-look", drawn))
    shed.tile.ways.buttons[0].click()
    settle()
    assert shed.tile.sizes.shape.value == "polygon"
    assert "240" in shed.tile.sizes.drawn.text() or "9 7/16" in shed.tile.sizes.drawn.text()
    assert shed.bench.plan is not None and shed.bench.plan.cut > 0
