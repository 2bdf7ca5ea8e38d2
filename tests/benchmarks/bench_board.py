"""How fast the board follows a hand, beside one big path of the same tiles in the same run.

A frame is everything from the event to the painted widget. The plain way paints every tile in one antialiased
path, as a first attempt would, and for a dragged start makes all tiles and the path anew. Time is what the
processor spent on this program, so that others running beside it count little; what tells is the ratio. Run
it by itself:

    python -m pytest tests/benchmarks/bench_board.py -m benchmark -s
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, cast

import numpy as np
import pytest
from msgspec.structs import replace
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QImage, QPainter, QPainterPath
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from tests.app.boards import board_on, drag_steps, job_with, turn_wheel
from tests.benchmarks.measured import Measured
from tests.rooms import floor_of, round_cutout, square_cutout
from tilelayout.app.board.board import Board
from tilelayout.app.paint.paths import polygons_path, rings_path
from tilelayout.job.values import RectangleTile, Surface
from tilelayout.layout.laying import Laid, lay

FRAME_MS = 1000.0 / 60.0
PAN, DRAG = "pan, all in sight", "drag the start"
SIZES = (2_000, 20_000, 100_000)
SIZE = (1280, 800)
TILE = RectangleTile(id="t", length=300, width=300)
PLANK = RectangleTile(id="t", length=447, width=222)
FLOORS: dict[str, tuple[RectangleTile, dict[str, Any]]] = {
    "rows": (TILE, {"pattern": "rows"}),
    "diagonal": (TILE, {"pattern": "rows", "angle": 45.0}),
    "herringbone": (PLANK, {"pattern": "herringbone"}),
}
LEAST_PAN: dict[int, float] = {100_000: 100.0}
LEAST_DRAG: dict[int, float] = {2_000: 2.0, 20_000: 18.0, 100_000: 70.0}
"""Ratios over the plain way that the medians are to reach."""


@dataclass(frozen=True)
class Times:
    """Milliseconds for each frame of one motion."""

    frames: NDArray[np.float64]

    @classmethod
    def of(cls, step: Callable[[int], None], count: int) -> Times:
        frames = []
        for at in range(count):
            start = time.process_time()
            step(at)
            frames.append((time.process_time() - start) * 1000.0)
        return cls(np.array(frames))

    @property
    def median(self) -> float:
        return float(np.median(self.frames))

    @property
    def late(self) -> float:
        return float(np.percentile(self.frames, 95))


def pan(board: Board, at: int) -> None:
    board._navigator.pan(7.0 if at % 40 < 20 else -7.0, 3.0 if at % 20 < 10 else -3.0)
    board.repaint()


def zoom(board: Board, at: int) -> None:
    turn_wheel(board, QPoint(640, 380), 0.5 if at % 12 < 6 else -0.5)
    board.repaint()


def all_in_one(laid: Laid) -> QPainterPath:
    """Return all tiles of a floor in one path."""
    whole = QPainterPath()
    for faces in laid.whole_faces:
        whole.addPath(polygons_path(faces))
    whole.addPath(rings_path([piece.outline for piece in laid.cut]))
    return whole


def painted(board: Board, path: QPainterPath) -> None:
    """Paint a path as the board stands."""
    picture = QImage(*SIZE, QImage.Format.Format_RGB32)
    with QPainter(picture) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setTransform(board.view.transform)
        painter.fillPath(path, Qt.GlobalColor.lightGray)


def plainly(board: Board) -> tuple[Times, Times]:
    """Paint, and drag, all tiles of the board as one path, as often as it takes to know the median."""
    plan = board.shown.plan
    assert plan is not None
    surface, tile, layout, region = plan.surface, plan.tile, plan.layout, plan.region
    path = all_in_one(plan.laid)

    def drag(at: int) -> None:
        start = (layout.start[0] + 7 * at, layout.start[1] + 5 * at)
        painted(board, all_in_one(lay(surface, tile, replace(layout, start=start), region)))

    return Times.of(lambda _at: painted(board, path), 5), Times.of(drag, 5)


def hall(area: float) -> Surface:
    """An L-shaped floor of an area with a drain and two posts, walls 16 : 15."""
    k = (area / 184.0) ** 0.5
    outline = ((0, 0), (16 * k, 0), (16 * k, 8 * k), (9 * k, 8 * k), (9 * k, 15 * k), (0, 15 * k))
    posts = (square_cutout(7000, 4000, 400, 3), square_cutout(5000, 9000, 600, 3))
    return floor_of(*outline, cutouts=(round_cutout(3000, 3130, 110, 3), *posts))


def raced(qtbot: QtBot, tiles: int, pattern: str) -> list[Measured]:
    """Pan, zoom and drag on one floor, and beside them the plain way."""
    tile, layout = FLOORS[pattern]
    room = hall(tiles * (tile.length + 3.0) * (tile.width + 3.0))
    board, session = board_on(qtbot, job_with(room, tile, start=(150, 140), **layout), "set-out", size=SIZE)
    board.repaint()
    plain, plain_drag = plainly(board)
    motions = moved(board)
    assert session.can_undo
    plan = board.shown.plan
    assert plan is not None
    print(
        f"\n{pattern}, {plan.whole} whole and {plan.cut} cut: one big path {plain.median:.1f} ms, "
        f"laid and painted anew {plain_drag.median:.1f} ms"
    )
    found = []
    for name, times in motions.items():
        beside = plain_drag if name == DRAG else plain
        ratio = beside.median / times.median
        print(f"  {name:20} {times.median:7.2f} ms, 95 % {times.late:7.2f} ms, ratio {ratio:7.1f}")
        what = f"{name}, {tiles:,} tiles, {pattern}"
        goals = {DRAG: LEAST_DRAG, PAN: LEAST_PAN}.get(name, {})
        found.append(Measured(f"{what}: 95 % of frames", times.late, FRAME_MS, is_limit=True, unit="ms"))
        found.append(Measured(f"{what}, over one big path", ratio, goals.get(tiles)))
    return found


def moved(board: Board) -> dict[str, Times]:
    """Move the board in every way; the times of each."""
    motions = {PAN: Times.of(lambda at: pan(board, at), 80)}
    motions["zoom, all in sight"] = Times.of(lambda at: zoom(board, at), 48)
    board.fit()
    board.repaint()
    steps = drag_steps(board, QPointF(board.rect().center()).toPoint())
    next(steps)
    motions[DRAG] = Times.of(lambda _at: next(steps), 60)
    steps.close()
    board._navigator.set_scale(0.08)
    motions["pan, close by"] = Times.of(lambda at: pan(board, at), 80)
    motions["zoom, close by"] = Times.of(lambda at: zoom(board, at), 48)
    return motions


class _Keeper:
    """Keeps the widgets while no test runner does."""

    def __init__(self) -> None:
        self._kept: list[QWidget] = []

    def addWidget(self, widget: QWidget) -> None:
        self._kept.append(widget)


def measured() -> list[Measured]:
    """Race on every floor of every size."""
    application = QApplication.instance() or QApplication([])
    keeper = cast("QtBot", _Keeper())
    found = [row for tiles in SIZES for pattern in FLOORS for row in raced(keeper, tiles, pattern)]
    application.processEvents()
    return found


@pytest.mark.benchmark
@pytest.mark.parametrize("pattern", FLOORS)
@pytest.mark.parametrize("tiles", SIZES)
def test_frames_of_pan_zoom_and_drag_beside_one_big_path(qtbot: QtBot, tiles: int, pattern: str) -> None:
    ratios = [row for row in raced(qtbot, tiles, pattern) if row.unit == "x"]
    assert [row.what for row in ratios if not row.is_near] == []
