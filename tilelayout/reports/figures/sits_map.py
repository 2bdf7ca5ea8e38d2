"""The map of how tiles lie on paper: every tile, those to worry about hatched with what is wrong with them.

Printed in black: a dense hatch needs filler first, a wide one is evened out in the bed, a triangle is the
high spot that a tile rocks on, dashes are a tile that reaches beyond the readings.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle
from tilelayout.planning.sitting import Sitting
from tilelayout.planning.worries import Trouble, Worry
from tilelayout.reports.figure import Figure, Mark, Path, Pen, Role
from tilelayout.reports.figures.fitted_map import fitted_map
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import HAIRLINE, HEAVY, MEDIUM, filled, hatch, middle_text
from tilelayout.reports.type_size import POINT, text_width

_ID, _WORDS = 8.5 * POINT, 7.5 * POINT
_MOVED = 0.16
_PEAK = 1.5
_DASHED = (1.0, 1.0)


def sits_map(found: Sitting, room: tuple[float, float], style: LengthStyle) -> Figure:
    """Return the map, with its scale bar, at the largest standard scale at which it fits in `room` mm."""
    fitted = fitted_map(found.plan.surface, room, style)
    view = fitted.view
    return fitted.figure(
        (
            *_tile_marks(found, view),
            *(mark for worry in found.worries for mark in _worry_marks(found, worry, view)),
            *(mark for worry in found.worries for mark in _said(found, worry, view, style)),
        )
    )


def _tile_marks(found: Sitting, view: View) -> Iterator[Mark]:
    for shape, is_read in zip(found.plates.shapes, found.on.is_read, strict=True):
        pen = Pen(Role.FAINT_INK, HAIRLINE) if is_read else Pen(Role.FAINT_INK, HAIRLINE, _DASHED)
        yield Path(_on_paper(shape, view), pen, is_closed=True)


def _on_paper(shape: shapely.Geometry, view: View) -> tuple[np.ndarray, ...]:
    return tuple(view.on_paper(shapely.get_coordinates(ring)[:-1]) for ring in shapely.get_rings(shape))


def _worry_marks(found: Sitting, worry: Worry, view: View) -> Iterator[Mark]:
    rings = _on_paper(found.plates.shapes[worry.plate], view)
    yield hatch(rings, spacing=1.0 if worry.needs_filler else 2.4)
    yield Path(rings, Pen(Role.INK, HEAVY if worry.needs_filler else MEDIUM), is_closed=True)


def _said(found: Sitting, worry: Worry, view: View, style: LengthStyle) -> Iterator[Mark]:
    ring = _on_paper(found.plates.shapes[worry.plate], view)[0]
    (left, bottom), (right, top) = ring.min(axis=0), ring.max(axis=0)
    middle = ((left + right) / 2 + _aside(worry, view, left, right), (bottom + top) / 2)
    words = format_height(worry.amount, style)
    has_words = text_width(words, _WORDS) < 0.9 * (right - left) and top - bottom > 3.2 * _ID
    yield middle_text((middle[0], middle[1] + (0.8 * _ID if has_words else 0.0)), worry.id, _ID, is_bold=True)
    if has_words:
        yield middle_text((middle[0], middle[1] - 0.8 * _ID), words, _WORDS)
    if Trouble.ROCKS in worry.troubles:
        yield _peak(view.place(worry.rocks_on))


def _aside(worry: Worry, view: View, left: float, right: float) -> float:
    """How far the words move from the middle, so that the high spot does not stand on them."""
    if Trouble.ROCKS not in worry.troubles:
        return 0.0
    is_right = view.place(worry.rocks_on)[0] > (left + right) / 2
    return (right - left) * (-_MOVED if is_right else _MOVED)


def _peak(at: tuple[float, float]) -> Mark:
    x, y = at
    corners = np.array([(x - _PEAK, y - 0.8 * _PEAK), (x + _PEAK, y - 0.8 * _PEAK), (x, y + _PEAK)])
    return filled((corners,), Role.INK)
