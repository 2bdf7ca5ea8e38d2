"""How fast the board follows a hand, beside one big path of the same tiles in the same run.

A frame is everything from the event to the painted widget. The plain way paints every tile in one antialiased
path, as a first attempt would. Times depend on the machine; the ratios are what tells. Run it by itself:

    python -m pytest tests/benchmarks/bench_board.py -m benchmark -s
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QImage, QPainter, QPainterPath
from pytestqt.qtbot import QtBot

from tests.app.boards import board_on, drag_steps, job_with, turn_wheel
from tests.rooms import rectangle
from tilelayout.app.board.board import Board
from tilelayout.app.paint.paths import polygons_path
from tilelayout.job.values import RectangleTile

FRAME_MS = 1000.0 / 60.0
SIZE = (1280, 800)
TILE = RectangleTile(id="t", length=300, width=300)
FLOORS: dict[str, dict[str, Any]] = {"rows": {"pattern": "rows"}, "herringbone": {"pattern": "herringbone"}}


@dataclass(frozen=True)
class Times:
    """Milliseconds for each frame of one motion."""

    frames: NDArray[np.float64]

    @classmethod
    def of(cls, step: Callable[[int], None], count: int) -> Times:
        frames = []
        for at in range(count):
            start = time.perf_counter()
            step(at)
            frames.append((time.perf_counter() - start) * 1000.0)
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


def one_big_path(board: Board) -> Times:
    """Paint all tiles of the board as one path, as often as it takes to know the median."""
    plan = board.shown.plan
    assert plan is not None
    whole = QPainterPath()
    for faces in plan.laid.whole_faces:
        whole.addPath(polygons_path(faces))
    picture = QImage(*SIZE, QImage.Format.Format_RGB32)

    def paint(_at: int) -> None:
        with QPainter(picture) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setTransform(board.view.transform)
            painter.fillPath(whole, Qt.GlobalColor.lightGray)

    return Times.of(paint, 5)


@pytest.mark.benchmark
@pytest.mark.parametrize("pattern", FLOORS)
@pytest.mark.parametrize("tiles", [2_000, 20_000, 100_000])
def test_frames_of_pan_zoom_and_drag_beside_one_big_path(qtbot: QtBot, tiles: int, pattern: str) -> None:
    tile = TILE if pattern == "rows" else RectangleTile(id="t", length=447, width=222)
    area = tiles * 303.0**2 if pattern == "rows" else tiles * 450.0 * 225.0
    side = area**0.5
    board, session = board_on(
        qtbot,
        job_with(rectangle(side * 1.25, side / 1.25), tile, start=(150, 140), **FLOORS[pattern]),
        "set-out",
        size=SIZE,
    )
    board.repaint()
    plain = one_big_path(board)
    motions = {"pan, all in sight": Times.of(lambda at: pan(board, at), 80)}
    motions["zoom, all in sight"] = Times.of(lambda at: zoom(board, at), 48)
    board.fit()
    board.repaint()
    grip = QPointF(board.rect().center()).toPoint()
    steps = drag_steps(board, grip)
    next(steps)
    motions["drag the start"] = Times.of(lambda _at: next(steps), 40)
    steps.close()
    board._navigator.set_scale(0.08)
    motions["pan, close by"] = Times.of(lambda at: pan(board, at), 80)
    motions["zoom, close by"] = Times.of(lambda at: zoom(board, at), 48)
    assert session.can_undo
    plan = board.shown.plan
    assert plan is not None
    print(f"\n{pattern}, {plan.whole} whole and {plan.cut} cut: one big path {plain.median:.1f} ms")
    for name, times in motions.items():
        ratio = plain.median / times.median
        in_time = "in time" if times.late <= FRAME_MS else "late"
        print(
            f"  {name:20} {times.median:7.2f} ms, 95 % {times.late:7.2f} ms ({in_time}), ratio {ratio:7.1f}"
        )
    assert motions["pan, all in sight"].median < plain.median
