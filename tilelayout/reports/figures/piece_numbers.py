"""Puts each cut piece's number where it can be read: in the piece if it fits, upright or turned, else beside.

A number that does not fit in its piece stands on the nearest free spot, tied to the piece by a thin line; so
even the number of a sliver can be read. Whole tiles carry none, which leaves that room.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.reports.figure import Align, Mark, Path, Pen, Place, Points, Role, Text
from tilelayout.reports.marks import HAIRLINE
from tilelayout.reports.type_size import CAP, POINT, text_width

LARGEST = 9 * POINT
SMALLEST = 5.5 * POINT
_STEPS = (LARGEST, 7.5 * POINT, 6.5 * POINT, SMALLEST)
_AIR = 0.45
_REACHES = np.repeat(np.arange(2.5, 20.0, 0.75), 8)
_TURNS = np.radians(np.arange(len(_REACHES)) * 45.0)
_AROUND = _REACHES[:, None] * np.column_stack([np.cos(_TURNS), np.sin(_TURNS)])
"""The way from a piece to each place tried for its number, eight at each distance, nearest first."""
_IS_NEAR = _REACHES <= 7.0


@dataclass(frozen=True, eq=False)
class Numbered:
    """A piece on the paper: its number, its outline with holes, and whether its number is bold."""

    words: str
    shape: shapely.Polygon
    is_bold: bool


@dataclass(frozen=True)
class _Spot:
    place: Place
    height: float
    angle: float


def number_marks(pieces: Sequence[Numbered], grounds: Sequence[shapely.Geometry]) -> tuple[Mark, ...]:
    """Return the numbers of `pieces`; one that does not fit in its piece stands on the first of `grounds`
    that has room for it near the piece, and in the worst case across other marks, but never is left out.
    """
    spots = [_spot_inside(piece) for piece in pieces]
    taken = [_word_box(piece, spot) for piece, spot in zip(pieces, spots, strict=True) if spot]
    for ground in grounds:
        shapely.prepare(ground)
    marks: list[Mark] = [_text(piece, spot) for piece, spot in zip(pieces, spots, strict=True) if spot]
    for piece, spot in zip(pieces, spots, strict=True):
        if not spot:
            marks += _beside(piece, grounds, taken)
    return tuple(marks)


def share_inside(pieces: Sequence[Numbered]) -> float:
    """Return the share of pieces that can hold their number: it tells whether a scale is large enough."""
    if not pieces:
        return 1.0
    return sum(_spot_inside(piece) is not None for piece in pieces) / len(pieces)


def _spot_inside(piece: Numbered) -> _Spot | None:
    for height in _STEPS:
        for angle in (0.0, 90.0):
            place = _middle(piece.shape, angle)
            spot = _Spot(place, height, angle)
            if piece.shape.contains(_word_box(piece, spot)):
                return spot
    return None


def _middle(shape: shapely.Polygon, angle: float) -> Place:
    """Return the middle of the shape's widest stretch at half its height (at half its width if turned)."""
    if angle:
        turned = shapely.Polygon(shapely.get_coordinates(shape.exterior)[:, ::-1])
        y, x = shapely.get_coordinates(turned.representative_point())[0]
    else:
        x, y = shapely.get_coordinates(shape.representative_point())[0]
    return float(x), float(y)


def _half_size(piece: Numbered, height: float) -> tuple[float, float]:
    wide = text_width(piece.words, height, is_bold=piece.is_bold) / 2 + _AIR
    return wide, height * CAP / 2 + _AIR


def _word_box(piece: Numbered, spot: _Spot) -> shapely.Polygon:
    wide, tall = _half_size(piece, spot.height)
    if spot.angle:
        wide, tall = tall, wide
    x, y = spot.place
    return shapely.box(x - wide, y - tall, x + wide, y + tall)


def _text(piece: Numbered, spot: _Spot, *, has_halo: bool = False) -> Text:
    drop = spot.height * CAP / 2
    x, y = spot.place
    at = (x + drop, y) if spot.angle else (x, y - drop)
    is_over_hatch = has_halo or piece.is_bold
    return Text(
        at, piece.words, spot.height, Role.INK, piece.is_bold, Align.CENTRE, spot.angle, is_over_hatch
    )


def _beside(piece: Numbered, grounds: Sequence[shapely.Geometry], taken: list[shapely.Polygon]) -> list[Mark]:
    """Place a number near its piece, as far off as it must be and no further, and tie it to the piece."""
    origin = shapely.get_coordinates(piece.shape.representative_point())[0]
    places, height = origin + _AROUND, _STEPS[1]
    half = np.array(_half_size(piece, height))
    rooms = shapely.box(*(places - half).T, *(places + half).T)
    untouched = np.ones(len(rooms), dtype=bool)
    untouched[shapely.STRtree(taken).query(rooms, "intersects")[0]] = False
    fits = [untouched & shapely.contains_properly(ground, rooms) for ground in grounds]
    choices = (*(fit & _IS_NEAR for fit in fits), *fits, untouched)
    chosen = next((int(choice.argmax()) for choice in choices if choice.any()), 0)
    taken.append(rooms[chosen])
    x, y = places[chosen].tolist()
    return [_tie(origin, rooms[chosen]), _text(piece, _Spot((x, y), height, 0.0), has_halo=True)]


def _tie(origin: Points, room: shapely.Polygon) -> Path:
    end = shapely.get_coordinates(shapely.shortest_line(shapely.Point(origin), room))[1]
    return Path((np.array([origin, end]),), Pen(Role.INK, HAIRLINE))
