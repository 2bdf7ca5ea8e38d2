"""Draws the tiles: whole ones as quiet joint lines, cut ones tinted, slivers hatched and outlined heavily.

All whole tiles of a face of the pattern are one mark, so a floor of thousands stays a small file.
"""

from __future__ import annotations

import itertools

from tilelayout.job.values import OffsetSheet
from tilelayout.layout.faces import tile_outline, tile_width
from tilelayout.layout.mosaic import LaidMosaic
from tilelayout.layout.values import Piece
from tilelayout.planning.plan import Plan
from tilelayout.reports.figure import Mark, Path, Pen, Points, Role
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import HAIRLINE, HEAVY, THIN, hatch

_FINEST = 0.04
_LEAST_CHIP = 1.5
"""Chips that are smaller on the paper, in mm, are not drawn one by one."""

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
    return (*whole, *cut_mark, *_chip_joints(plan, view), *narrow)


def _chip_joints(plan: Plan, view: View) -> tuple[Mark, ...]:
    """Return the joints between the chips of mosaic sheets, where they do not run into each other."""
    field = plan.laid.components[0]
    if not isinstance(field, LaidMosaic) or view.length(tile_width(field.mosaic)) < _LEAST_CHIP:
        return ()
    pen = Pen(Role.TILE_JOINT, _FINEST)
    if isinstance(field.mosaic, OffsetSheet):
        cut = field.chips.cut_parts.outlines
        chips = (*itertools.chain(*field.chips.whole_faces), *(cut[k] for k in range(len(cut))))
        return (Path(tuple(map(view.on_paper, chips)), pen, is_closed=True),) if chips else ()
    lines = tuple(view.on_paper(line) for line in field.joint_lines)
    return (Path(lines, pen),) if lines else ()


def _joint_pen(plan: Plan, view: View) -> Pen:
    """Return a pen that is finer for tiles that are small on the paper, which would else be a grey field."""
    narrow = view.length(min(float(tile_outline(tile).max(axis=0).min()) for tile in plan.tiles))
    return Pen(Role.TILE_JOINT, max(_FINEST, min(HAIRLINE, narrow * 0.025)))


def _rings(piece: Piece, view: View) -> list[Points]:
    return [view.on_paper(ring) for ring in (piece.outline, *piece.holes)]


def _sliver_marks(rings: list[Points]) -> tuple[Mark, ...]:
    return (
        Path(tuple(rings), None, Role.PAPER, is_closed=True),
        hatch(rings, spacing=0.8),
        Path(tuple(rings), _SLIVER, is_closed=True),
    )
