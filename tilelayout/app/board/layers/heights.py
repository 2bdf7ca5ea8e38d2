"""The survey on the board: tones and contours of its heights, its readings, the worst straightedge.

Nothing rests on the tones alone: contours carry their heights and readings their figures, and what looks
mistyped is ringed and marked with a question mark.
"""

from __future__ import annotations

from math import dist, hypot

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPolygonF

from tilelayout.app.board.layers.sits import paint_sits
from tilelayout.app.board.shown import Shown
from tilelayout.app.board.surface_shape import SurfaceShape
from tilelayout.app.board.view import View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.paths import lines_path, rings_path
from tilelayout.app.paint.strokes import line_pen
from tilelayout.app.paint.texts import paint_words, text_size
from tilelayout.app.surface.sight import Given, HeightMap, Mark, Sight
from tilelayout.base.heights import format_height
from tilelayout.flatness.contours import label_place
from tilelayout.flatness.mesh import Points
from tilelayout.flatness.values import Chord

_DOT = 2.6
_FOOT = 22.0
"""A figure stands below its reading where there is so much room (px) above the wall, else above it."""

_LABEL = (44.0, 30.0)
"""A contour's label stands no nearer to a reading across and up than this (px)."""

_LEAST_BETWEEN = 40.0
"""Readings nearer to each other on the screen than this are dots without figures."""


def paint_sight(painter: QPainter, sight: Sight, shown: Shown, view: View, colours: Colours) -> None:
    """Paint a survey over the bare surface."""
    painter.save()
    if sight.heights is not None and shown.shape is not None:
        _paint_map(painter, sight.heights, shown, view)
        _paint_contours(painter, sight.heights, shown.shape, view, colours)
    for gap in sight.gaps:
        words = f"gap {format_height(gap.gap, sight.style)}"
        share = gap.along / max(dist(gap.start, gap.end), 1e-9)
        at = tuple(a + share * (b - a) for a, b in zip(gap.start, gap.end, strict=True))
        _paint_straightedge(painter, Chord(gap.start, gap.end, (at[0], at[1]), gap.gap), words, view, colours)
    if sight.sits is not None:
        paint_sits(painter, sight.sits, view, colours)
    else:
        _paint_readings(painter, sight.marks, shown, view, colours)
    for given in sight.meets:
        _paint_given(painter, given, view, colours)
    if sight.chord is not None:
        _paint_straightedge(painter, sight.chord, sight.chord_words, view, colours)
    painter.restore()


def _paint_map(painter: QPainter, heights: HeightMap, shown: Shown, view: View) -> None:
    shape = shown.shape
    assert shape is not None
    low, high = heights.box
    box = QRectF(view.to_screen(low[0], high[1]), view.to_screen(high[0], low[1]))
    painter.save()
    painter.setClipPath(_ground_path(shape, view), Qt.ClipOperation.IntersectClip)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(box, heights.image)
    painter.restore()


def _ground_path(shape: SurfaceShape, view: View) -> QPainterPath:
    """The surface without its cutouts, on the screen."""
    return rings_path([view.all_to_screen(ring) for ring in (shape.ring, *shape.cutouts)])


def _paint_contours(
    painter: QPainter, heights: HeightMap, shape: SurfaceShape, view: View, colours: Colours
) -> None:
    ground = _ground_path(shape, view)
    painter.save()
    painter.setClipPath(ground, Qt.ClipOperation.IntersectClip)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    paper, ink = colours.colour("paper"), colours.colour("ink")
    for contour in heights.contours:
        path = lines_path([view.all_to_screen(piece) for piece in contour.pieces])
        painter.setPen(line_pen(faded(paper, 0.75), 3.0))
        painter.drawPath(path)
        painter.setPen(line_pen(ink, 1.2))
        painter.drawPath(path)
    painter.restore()
    for contour in heights.contours:
        place = label_place(contour, heights.readings)
        if place is None or not _is_clear(place, heights, view):
            continue
        if ground.contains(view.to_screen(float(place[0]), float(place[1]))):
            words = format_height(contour.level, heights.style)
            at = view.to_screen(float(place[0]), float(place[1]))
            paint_words(painter, at, words, ink, plate=faded(paper, 0.92))


