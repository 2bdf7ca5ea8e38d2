"""The tile of a trim with the strips that one tile gives: factory edges heavy, what is left over hatched."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.layout.trim import strip_sizes
from tilelayout.planning.trims import TrimPlan
from tilelayout.reports.figure import Align, Figure, Mark, Path, Pen, Points, Role, Text
from tilelayout.reports.marks import HAIRLINE, HEAVY, MEDIUM, hatch, line, middle_text
from tilelayout.reports.type_size import CAP, POINT

_TYPE = 8 * POINT
_RIM = 1.0
_WORDS = 22.0
"""Paper in mm beside the tile for the height of a strip."""


def trim_figure(made: TrimPlan, room: tuple[float, float], style: LengthStyle, kerf: float) -> Figure:
    """Return the drawing of the tile, in at most `room` mm of paper. `kerf` is that of the saw, in mm."""
    longest, across = strip_sizes(made.tile)
    one_to = max(longest / (room[0] - 2 * _RIM - _WORDS), across / (room[1] - 2 * _RIM))
    marks = tuple(_marks(made, one_to, style, kerf))
    return Figure(marks, longest / one_to + 2 * _RIM + _WORDS, across / one_to + 2 * _RIM)


def _marks(made: TrimPlan, one_to: float, style: LengthStyle, kerf: float) -> Iterator[Mark]:
    longest, across = (side / one_to for side in strip_sizes(made.tile))
    height = made.trim.height / one_to
    right, top = _RIM + longest, _RIM + across
    yield hatch([_ring(_RIM, right, _RIM, top)], spacing=1.4, pen=Pen(Role.FAINT_INK, HAIRLINE))
    for low in _lows(made, across, height, kerf / one_to):
        ring = _ring(_RIM, right, _RIM + low, _RIM + low + height)
        yield Path((ring,), Pen(Role.INK, MEDIUM), Role.CUT_TINT, is_closed=True)
        at = (right + 1.5, _RIM + low + height / 2 - _TYPE * CAP / 2)
        yield Text(at, format_length(made.trim.height, style), _TYPE, align=Align.LEFT)
    yield Path((_ring(_RIM, right, _RIM, top),), Pen(Role.INK, MEDIUM), is_closed=True)
    if made.trim.factory_edge_up:
        sides = (top,) if made.of_a_tile.count == 1 else (top, _RIM)
        for y in sides:
            yield line((_RIM, y), (right, y), pen=Pen(Role.INK, 2 * HEAVY))
    yield middle_text(((_RIM + right) / 2, top - height / 2), made.tile.title, _TYPE)


def _lows(made: TrimPlan, across: float, height: float, kerf: float) -> list[float]:
    """Return where the strips of a tile begin across it: at its factory edges, or one beside the other."""
    if made.trim.factory_edge_up:
        return [across - height, 0.0][: made.of_a_tile.count]
    return [across - height - number * (height + kerf) for number in range(made.of_a_tile.count)]


def _ring(left: float, right: float, low: float, high: float) -> Points:
    return np.array([(left, low), (right, low), (right, high), (left, high)])
