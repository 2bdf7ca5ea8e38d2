"""A mosaic sheet in the window: added and sized by mouse and keys, shown chip by chip, undone in one step."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, close, on_board, potting_shed, settle
from tests.cli.calls import SAMPLES
from tilelayout.app.bench import Stage
from tilelayout.app.window import Window
from tilelayout.job.values import HexagonMosaicTile, MosaicTile
from tilelayout.planning.open_job import open_job

SHOWER = SAMPLES / "shower_floor.tilejob"


@pytest.fixture
def shed(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window on a floor with a square tile that is laid."""
    made = bare_window(tmp_path / "settings", potting_shed())
    made.bench.show(stage=Stage.TILE)
    settle()
    yield made
    close(made)


@pytest.fixture
def shower(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window on the shower floor."""
    made = bare_window(tmp_path / "settings", open_job(SHOWER))
    made.bench.show(stage=Stage.TILE)
    settle()
    yield made
    close(made)


def typed(box: QWidget, text: str) -> None:
    """Click into a box, type over what it says, and go on with Tab, as a person would."""
    field = box.focusProxy() or box
    assert isinstance(field, QWidget)
    QTest.mouseClick(field, Qt.MouseButton.LeftButton, pos=QPoint(4, field.height() // 2))
    QTest.keySequence(field, "Ctrl+A")
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Tab)
    settle()


def sheet_of(window: Window) -> MosaicTile:
    tile = window.bench.tile
    assert isinstance(tile, MosaicTile)
    return tile


def test_a_tile_becomes_a_mosaic_sheet_laid_with_the_joint_of_its_chips(shed: Window) -> None:
    before = shed.bench.job
    shed.tile.sizes.shape.choose("mosaic")
    settle()
    layout = shed.bench.layout
    assert layout is not None and layout.pattern == "mosaic"
    assert layout.joint == sheet_of(shed).chip_joint
    assert shed.bench.plan is not None and shed.bench.plan.chips is not None and not shed.bench.trouble
    shed.bench.session.undo()
    assert shed.bench.job == before


def test_the_sizes_are_typed_on_the_card(shower: Window) -> None:
    sizes = shower.tile.sizes
    assert not sizes.lengths["length"].isVisible()
    typed(sizes.lengths["chip_length"], "48")
    typed(sizes.counts["chips_across"], "6")
    typed(sizes.counts["chips_up"], "10")
    tile = sheet_of(shower)
    assert (tile.chip_length, tile.chips_across, tile.chips_up) == (48.0, 6, 10)
    assert isinstance(tile.chips_up, int)
    assert (tile.sheet_length, tile.sheet_width) == (298.0, 248.0)
    assert shower.bench.plan is not None and shower.bench.plan.chips is not None


def test_another_joint_between_chips_is_laid_at_once_and_undone_at_once(shower: Window) -> None:
    before = shower.bench.job
    typed(shower.tile.sizes.lengths["chip_joint"], "3")
    assert sheet_of(shower).chip_joint == 3.0
    assert {layout.joint for layout in shower.bench.job.layouts} == {3.0}
    assert not shower.bench.trouble
    shower.bench.session.undo()
    assert shower.bench.job == before


def test_a_joint_that_does_not_run_through_is_refused_in_words(shower: Window) -> None:
    typed(shower.tile.joint, "3")
    assert "Use a joint of 2 mm" in shower.bench.trouble


@pytest.mark.parametrize("wrong", ["0", "2.5", "many"])
def test_a_count_that_is_none_is_refused_beside_its_box(shower: Window, wrong: str) -> None:
    before = shower.bench.job
    typed(shower.tile.sizes.counts["chips_up"], wrong)
    assert shower.tile.sizes.counts["chips_up"].wrong.isVisible()
    assert shower.bench.job == before


def test_chips_are_told_apart_once_they_are_large_on_the_board(shower: Window) -> None:
    """Across the joint between the first two chips of a sheet a light line shows, once one has come near."""
    layout = shower.bench.layout
    assert layout is not None
    x, y = layout.start[0] + 12 * 25 + 24.0, layout.start[1] + 300 + 12.0
    shower.place.sight.fit()
    settle()
    assert shower.board.view.scale * 23 > 5
    picture = shower.board.grab().toImage()
    on_joint, on_chip = (_seen(picture, on_board(shower, x + off, y)) for off in (0.0, 12.5))
    assert on_joint != on_chip


def _seen(picture: QImage, at: QPoint) -> QColor:
    ratio = picture.devicePixelRatio()
    return picture.pixelColor(round(at.x() * ratio), round(at.y() * ratio))


def test_the_shape_of_the_chips_is_chosen_by_keys_and_undone_in_one_step(shower: Window) -> None:
    sizes, before = shower.tile.sizes, shower.bench.job
    assert sizes.chips.isVisible() and sizes.chips.accessibleName() == "Shape of the chips"
    sizes.chips.setFocus()
    QTest.keyClick(sizes.chips, Qt.Key.Key_Down)
    settle()
    tile = shower.bench.tile
    assert isinstance(tile, HexagonMosaicTile) and not shower.bench.trouble
    assert sizes.shape.value == "mosaic" and sizes.chips.value == "hexagon-mosaic"
    assert sizes.chip_across.isVisible() and not sizes.lengths["chip_length"].isVisible()
    assert not sizes.lengths["across_flats"].isVisible()
    typed(sizes.chip_across, "48")
    assert isinstance(shower.bench.tile, HexagonMosaicTile) and shower.bench.tile.across_flats == 48.0
    shower.bench.session.undo()
    shower.bench.session.undo()
    assert shower.bench.job == before


@pytest.mark.parametrize(("shape", "size"), [("hexagon-mosaic", 23.0), ("round-mosaic", 19.0)])
def test_between_hexagons_and_round_chips_the_joint_shows(shower: Window, shape: str, size: float) -> None:
    """In a whole sheet the middle of a chip has the tone of a tile, the place between three chips has not."""
    shower.tile.sizes.chips.choose(shape)
    settle()
    made = shower.bench.plan
    assert made is not None and made.chips is not None
    sheet = next(piece for piece in made.laid.pieces() if piece.whole)
    pitch = size + made.layout.joint
    first = np.array([size / 2, size / sqrt(3)])
    chip = sheet.outline.min(axis=0) + first + 4 * pitch * np.array([1.0, sqrt(3) / 2])
    between = chip + pitch * np.array([1 / 2, 1 / sqrt(12)])
    shower.place.sight.fit()
    settle()
    picture = shower.board.grab().toImage()
    on_chip, on_joint = (_seen(picture, on_board(shower, *at.tolist())) for at in (chip, between))
    assert on_joint != on_chip
