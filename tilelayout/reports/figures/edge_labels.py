"""Writes along each edge, outside the surface: what it is called, how long it is, and the border cut there.

A label is written as fully as the edge is long; one that would stand on a start line moves along its edge.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from tilelayout.base.units import cut_size, format_length
from tilelayout.layout.borders import BorderCut
from tilelayout.planning.plan import Plan
from tilelayout.planning.saw_sizes import saw_style
from tilelayout.planning.wall_names import edge_name
from tilelayout.reports.figure import Align, Mark, Points, Role, Text
from tilelayout.reports.figures.surface_marks import BAND, EdgeLine, edge_lines
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import footprint, readable
from tilelayout.reports.type_size import CAP, POINT, text_width

_SIZE = 8 * POINT
_AWAY = BAND + 1.1
_PLACES = (0.5, 0.3, 0.7, 0.2, 0.8)


def edge_labels(plan: Plan, view: View) -> tuple[Text, ...]:
    """Return the name of each edge along its outside, where there is room for it."""
    names = ((edge, (edge_name(plan.surface, edge.at),)) for edge in edge_lines(plan.surface))
    return _labels(names, view, ())


def border_labels(plan: Plan, view: View, others: Sequence[Mark]) -> tuple[Text, ...]:
    """Return the name, length and border cut of each edge along its outside, clear of the `others`."""
    borders = {border.edge: border for border in plan.borders}
    wordings = ((edge, _wordings(plan, edge, borders.get(edge.at))) for edge in edge_lines(plan.surface))
    return _labels(wordings, view, others)


def _labels(
    wordings: Iterable[tuple[EdgeLine, Sequence[str]]], view: View, others: Sequence[Mark]
) -> tuple[Text, ...]:
    taken = [area for mark in others for area in _covered(mark)]
    labels: list[Text] = []
    for edge, said in wordings:
        label = _label(view.on_paper(edge.points), said, taken)
        if label:
            labels.append(label)
            taken.append(footprint(label))
    return tuple(labels)


def _covered(mark: Mark) -> list[shapely.Geometry]:
    if isinstance(mark, Text):
        return [footprint(mark)]
    return [shapely.LineString(line).buffer(0.6) for line in mark.lines]


def _wordings(plan: Plan, edge: EdgeLine, border: BorderCut | None) -> tuple[str, ...]:
    """Return what may be written at an edge, from the fullest to the shortest."""
    name = edge_name(plan.surface, edge.at)
    length = format_length(float(np.hypot(*np.diff(edge.points, axis=0).T).sum()), plan.style, decimals=0)
    full = f"{name} · {length}"
    cut = border_words(plan, border) if border else ""
    return (f"{full} · {cut}", f"{name} · {cut}", cut, name) if cut else (full, name)


def border_words(plan: Plan, border: BorderCut) -> str:
    """Return the border cut in words: "whole tiles", "cut 143 mm (48 %)", or the range where it changes."""
    style = saw_style(plan.style)
    least, greatest = cut_size(border.least, style), cut_size(border.greatest, style)
    if least == greatest:
        size = format_length(least, style)
        return "whole tiles" if border.is_whole else f"cut {size} ({border.share * 100:.0f} %)"
    if border.is_whole:
        return f"whole tiles, least {format_length(least, style)}"
    return f"cut {format_length(least, style)} to {format_length(greatest, style)}"


def _label(points: Points, wordings: Sequence[str], taken: Sequence[shapely.Geometry]) -> Text | None:
    """Write the fullest wording for which there is room somewhere along the edge."""
    length = float(np.hypot(*(points[-1] - points[0])))
    for words in wordings:
        half = text_width(words, _SIZE) / 2 + 0.5
        for share in _PLACES:
            if half <= share * length <= length - half:
                label = _along(points, share, words)
                if not shapely.intersects(footprint(label), taken).any():
                    return label
    return None


def _along(points: Points, share: float, words: str) -> Text:
    """Write `words` outside the edge, readable from below or from the right."""
    start, end = _chord_at(points, share)
    along = (end - start) / np.hypot(*(end - start))
    outward = np.array([along[1], -along[0]])
    angle = readable(math.degrees(math.atan2(along[1], along[0])))
    turn = math.radians(angle)
    up = np.array([-math.sin(turn), math.cos(turn)])
    is_outside_up = float(up @ outward) > 0
    base = _point_at(points, share) + outward * (_AWAY if is_outside_up else _AWAY + _SIZE * CAP)
    return Text((float(base[0]), float(base[1])), words, _SIZE, Role.INK, False, Align.CENTRE, angle)


def _point_at(points: Points, share: float) -> Points:
    steps = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    at = share * steps[-1]
    return np.array([np.interp(at, steps, points[:, 0]), np.interp(at, steps, points[:, 1])])


def _chord_at(points: Points, share: float) -> tuple[Points, Points]:
    if len(points) == 2:
        return points[0], points[1]
    return _point_at(points, share - 0.02), _point_at(points, share + 0.02)
