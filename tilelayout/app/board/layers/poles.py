"""Story poles along the lower and left sides of the board.

Where a layout is shown they are sticks held against the fixed wall, with the joints marked and numbered as
a person would write them on the wood, every number measured from the wall. Otherwise they are plain scales.
An upright pole is painted as a level one, turned.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF
from PySide6.QtGui import QPainter

from tilelayout.app.board.shown import Shown
from tilelayout.app.board.steps import round_step, whole_times
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, mixed
from tilelayout.app.paint.strokes import fill_box, line_pen
from tilelayout.app.paint.texts import text_size
from tilelayout.base.units import LengthStyle, format_length, metric_number
from tilelayout.planning.joints import RunningMarks

POLE = 28.0
"""Breadth of a pole in px."""

_LONG, _SHORT = 0.42, 0.22
"""Lengths of ticks with and without a number, as shares of the breadth."""

_LEAST_TICK = 4.0
_LEAST_SCALE_TICK = 7.0


@dataclass(frozen=True)
class Strip:
    """Where a pole lies on the screen: `rect`, running along x (lower side) or y (left side)."""

    rect: QRectF
    is_upright: bool

    @property
    def length(self) -> float:
        """Length in px."""
        return self.rect.height() if self.is_upright else self.rect.width()

    def along(self, view: View, place: float) -> float:
        """Return how far along the pole (px from its left or lower end) a surface coordinate lies."""
        if self.is_upright:
            return self.rect.bottom() - (view.top - view.scale * place)
        return view.left + view.scale * place - self.rect.left()

    def span(self, view: View) -> tuple[float, float]:
        """Return the surface coordinates at both ends of the strip."""
        left, bottom, right, top = view.surface_rect(self.rect)
        return (bottom, top) if self.is_upright else (left, right)

    def turn(self, painter: QPainter) -> None:
        """Let the painter see a level pole: x along it, y from its board side (0) to its far side (POLE)."""
        if self.is_upright:
            painter.translate(self.rect.right(), self.rect.bottom())
            painter.rotate(-90.0)
            painter.scale(1.0, -1.0)
        else:
            painter.translate(self.rect.topLeft())


@dataclass(frozen=True)
class _Tick:
    """A mark `at` px along the pole, with its number if it has one."""

    at: float
    number: str = ""


def strips(width: float, height: float) -> tuple[Strip, Strip]:
    """Return the lower and the left pole of a board of this size in px."""
    lower = Strip(QRectF(POLE, height - POLE, width - POLE, POLE), False)
    return lower, Strip(QRectF(0.0, 0.0, POLE, height - POLE), True)


def paint_pole(
    painter: QPainter, strip: Strip, marks: RunningMarks | None, shown: Shown, view: View, colours: Colours
) -> None:
    """Paint one pole: a marked stick if there are marks, else a plain scale."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.fillRect(strip.rect, mixed(colours.colour("paper"), colours.colour("faint_ink"), 0.12))
    painter.save()
    strip.turn(painter)
    if marks is None:
        ticks, weight = _scale_ticks(painter, strip, shown, view), 1.0
        _paint_stick(painter, 0.0, strip.length, colours)
    else:
        ticks = _joint_ticks(painter, strip, marks, view, shown.style)
        weight = max(1.0, min(marks.joint * view.scale, 4.0))
        start, end = strip.along(view, marks.zero), strip.along(view, marks.zero + marks.end)
        _paint_stick(painter, start, end, colours)
        fill_box(painter, QRectF(start - 2.0, 0.0, 3.0, POLE), colours.colour("stick_ink"))
    _paint_ticks(painter, ticks, weight, colours)
    painter.restore()
    _paint_numbers(painter, strip, ticks, colours)
    painter.restore()


def paint_pole_pointer(painter: QPainter, strip: Strip, at: QPointF, colours: Colours) -> None:
    """Mark on a pole where the pointer is."""
    colour = colours.colour("accent")
    if strip.is_upright:
        painter.fillRect(QRectF(strip.rect.left(), at.y() - 1.0, POLE, 2.0), colour)
    else:
        painter.fillRect(QRectF(at.x() - 1.0, strip.rect.top(), 2.0, POLE), colour)


