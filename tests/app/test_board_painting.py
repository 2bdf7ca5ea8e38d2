"""What the board paints, read back pixel by pixel."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.app.boards import board_on, drag, job_with, pixel
from tests.rooms import L_SHAPED, PLAIN, WITH_HOLES, floor_of, rectangle
from tilelayout.app.board.board import Board
from tilelayout.app.board.layers import tiles
from tilelayout.app.board.layers.poles import POLE, stick_number
from tilelayout.app.board.layers.sheet import Sheets
from tilelayout.app.look import Look, Scheme
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Edge, EdgeRole, HexagonTile, RectangleTile, Visibility

TILE = RectangleTile(id="t", length=300, width=300)
PATTERNS = [
    pytest.param(RectangleTile(id="t", length=97, width=97), {"pattern": "rows"}, id="grid"),
    pytest.param(
        RectangleTile(id="t", length=197, width=97),
        {"pattern": "rows", "settings": {"row_offsets": [0, 1 / 3, 2 / 3]}, "angle": 30},
        id="stepped third at 30 degrees",
    ),
    pytest.param(RectangleTile(id="t", length=197, width=97), {"pattern": "herringbone"}, id="herringbone"),
    pytest.param(HexagonTile(id="t", across_flats=97), {"pattern": "hexagon"}, id="hexagon"),
]


def image(board: Board) -> QImage:
    QApplication.processEvents()
    return board.grab().toImage()


def colour_at(picture: QImage, at: QPoint) -> QColor:
    return picture.pixelColor(at)


def is_like(colour: QColor, other: QColor, tolerance: int = 6) -> bool:
    differences = (
        colour.red() - other.red(),
        colour.green() - other.green(),
        colour.blue() - other.blue(),
    )
    return max(map(abs, differences)) <= tolerance


def greys(picture: QImage) -> NDArray[np.float64]:
    grey = picture.convertToFormat(QImage.Format.Format_Grayscale8)
    raw = np.frombuffer(grey.constBits(), np.uint8).reshape(grey.height(), grey.bytesPerLine())
    return raw[:, : grey.width()].astype(float)


def test_a_whole_tile_has_its_face_and_a_cut_one_a_tint(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN, TILE, start=(200, 200), gap=0), "tile")
    look, shown = Look(), image(board)
    assert is_like(colour_at(shown, pixel(board, (1250, 1250))), look.colour("tile_face"))
    assert is_like(colour_at(shown, pixel(board, (100, 350))), look.colour("cut_tint"))


def test_a_joint_is_seen_at_every_zoom_down_to_tiles_of_a_few_pixels(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(rectangle(9000, 9000), TILE, joint=1.5, gap=0), "tile")
    for _ in range(7):
        board.zoom_out()
        shown = greys(image(board))
        at = pixel(board, (4500, 4500))
        around = shown[at.y() - 20 : at.y() + 20, at.x() - 20 : at.x() + 20]
        if 301.5 * board.view.scale > tiles.FLAT_BELOW + 1:
            assert np.ptp(around) > 25


def test_tiles_of_a_pixel_or_two_are_an_even_tone(qtbot: QtBot) -> None:
    small = RectangleTile(id="t", length=20, width=20)
    board, _ = board_on(qtbot, job_with(rectangle(9000, 9000), small, gap=0), "tile", size=(500, 500))
    shown = greys(image(board))
    at = pixel(board, (4500, 4500))
    assert np.ptp(shown[at.y() - 15 : at.y() + 15, at.x() - 15 : at.x() + 15]) <= 2


@pytest.mark.parametrize(("tile", "layout"), PATTERNS)
def test_the_texture_shows_what_the_single_tiles_show(
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tile: RectangleTile | HexagonTile,
    layout: dict[str, Any],
) -> None:
    pictures = []
    for most in (100_000, 0):
        monkeypatch.setattr(tiles, "MOST_PATHS", most)
        board, _ = board_on(qtbot, job_with(L_SHAPED, tile, joint=3, start=(333, 217), **layout), "tile")
        board.zoom_in()
        pictures.append(greys(image(board)))
    difference = np.abs(pictures[0] - pictures[1])
    assert difference.mean() < 3.0
    assert np.corrcoef(pictures[0].ravel(), pictures[1].ravel())[0, 1] > 0.97


@pytest.mark.parametrize(("tile", "layout"), PATTERNS)
def test_in_a_drag_the_tiles_are_where_they_are_at_rest_but_for_half_a_pixel(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tile: RectangleTile | HexagonTile, layout: dict[str, Any]
) -> None:
    monkeypatch.setattr(tiles, "MOST_PATHS", 0)
    board, _ = board_on(qtbot, job_with(L_SHAPED, tile, joint=3, start=(333, 217), **layout), "tile")
    board.zoom_in()
    plan = board.shown.plan
    assert plan is not None
    layer, look, pictures = tiles.TileLayer(plan, Sheets()), Look(), []
    for is_quick in (False, True, True):
        picture = QImage(board.size(), QImage.Format.Format_RGB32)
        picture.fill(look.colour("paper"))
        with QPainter(picture) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            layer.paint(painter, QRectF(board.rect()), board.view, look, is_quick=is_quick)
        pictures.append(greys(picture))
    still, moving, again = pictures
    np.testing.assert_array_equal(moving, again)
    assert np.abs(still - moving).mean() < 3.0
    assert np.corrcoef(still.ravel(), moving.ravel())[0, 1] > 0.9


def test_a_sliver_is_hatched_and_outlined(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN, TILE, joint=3, start=(30, 0), gap=0), "tile")
    plan = board.shown.plan
    assert plan is not None
    sliver = next(piece for piece in plan.slivers if piece.area > 5000)
    x, y = sliver.outline.mean(axis=0)
    middle = (float(x), float(y))
    for _ in range(4):
        board.zoom_in()
    at = pixel(board, middle)
    drag_into_view(board, at)
    at = pixel(board, middle)
    shown = image(board)
    colour = Look().colour("sliver")
    column = [is_like(colour_at(shown, at + QPoint(0, dy)), colour, 40) for dy in range(-40, 40)]
    changes = sum(a != b for a, b in pairwise(column))
    assert changes >= 8


def drag_into_view(board: Board, at: QPoint) -> None:
    middle = board.rect().center()
    board._navigator.pan(middle.x() - at.x(), middle.y() - at.y())


def test_walls_are_thick_doorways_open_and_hidden_edges_dashed(qtbot: QtBot) -> None:
    room = floor_of(
        *PLAIN.outline,
        edges=(
            Edge(at=0, role=EdgeRole.DOORWAY),
            Edge(at=1, seen=Visibility.HIDDEN),
            Edge(at=2, role=EdgeRole.OPEN),
        ),
    )
    board, _ = board_on(qtbot, job_with(room), "measure")
    shown, wall = image(board), Look().colour("wall")

    def share_of_wall(outside: QPoint, ends: tuple[QPoint, QPoint]) -> float:
        start, end = ends
        places = [start + (end - start) * step / 199 + outside for step in range(15, 185)]
        return sum(is_like(colour_at(shown, at), wall, 30) for at in places) / len(places)

    corners = [pixel(board, corner) for corner in room.outline]
    assert share_of_wall(QPoint(-3, 0), (corners[3], corners[0])) == 1.0
    assert share_of_wall(QPoint(0, 4), (corners[0], corners[1])) == 0.0
    assert 0.4 < share_of_wall(QPoint(2, 0), (corners[1], corners[2])) < 0.9
    assert share_of_wall(QPoint(0, -4), (corners[2], corners[3])) == 0.0


def test_a_cutout_is_a_hole_and_no_tile(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(WITH_HOLES, TILE), "tile")
    shown = image(board)
    assert not is_like(colour_at(shown, pixel(board, (1880, 970))), Look().colour("tile_face"))


def test_the_dark_look_is_taken_at_once(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN), "measure")
    corner = QPoint(board.width() - 10, 10)
    assert colour_at(image(board), corner) == Look().colour("paper")
    board._look.choose(Scheme.DARK)
    assert colour_at(image(board), corner) == Look(dark=True).colour("paper")


def test_a_pushed_paper_looks_the_same_as_one_painted_there(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(L_SHAPED, TILE, joint=3), "set-out")
    image(board)
    for _ in range(3):
        board._navigator.pan(23.0, -11.0)
        pushed = image(board)
    board._picture.forget()
    anew = image(board)
    inner = (slice(0, int(board.height() - POLE)), slice(int(POLE), None))
    assert np.abs(greys(pushed)[inner] - greys(anew)[inner]).max() <= 1


def test_the_board_paints_at_every_stage_and_unit_without_trouble(qtbot: QtBot) -> None:
    for style in LengthStyle:
        for stage in ("measure", "tile", "set-out", "cut"):
            board, _ = board_on(qtbot, job_with(WITH_HOLES, TILE, style), stage, dark=stage == "cut")
            assert np.ptp(greys(image(board))) > 50
            board.hide()


def test_a_start_dragged_shows_other_tiles_at_once(qtbot: QtBot) -> None:
    board, _ = board_on(qtbot, job_with(PLAIN, TILE, start=(200, 200), gap=0), "set-out")
    before = greys(image(board))
    drag(board, QPoint(400, 300), QPoint(437, 300))
    assert np.abs(before - greys(image(board))).mean() > 1


def test_numbers_on_a_stick_have_no_metric_unit() -> None:
    assert stick_number(303.0, LengthStyle.MM) == "303"
    assert stick_number(-300.0, LengthStyle.CM) == "-30"
    assert stick_number(304.8, LengthStyle.INCH) == '12"'


def test_twenty_thousand_tiles_painted_one_by_one_leave_the_program_alive(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tiles, "MOST_PATHS", 100_000)
    small = RectangleTile(id="t", length=47, width=47)
    board, _ = board_on(qtbot, job_with(rectangle(7000, 7000), small, gap=0), "tile", size=(1000, 1000))
    plan = board.shown.plan
    assert plan is not None
    assert plan.whole > 19_000
    assert np.ptp(greys(image(board))) > 50
