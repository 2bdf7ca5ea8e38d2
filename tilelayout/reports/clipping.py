"""Cuts marks off at a rectangle, so that a large plan can be printed in parts without the printer's help.

Fills keep the even-odd rule: cutting every ring by one convex window and filling what is left together
gives the same picture as filling first and cutting then.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import numpy as np
import shapely

from tilelayout.reports.figure import Mark, Path, Points, Text
from tilelayout.reports.marks import footprint

Window = tuple[float, float, float, float]
"""Left, bottom, right and top."""


def clipped(marks: Iterable[Mark], window: Window) -> tuple[Mark, ...]:
    """Return the marks as far as they lie in `window`; a text that is not wholly inside goes."""
    found: list[Mark] = []
    for mark in marks:
        if isinstance(mark, Text):
            found += [mark] if _is_inside(mark, window) else []
        else:
            found += _clipped_path(mark, window)
    return tuple(found)


def _is_inside(text: Text, window: Window) -> bool:
    return shapely.box(*window).covers(footprint(text))


def _clipped_path(path: Path, window: Window) -> list[Mark]:
    near = [line for line in path.lines if _is_near(line, window)]
    found: list[Mark] = []
    if path.fill and near:
        rings = _pieces([shapely.Polygon(line) for line in near], window)
        found += [replace(path, lines=rings, pen=None)] if rings else []
    if path.pen and near:
        lines = _pieces([shapely.LineString(_ends_met(path, line)) for line in near], window)
        found += [replace(path, lines=lines, fill=None, is_closed=False)] if lines else []
    return found


def _is_near(line: Points, window: Window) -> bool:
    left, bottom, right, top = window
    (low_x, low_y), (high_x, high_y) = line.min(axis=0), line.max(axis=0)
    return bool(low_x <= right and high_x >= left and low_y <= top and high_y >= bottom)


def _ends_met(path: Path, line: Points) -> Points:
    return np.concatenate([line, line[:1]]) if path.is_closed else line


def _pieces(shapes: Sequence[shapely.Geometry], window: Window) -> tuple[Points, ...]:
    cut = shapely.clip_by_rect(np.array(shapes, dtype=object), *window)
    kept = [part for part in shapely.get_parts(cut) if not part.is_empty]
    whole = ("Polygon", "LineString")
    return tuple(shapely.get_coordinates(part) for part in kept if part.geom_type in whole)
