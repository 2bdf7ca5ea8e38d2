"""An offcut on hand as it lies in its tile, face up: factory edges heavy, sawn ones thin and dashed."""

from __future__ import annotations

import numpy as np

from tilelayout.geometry.rings import counter_clockwise, following
from tilelayout.job.stock import OffcutOnHand
from tilelayout.job.values import Tile
from tilelayout.layout.bordering import is_sawn
from tilelayout.layout.faces import tile_outline
from tilelayout.offcuts.on_hand import part_of
from tilelayout.reports.figure import Figure, Path, Pen, Role
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import HAIRLINE

_RIM = 1.2
"""Paper in mm round the tile, so that the heavy edges are not clipped."""

_FACTORY = Pen(Role.INK, 0.9)
_SAWN = Pen(Role.INK, 0.3, (1.2, 0.8))
_TILE = Pen(Role.FAINT_INK, HAIRLINE, (0.5, 0.9))


def offcut_figure(tile: Tile, offcut: OffcutOnHand, room: tuple[float, float]) -> Figure:
    """Return the drawing, in at most `room` mm of paper."""
    outline = tile_outline(tile)
    width, height = np.ptp(outline, axis=0).tolist()
    one_to = max(width / (room[0] - 2 * _RIM), height / (room[1] - 2 * _RIM))
    view = View(one_to, (-_RIM * one_to, -_RIM * one_to))
    marks = [Path((view.on_paper(outline),), _TILE, is_closed=True)]
    part = part_of(tile, offcut)
    if part:
        ring = counter_clockwise(np.array(part))
        marks.append(Path((view.on_paper(ring),), None, Role.CUT_TINT, is_closed=True))
        sawn, ends = is_sawn(ring, outline), following(ring)
        sides = [(view.on_paper(np.array(side)), cut) for *side, cut in zip(ring, ends, sawn, strict=True)]
        marks += [Path((side,), _SAWN if cut else _FACTORY) for side, cut in sides]
    return Figure(tuple(marks), view.length(width) + 2 * _RIM, view.length(height) + 2 * _RIM)
