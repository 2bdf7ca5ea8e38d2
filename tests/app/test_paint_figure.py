"""A device-free figure painted on the screen: where its marks come to lie, and in which colours."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from pytestqt.qtbot import QtBot

from tilelayout.app.look import Look
from tilelayout.app.paint.figure_painter import paint_figure
from tilelayout.reports.figure import Align, Figure, Mark, Path, Pen, Role, Text

INTO = QRectF(50, 20, 400, 200)


def painted(*marks: Mark, largest: float = 12.0) -> QImage:
    """Paint a figure of 100 by 100 mm into 400 by 200 px: 2 px to the mm, 100 px in from the left."""
    picture = QImage(500, 240, QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.white)
    with QPainter(picture) as painter:
        paint_figure(painter, Figure(marks, 100.0, 100.0), INTO, Look(), largest=largest)
    return picture


def ring(left: float, bottom: float, side: float) -> NDArray[np.float64]:
    right, top = left + side, bottom + side
    return np.array([(left, bottom), (right, bottom), (right, top), (left, top)])


def is_white(colour: QColor) -> bool:
    return colour == QColor(Qt.GlobalColor.white)


def ink_columns(picture: QImage) -> list[int]:
    return [
        x
        for x in range(picture.width())
        if not all(is_white(picture.pixelColor(x, y)) for y in range(picture.height()))
    ]


def test_the_lower_left_of_the_figure_is_the_lower_left_of_its_place(qtbot: QtBot) -> None:
    picture = painted(Path((ring(0, 0, 10),), None, Role.SLIVER, is_closed=True))
    assert picture.pixelColor(160, 210) == Look().colour("sliver")
    assert is_white(picture.pixelColor(148, 210))
    assert is_white(picture.pixelColor(160, 190))


def test_a_ring_in_a_ring_stays_open(qtbot: QtBot) -> None:
    picture = painted(Path((ring(20, 20, 60), ring(40, 40, 20)), None, Role.WALL, is_closed=True))
    assert picture.pixelColor(200, 120) == Look().colour("wall")
    assert is_white(picture.pixelColor(250, 120))


def test_a_hairline_is_still_a_whole_pixel(qtbot: QtBot) -> None:
    line = Path((np.array([(0.0, 50.25), (100.0, 50.25)]),), Pen(Role.INK, 0.01))
    picture = painted(line)
    darkest = min(picture.pixelColor(250, y).lightness() for y in range(20, 220))
    assert darkest <= Look().colour("ink").lightness() + 40


def test_text_is_placed_by_the_end_that_its_alignment_names(qtbot: QtBot) -> None:
    left, centre, right = (
        ink_columns(painted(Text((50.0, 50.0), "243", 10.0, align=align)))
        for align in (Align.LEFT, Align.CENTRE, Align.RIGHT)
    )
    assert min(left) >= 249
    assert abs((min(centre) + max(centre)) / 2 - 250) <= 3
    assert max(right) <= 252


def test_a_figure_is_not_blown_up_beyond_what_is_asked(qtbot: QtBot) -> None:
    picture = painted(Path((ring(0, 0, 100),), None, Role.INK, is_closed=True), largest=0.5)
    columns = ink_columns(picture)
    assert 48 <= len(columns) <= 52
