"""One cut piece, drawn face up in the tile it is sawn from.

The tile lies with its length from left to right. What is kept is tinted, what falls off is hatched inside a
dashed outline, sawn sides are thick and factory sides thin. Sizes are measured from factory edges and are the
very sizes to set on the saw; each sawn side names the wall it goes to; an arrow shows what is up on the plan.
Nothing here turns the piece over, so the drawing is never a mirror image.
"""

from __future__ import annotations

import math

import numpy as np
import shapely

from tilelayout.job.values import MosaicTile, OffsetSheet
from tilelayout.layout.chips import chip_outlines, joint_lines
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Piece
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.plan import Plan
from tilelayout.reports.figure import Align, Figure, Mark, Path, Pen, Points, Role, Text, moved
from tilelayout.reports.figures.cut_dimensions import dimension_marks
from tilelayout.reports.figures.measures import measures_of
from tilelayout.reports.figures.sawn_sides import sawn_side_names
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import HAIRLINE, HEAVY, MEDIUM, arrow, bounds_of, hatch
from tilelayout.reports.type_size import POINT

_RIM = (17.0, 9.0, 27.0, 9.0)
"""Paper in mm that a tile's dimensions usually take left, below, right and above it, the arrow included."""

_SCALES = (0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200)
_DASHES = (1.6, 1.0)
_SAME = 0.02
_ARROW_ROOM = 9.0
_SAME_PLACE = 2.0
"""Pieces of a row differ by less than the step sizes are rounded to."""


def piece_scale(plan: Plan, room: tuple[float, float]) -> float:
    """Return the largest round scale at which whole tiles with their usual dimensions fit in `room` mm."""
    width, height = np.max([tile_outline(tile).max(axis=0) for tile in plan.tiles], axis=0)
    left, below, right, above = _RIM
    needed = max(width / (room[0] - left - right), height / (room[1] - below - above))
    return next((one_to for one_to in _SCALES if needed <= one_to), float(needed))


def piece_figure(row: CutRow, plan: Plan, room: tuple[float, float] = (94.0, 52.0)) -> Figure:
    """Return the drawing of the first piece of a row of the cut list, in at most `room` mm of paper.

    The rows of a plan are drawn at one scale, so that pieces can be told apart by their size; only a piece
    with more dimensions than usual may be drawn smaller.
    """
    usual = piece_scale(plan, room)
    for one_to in (usual, *(scale for scale in _SCALES if scale > usual)):
        figure = _figure_at(one_to, row, plan)
        if figure.width <= room[0] and figure.height <= room[1]:
            break
    return figure


def _figure_at(one_to: float, row: CutRow, plan: Plan) -> Figure:
    """Draw with the tile's lower left corner at (0, 0), then move everything into the first quarter."""
    extent = tile_outline(row.pieces[0].tile).max(axis=0)
    view = View(one_to, (0.0, 0.0))
    measures = [measure for cut in row.cuts for measure in measures_of(cut, row.pieces[0], plan)]
    marks = (
        *_tile_and_piece(row.pieces[0], plan, view),
        *sawn_side_names(row, plan, view),
        *dimension_marks(measures, extent, view),
    )
    left, bottom, right, top = bounds_of(marks)
    right = max(right, view.length(float(extent[0])) + _RIM[2] - _ARROW_ROOM)
    marks = (*marks, *_up_arrow(row, right, view.length(float(extent[1])) / 2))
    left, bottom, right, top = min(left, -_RIM[0]), bottom - 0.5, right + _ARROW_ROOM, top + 0.5
    return Figure(moved(marks, (-left, -bottom)), right - left, top - bottom, one_to)


def _tile_and_piece(piece: Piece, plan: Plan, view: View) -> tuple[Mark, ...]:
    tile = view.on_paper(tile_outline(piece.tile))
    rings = [view.on_paper(piece.in_tile(ring)) for ring in (piece.outline, *piece.holes)]
    kept = shapely.Polygon(rings[0], rings[1:])
    return (
        *_waste(shapely.Polygon(tile) - kept.buffer(1e-3)),
        Path((tile,), Pen(Role.FAINT_INK, MEDIUM, _DASHES), is_closed=True),
        Path(tuple(rings), None, Role.CUT_TINT, is_closed=True),
        *_chip_joints(piece, view),
        Path(tuple(rings), Pen(Role.INK, MEDIUM), is_closed=True),
        *_sawn_sides(rings, tile),
        *_direction_mark(piece, tile, kept),
    )


