"""An opened tile with all that is sawn from it, drawn face up, as it lies on the saw's table.

Pieces are tinted and carry their number and wall, cuts are numbered as they are made, waste is hatched, and
an offcut to keep carries its name. Nothing here turns a tile over, so the drawing is never a mirror image.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from tilelayout.offcuts.opened import OpenedTile, SawnPiece
from tilelayout.planning.saw_list import SawList, named_offcuts
from tilelayout.planning.straight_sawing import in_opened
from tilelayout.reports.figure import Align, Figure, Mark, Path, Pen, Points, Role, Text, moved
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import HAIRLINE, HEAVY, MEDIUM, arrow, bounds_of, hatch, middle_text
from tilelayout.reports.type_size import POINT, shortened, text_width

_NUMBER = 8 * POINT
_ID_SIZES = (11 * POINT, 9 * POINT, 7 * POINT)
_WALL = 6.5 * POINT
_RIM = 5.0
"""Paper in mm round the tile, where the numbers of the cuts stand."""

_ARROW_ROOM = 9.0
_LEAST_WASTE = 0.05
_CUT = Pen(Role.INK, HEAVY)
_KEPT = Pen(Role.FAINT_INK, MEDIUM, (1.6, 1.0))


def tile_figure(tile: OpenedTile, found: SawList, room: tuple[float, float]) -> Figure:
    """Return the drawing of an opened tile, in at most `room` mm of paper."""
    width, height = np.ptp(tile.blank.outline, axis=0).tolist()
    one_to = max(width / (room[0] - 2 * _RIM - _ARROW_ROOM), height / (room[1] - 2 * _RIM))
    view = View(one_to, (0.0, 0.0))
    marks = (*_parts(tile, found, view), *_cut_marks(tile, found, view), *_names(tile, found, view))
    right = view.length(width) + _RIM
    marks = (*marks, *_up_arrow(tile, found, (right + _ARROW_ROOM / 2, view.length(height) / 2)))
    left, bottom, far, top = bounds_of(marks)
    left, bottom = min(left, -_RIM) - 0.2, min(bottom, -_RIM) - 0.2
    far, top = max(far, right + _ARROW_ROOM) + 0.2, max(top, view.length(height) + _RIM) + 0.2
    return Figure(moved(marks, (-left, -bottom)), far - left, top - bottom)


def _parts(tile: OpenedTile, found: SawList, view: View) -> tuple[Mark, ...]:
    shape = shapely.Polygon(view.on_paper(tile.blank.outline))
    pieces = [_on_paper(each, tile, found, view) for each in tile.pieces]
    offcuts = [shapely.Polygon(view.on_paper(each.outline)) for each in tile.offcuts]
    waste = shape - shapely.union_all([*pieces, *offcuts]).buffer(1e-3)
    return (
        *(mark for part in shapely.get_parts(waste) for mark in _hatched(part)),
        *(Path(_rings(each), _KEPT, is_closed=True) for each in offcuts),
        *(Path(_rings(each), Pen(Role.INK, MEDIUM), Role.CUT_TINT, is_closed=True) for each in pieces),
        Path(_rings(shape), Pen(Role.FAINT_INK, MEDIUM), is_closed=True),
    )


def _on_paper(sawn: SawnPiece, tile: OpenedTile, found: SawList, view: View) -> shapely.Polygon:
    piece = found.of.pieces[sawn.piece].piece
    holes = [in_opened(piece.in_tile(ring), sawn, piece, tile) for ring in piece.holes]
    return shapely.Polygon(view.on_paper(sawn.outline), [view.on_paper(hole) for hole in holes])


def _rings(shape: shapely.Polygon) -> tuple[Points, ...]:
    return tuple(shapely.get_coordinates(ring)[:-1] for ring in (shape.exterior, *shape.interiors))


def _hatched(part: BaseGeometry) -> tuple[Mark, ...]:
    if not isinstance(part, shapely.Polygon) or part.area < _LEAST_WASTE:
        return ()
    return (hatch(list(_rings(part)), spacing=1.3, pen=Pen(Role.FAINT_INK, HAIRLINE)),)


def _cut_marks(tile: OpenedTile, found: SawList, view: View) -> tuple[Mark, ...]:
    """Draw each cut from edge to edge of the part that is sawn, with its number outside the tile."""
    around = shapely.Polygon(view.on_paper(tile.blank.outline)).buffer(1.0)
    marks: list[Mark] = []
    taken: list[Points] = []
    for step in found.steps_of.get(tile.number, ()):
        line = view.on_paper(step.cut.line)
        spot = _spot(line, around, taken)
        taken.append(spot)
        marks.append(Path((line,), _CUT))
        marks.append(middle_text((float(spot[0]), float(spot[1])), str(step.number), _NUMBER, is_bold=True))
    return tuple(marks)


def _spot(line: Points, around: BaseGeometry, taken: list[Points]) -> Points:
    """Return where a cut's number stands: beyond an end at the tile's edge that is free, else on the cut.

    `around` is the tile with what is too near it for a number.
    """
    along = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    beyond = [line[0] - along * 2.6, line[1] + along * 2.6]
    free = [
        spot
        for spot in beyond
        if not around.contains(shapely.Point(spot))
        and all(np.hypot(*(spot - other)) > 3.0 for other in taken)
    ]
    return np.asarray(free[0] if free else line.mean(axis=0))


def _names(tile: OpenedTile, found: SawList, view: View) -> tuple[Mark, ...]:
    marks: list[Mark] = []
    for sawn in tile.pieces:
        walls = ", ".join(found.of.pieces[sawn.piece].walls)
        marks += _named(_on_paper(sawn, tile, found, view), sawn.piece, walls)
    for each in named_offcuts(tile):
        outline = shapely.Polygon(view.on_paper(each.offcut.outline))
        marks += _named(outline, each.name, "keep", is_bold=False)
    return tuple(marks)


def _named(shape: shapely.Polygon, name: str, below: str, *, is_bold: bool = True) -> tuple[Mark, ...]:
    """Write a name in the widest place of a shape, upright if the shape is, and a line below it."""
    x, y = _widest(shape)
    left, bottom, right, top = shape.bounds
    is_upright = right - left < text_width(name, _ID_SIZES[-1], is_bold=True) + 1.0 and top - bottom > 8.0
    along, across = (top - bottom, right - left) if is_upright else (right - left, top - bottom)
    size = next(
        (s for s in _ID_SIZES if text_width(name, s, is_bold=True) < along - 1.0 and s < across), _WALL
    )
    angle = 90.0 if is_upright else 0.0
    words = shortened(below, _WALL, along - 2.0)
    has_below = bool(words) and across > size + _WALL + 1.6 and len(words) >= min(6, len(below))
    up, down = (0.5 * _WALL, -0.55 * size - 0.4) if has_below else (0.0, 0.0)
    marks: list[Mark] = [_beside((x, y), up, name, size, angle, is_bold)]
    if has_below:
        marks.append(_beside((x, y), down, words, _WALL, angle, False))
    return tuple(marks)


def _widest(shape: shapely.Polygon) -> tuple[float, float]:
    """Return where a shape is widest; in its middle if it is as wide there, as a strip is."""
    circle = shapely.maximum_inscribed_circle(shape, tolerance=0.1)
    centre, middle = shapely.Point(shapely.get_coordinates(circle)[0]), shape.centroid
    is_wide = shape.contains(middle) and shape.exterior.distance(middle) > 0.85 * circle.length
    return (middle.x, middle.y) if is_wide else (centre.x, centre.y)


def _beside(at: tuple[float, float], up: float, words: str, size: float, angle: float, is_bold: bool) -> Text:
    turn = math.radians(angle)
    place = (at[0] - up * math.sin(turn), at[1] + up * math.cos(turn))
    return middle_text(place, words, size, angle=angle, is_bold=is_bold)


def _up_arrow(tile: OpenedTile, found: SawList, at: tuple[float, float]) -> tuple[Mark, ...]:
    """Draw which way is up on the plan for the first piece, which lies as it is laid."""
    first = tile.pieces[0]
    turn = math.radians(90.0 - found.of.pieces[first.piece].piece.turn + first.turned)
    along = np.array([math.cos(turn), math.sin(turn)]) * 3.2
    centre = np.array([at[0], at[1] + 1.5])
    tail, tip = (centre - along).tolist(), (centre + along).tolist()
    turned = len({round(each.turned) for each in tile.pieces}) > 1
    lines = ("up", f"for {first.piece}") if turned else ("up",)
    words = (
        Text((at[0], float(centre[1]) - 6.6 - 2.7 * n), said, _WALL, align=Align.CENTRE)
        for n, said in enumerate(lines)
    )
    return (*arrow((tail[0], tail[1]), (tip[0], tip[1])), *words)