def stick_number(distance: float, style: LengthStyle) -> str:
    """Return a distance as it is written on a stick: without the unit where that is metric.

    >>> stick_number(303.0, LengthStyle.MM)
    '303'
    """
    sign = "-" if distance < -1e-9 else ""
    away = abs(distance)
    return sign + (metric_number(away, style) if style.is_metric else format_length(away, style))


def _joint_ticks(
    painter: QPainter, strip: Strip, marks: RunningMarks, view: View, style: LengthStyle
) -> list[_Tick]:
    """Return the joints in sight; where they crowd, only every n-th is marked or numbered."""
    places = np.array(marks.marks)
    if not len(places):
        return []
    spacing = (places[-1] - places[0]) / max(len(places) - 1, 1) * view.scale or 1e9
    every = max(1, math.ceil(_LEAST_TICK / spacing))
    numbered = every * max(1, math.ceil(_number_room(painter, style) / (spacing * every)))
    low, high = strip.span(view)
    first, last = np.searchsorted(places, (low - marks.zero, high - marks.zero))
    counts = range(-(-int(first) // every) * every, int(last), every)
    return [
        _Tick(
            strip.along(view, marks.zero + marks.marks[count]),
            stick_number(marks.marks[count], style) if count % numbered == 0 else "",
        )
        for count in counts
    ]


def _scale_ticks(painter: QPainter, strip: Strip, shown: Shown, view: View) -> list[_Tick]:
    """Return the ticks of a plain scale from the left or lower end of what is drawn."""
    zero = shown.bounds.bottom if strip.is_upright else shown.bounds.left
    if shown.shape is None:
        zero = 0.0
    fine = round_step(shown.style, _LEAST_SCALE_TICK / view.scale)
    coarse = whole_times(fine, _number_room(painter, shown.style) / view.scale, shown.style)
    every = round(coarse / fine)
    low, high = strip.span(view)
    counts = range(math.ceil((low - zero) / fine), math.floor((high - zero) / fine) + 1)
    return [
        _Tick(
            strip.along(view, zero + count * fine),
            stick_number(count * fine, shown.style) if count % every == 0 else "",
        )
        for count in counts
    ]


def _number_room(painter: QPainter, style: LengthStyle) -> float:
    return text_size(painter, stick_number(12345.6, style))[0] + 12.0


def _paint_stick(painter: QPainter, start: float, end: float, colours: Colours) -> None:
    """Paint the wood between two places: its tone, some grain, its edges.

    Its lines are boxes of mixed colours: a long line to be seen through takes a hundred times as long.
    """
    ink, stick = colours.colour("stick_ink"), colours.colour("stick")
    fill_box(painter, QRectF(start, 0.0, end - start, POLE), stick)
    for share in (0.31, 0.55, 0.83):
        fill_box(painter, QRectF(start, round(POLE * share), end - start, 1.0), mixed(stick, ink, 0.13))
    for edge in (QRectF(start, 0.0, end - start, 1.0), QRectF(end, 0.0, 1.0, POLE)):
        fill_box(painter, edge, mixed(stick, ink, 0.7))


def _paint_ticks(painter: QPainter, ticks: list[_Tick], weight: float, colours: Colours) -> None:
    ink, pale = colours.colour("stick_ink"), mixed(colours.colour("stick"), colours.colour("stick_ink"), 0.65)
    for colour, share, with_number in ((pale, _SHORT, False), (ink, _LONG, True)):
        chosen = [tick.at for tick in ticks if bool(tick.number) is with_number]
        painter.setPen(line_pen(colour, weight))
        painter.drawLines([QLineF(at, 0.0, at, POLE * share) for at in chosen])


def _paint_numbers(painter: QPainter, strip: Strip, ticks: list[_Tick], colours: Colours) -> None:
    """Write the numbers on the far side of the pole; on an upright one they are read from the right."""
    painter.save()
    if strip.is_upright:
        painter.translate(strip.rect.bottomLeft())
        painter.rotate(-90.0)
        base = POLE * 0.42
    else:
        painter.translate(strip.rect.topLeft())
        base = POLE * 0.84
    painter.setPen(colours.colour("stick_ink"))
    for tick in ticks:
        if tick.number:
            width = text_size(painter, tick.number)[0]
            if not width / 2 <= tick.at <= strip.length - width / 2:
                continue
            painter.drawText(QPointF(tick.at - width / 2, base), tick.number)
    painter.restore()