def _is_clear(place: Points, heights: HeightMap, view: View) -> bool:
    """Whether a label there hides no reading's figure."""
    off = np.abs(heights.readings - place) * view.scale
    return bool(np.all((off[:, 0] > _LABEL[0]) | (off[:, 1] > _LABEL[1])))


def _paint_readings(
    painter: QPainter, marks: tuple[Mark, ...], shown: Shown, view: View, colours: Colours
) -> None:
    has_words = _between(marks) * view.scale >= _LEAST_BETWEEN
    paper, ink, stop = (colours.colour(role) for role in ("paper", "ink", "stop"))
    for mark in marks:
        at = view.to_screen(*mark.at)
        painter.setPen(line_pen(paper, 1.2))
        painter.setBrush(ink)
        painter.drawEllipse(at, _DOT + 1.0, _DOT + 1.0)
        if mark.is_odd:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            for colour, width in ((paper, 5.0), (stop, 2.6)):
                painter.setPen(line_pen(colour, width))
                painter.drawEllipse(at, 11.0, 11.0)
        if has_words or mark.is_odd:
            words = f"{mark.words} ?" if mark.is_odd else mark.words
            has_room = at.y() + _FOOT < view.to_screen(0.0, shown.bounds.bottom).y()
            _paint_beside(painter, at, words, colours, is_odd=mark.is_odd, is_below=has_room)


def _paint_given(painter: QPainter, given: Given, view: View, colours: Colours) -> None:
    """A height to meet: a triangle that stands on the place, as levels are marked, and its words above it."""
    start, end = (view.to_screen(*spot) for spot in (given.at, given.to))
    at = (start + end) / 2.0
    mark = QPolygonF([at, at + QPointF(-8.0, -14.0), at + QPointF(8.0, -14.0)])
    painter.setBrush(colours.colour("paper"))
    for colour, width in ((colours.colour("paper"), 6.0), (colours.colour("ink"), 2.0)):
        painter.setPen(line_pen(colour, width))
        painter.drawLine(start, end)
        painter.drawPolygon(mark)
    place = at - QPointF(0.0, 26.0)
    paint_words(
        painter, place, given.words, colours.colour("ink"), plate=faded(colours.colour("paper"), 0.92)
    )


def _paint_beside(
    painter: QPainter, at: QPointF, words: str, colours: Colours, *, is_odd: bool, is_below: bool
) -> None:
    high = text_size(painter, words)[1]
    off = (17.0 if is_odd else 6.0) + high / 2
    place = QPointF(at.x(), at.y() + (off if is_below else -off))
    colour = colours.colour("stop" if is_odd else "ink")
    paint_words(painter, place, words, colour, plate=faded(colours.colour("paper"), 0.8))


def _between(marks: tuple[Mark, ...]) -> float:
    """How far apart neighbouring readings usually are, mm."""
    if len(marks) < 2:
        return np.inf
    places = np.array([mark.at for mark in marks])
    sampled = places[:: max(1, len(places) // 40)]
    off = np.hypot(*(sampled[:, None] - places[None]).transpose(2, 0, 1))
    off[off < 1e-9] = np.inf
    return float(np.median(off.min(axis=1)))


def _paint_straightedge(painter: QPainter, chord: Chord, words: str, view: View, colours: Colours) -> None:
    """A bar with two ends, and a cross stroke where it is furthest from the surface."""
    start, end, at = (view.to_screen(*spot) for spot in (chord.start, chord.end, chord.at))
    length = hypot(end.x() - start.x(), end.y() - start.y()) or 1.0
    along = QPointF((end.x() - start.x()) / length, (end.y() - start.y()) / length)
    across = QPointF(-along.y(), along.x())
    strokes = [(start, end), *((spot - across * 7, spot + across * 7) for spot in (start, end))]
    strokes.append((at - across * 12, at + across * 12))
    path = lines_path([np.array([(a.x(), a.y()), (b.x(), b.y())]) for a, b in strokes])
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for colour, width in ((colours.colour("paper"), 6.0), (colours.colour("sliver"), 3.0)):
        painter.setPen(line_pen(colour, width))
        painter.drawPath(path)
    turn = -1.0 if across.y() > 0 else 1.0
    place = at + across * (turn * 24.0)
    paint_words(painter, place, words, colours.colour("ink"), plate=faded(colours.colour("paper"), 0.92))
