"""What stands along a wall: the border cut in size and as a share of a tile; lines as thick on any screen."""

from __future__ import annotations

import numpy as np
import pytest
from PySide6.QtCore import QLineF
from PySide6.QtGui import QColor, QImage, QPainter
from pytestqt.qtbot import QtBot

from tests.app.boards import job_with
from tests.rooms import rectangle
from tilelayout.app.board.layers.gauges import share_words
from tilelayout.app.paint.strokes import line_pen
from tilelayout.job.values import RectangleTile
from tilelayout.planning.plan import plan

SQUARE = RectangleTile(id="t", length=400, width=400)


def shares(start: tuple[float, float]) -> dict[int, str]:
    """The words of every wall of a room by its edge."""
    job = job_with(rectangle(2000, 1300), SQUARE, start=start, joint=0.0, gap=0.0)
    return {cut.edge: share_words(cut) for cut in plan(job, "A").borders}


def test_a_cut_is_said_as_a_share_of_a_tile_and_a_whole_tile_is_not() -> None:
    found = shares((100.0, 0.0))  # by hand: 100 and 300 of 400 across, whole and 100 of 400 up
    assert found == {0: "", 1: "75 %", 2: "25 %", 3: "25 %"}


@pytest.mark.parametrize("ratio", [1.0, 2.0])
@pytest.mark.parametrize("width", [1.0, 2.4, 7.0])
def test_a_line_is_as_thick_on_a_screen_of_finer_pixels(qtbot: QtBot, ratio: float, width: float) -> None:
    image = QImage(round(40 * ratio), round(40 * ratio), QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(ratio)
    image.fill(QColor("white"))
    with QPainter(image) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(line_pen(QColor("black"), width))
        painter.drawLine(QLineF(20.0, 5.0, 20.0, 35.0))
    row = np.array([image.pixelColor(x, round(20 * ratio)).lightnessF() for x in range(image.width())])
    assert (1.0 - row).sum() == pytest.approx(width * ratio, rel=0.03)