def _chip_joints(piece: Piece, view: View) -> tuple[Mark, ...]:
    """Draw the joints between the chips of a mosaic sheet, by which its cuts are counted."""
    pen = Pen(Role.FAINT_INK, HAIRLINE)
    if isinstance(piece.tile, OffsetSheet):
        return (Path(tuple(map(view.on_paper, chip_outlines(piece.tile))), pen, is_closed=True),)
    if not isinstance(piece.tile, MosaicTile):
        return ()
    lines = tuple(view.on_paper(line) for line in joint_lines(piece.tile))
    return (Path(lines, pen),) if lines else ()


def _waste(waste: shapely.Geometry) -> tuple[Mark, ...]:
    parts = [part for part in shapely.get_parts(waste) if part.geom_type == "Polygon" and part.area > 0.05]
    pen = Pen(Role.FAINT_INK, HAIRLINE)
    return tuple(
        hatch(
            [shapely.get_coordinates(ring)[:-1] for ring in (part.exterior, *part.interiors)],
            spacing=1.5,
            pen=pen,
        )
        for part in parts
    )


def _sawn_sides(rings: list[Points], tile: Points) -> tuple[Mark, ...]:
    """Draw the sides of the piece that do not lie on the tile's own edge."""
    factory = shapely.LineString(np.vstack([tile, tile[:1]])).buffer(_SAME)
    lines = []
    for ring in rings:
        sawn = shapely.LineString(np.vstack([ring, ring[:1]])) - factory
        merged = shapely.line_merge(sawn) if sawn.geom_type == "MultiLineString" else sawn
        lines += [shapely.get_coordinates(part) for part in shapely.get_parts(merged) if part.length > 0.05]
    return (Path(tuple(lines), Pen(Role.INK, HEAVY + 0.3)),) if lines else ()


def _direction_mark(piece: Piece, tile: Points, kept: shapely.Polygon) -> tuple[Mark, ...]:
    """Draw the tile's own arrow, along its length, on a tile that has a direction."""
    if not piece.tile.directional:
        return ()
    x, y = shapely.get_coordinates(kept.representative_point())[0]
    reach = min(6.0, float(np.ptp(tile[:, 0])) / 4)
    return arrow((x - reach / 2, y), (x + reach / 2, y), pen=Pen(Role.FAINT_INK, MEDIUM), head=1.8)


def _up_arrow(row: CutRow, right: float, middle: float) -> tuple[Mark, ...]:
    """Draw which way is up on the plan, right of the tile."""
    turn = math.radians(90.0 - row.pieces[0].turn)
    along = np.array([math.cos(turn), math.sin(turn)]) * 3.2
    centre = np.array([right + _ARROW_ROOM - 5.0, middle + 1.5])
    tail, tip = centre - along, centre + along
    lines = ("up", f"for {row.pieces[0].id}") if is_turned(row) else ("up",)
    words = (
        Text((float(centre[0]), float(centre[1]) - 7.0 - 2.8 * n), said, 7 * POINT, align=Align.CENTRE)
        for n, said in enumerate(lines)
    )
    return (*arrow(tuple(tail.tolist()), tuple(tip.tolist())), *words)


def is_turned(row: CutRow) -> bool:
    """Claim that some pieces of a row lie otherwise in their tile than the first, which is the one drawn."""
    places = [piece.in_tile(piece.outline) for piece in row.pieces]
    first = np.concatenate([places[0].min(axis=0), places[0].max(axis=0)])
    spans = (np.concatenate([place.min(axis=0), place.max(axis=0)]) for place in places)
    return any(bool(np.abs(span - first).max() > _SAME_PLACE) for span in spans)
