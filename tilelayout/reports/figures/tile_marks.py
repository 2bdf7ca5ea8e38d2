"""Draws the tiles: whole ones as quiet joint lines, cut ones tinted, slivers hatched and outlined heavily.

All whole tiles of a face of the pattern are one mark, so a floor of thousands stays a small file.
"""

from __future__ import annotations

import itertools

from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Piece
from tilelayout.planning.plan import Plan
from tilelayout.reports.figure import Mark, Path, Pen, Points, Role
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import HAIRLINE, HEAVY, THIN, hatch

_FINEST = 0.04
_CUT = Pen(Role.FAINT_INK, THIN)
_SLIVER = Pen(Role.SLIVER, HEAVY)


def tile_marks(plan: Plan, view: View, *, is_quiet: bool = False) -> tuple[Mark, ...]:
    """Return every tile of the plan; `is_quiet` leaves out tint, for a figure about something else."""
    joint = _joint_pen(plan, view)
    whole = tuple(
        Path(tuple(view.on_paper(faces)), joint, is_closed=True)
        for faces in plan.laid.whole_faces
        if len(faces)
    )
    slivers = plan.sliver_ids
    cut = [ring for piece in plan.laid.cut if piece.id not in slivers for ring in _rings(piece, view)]
    fill = None if is_quiet else Role.CUT_TINT
    pen = joint if is_quiet else _CUT
    cut_mark = (Path(tuple(cut), pen, fill, is_closed=True),) if cut else ()
    narrow = itertools.chain.from_iterable(_sliver_marks(_rings(piece, view)) for piece in plan.slivers)
    return (*whole, *cut_mark, *narrow)


def _joint_pen(plan: Plan, view: View) -> Pen:
    """Return a pen that is finer for tiles that are small on the paper, which would else be a grey field."""
    narrow = view.length(float(tile_outline(plan.tile).max(axis=0).min()))
    return Pen(Role.TILE_JOINT, max(_FINEST, min(HAIRLINE, narrow * 0.025)))


def _rings(piece: Piece, view: View) -> list[Points]:
    return [view.on_paper(ring) for ring in (piece.outline, *piece.holes)]


def _sliver_marks(rings: list[Points]) -> tuple[Mark, ...]:
    return (
        Path(tuple(rings), None, Role.PAPER, is_closed=True),
        hatch(rings, spacing=0.8),
        Path(tuple(rings), _SLIVER, is_closed=True),
    )
