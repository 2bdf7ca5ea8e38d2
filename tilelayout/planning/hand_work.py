"""What a saw with a fence cannot do: notches, slots, holes and curves, and pieces too narrow to be held.

They are made inside a piece. A hole or curve is found by its centre, from two factory edges that stay on the
piece, so that it can be marked before or after the straight cuts.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.geometry.rings import following
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import MosaicSheet, OffsetSheet
from tilelayout.layout.bordering import is_sawn
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Cut, CutKind, Piece, Points
from tilelayout.offcuts.leavings import LEAST_USEFUL
from tilelayout.planning.saw_sizes import nearest, saw_sizes
from tilelayout.planning.straight_sawing import is_straight
from tilelayout.planning.words import cut_words

LARGEST_CORE_BIT = 125.0
"""A round hole up to this diameter in mm is drilled with a core bit. Common practice, no source."""


@dataclass(frozen=True, eq=False)
class HandWork:
    """What is left to do by hand on a piece, called by its `name` on the cut list, each in words."""

    name: str
    piece: Piece
    words: tuple[str, ...]


def hand_work(name: str, piece: Piece, cuts: tuple[Cut, ...], style: LengthStyle) -> HandWork | None:
    """Return what is to do by hand on a piece; None if the saw makes it whole."""
    words = tuple(_words(cut, piece, style) for cut in cuts if is_by_hand(cut, piece))
    if is_too_narrow(piece):
        limit = format_length(LEAST_USEFUL, style)
        words = (*words, f"narrower than {limit}, do not hold it at the blade: score and snap, or nip")
    return HandWork(name, piece, words) if words else None


def is_by_hand(cut: Cut, piece: Piece) -> bool:
    """Claim that a cut is not made along a fence; a mosaic sheet is parted with the knife."""
    return isinstance(piece.tile, MosaicSheet) or not is_straight(cut)


def is_too_narrow(piece: Piece) -> bool:
    """Claim that a piece is narrower than can be held at the saw (`LEAST_USEFUL`), holes apart.

    A part of a sheet with zigzag edges is taken from tip to tip.
    """
    if isinstance(piece.tile, OffsetSheet):
        return bool(np.ptp(piece.in_tile(piece.outline), axis=0).min() < LEAST_USEFUL)
    return piece.is_narrower_than(LEAST_USEFUL) and narrowest(piece.outline, ()) < LEAST_USEFUL


def _words(cut: Cut, piece: Piece, style: LengthStyle) -> str:
    if isinstance(piece.tile, MosaicSheet):
        return cut_words(cut, piece, style)
    if cut.kind is CutKind.HOLE and len(cut.sizes) == 3:
        size = format_length(saw_sizes(cut, piece, style)[2], style)
        tool = f"core bit {size}" if cut.sizes[2] <= LARGEST_CORE_BIT else f"hole {size} across, grinder"
        return f"{tool}: {_centre_words(cut, piece, style)}"
    if cut.kind is CutKind.CURVE:
        size = format_length(saw_sizes(cut, piece, style)[2], style)
        place = _centre_words(cut, piece, style)
        return f"curve of radius {size}: {place}; relief cuts up to the line, then the grinder"
    return f"{cut_words(cut, piece, style)}; drill inside corners first, then the grinder"


def _centre_words(cut: Cut, piece: Piece, style: LengthStyle) -> str:
    along, up = (_from_factory(cut.sizes[axis], piece, axis, style) for axis in (0, 1))
    return f"centre {along}, {up}"


def _from_factory(place: float, piece: Piece, axis: int, style: LengthStyle) -> str:
    """Say how far a centre lies from a factory edge that stays; from the first edge if neither does."""
    low, high = _factory_sides(piece, axis)
    names = (("left end", "right end"), ("lower edge", "upper edge"))[axis]
    extent = float(tile_outline(piece.tile)[:, axis].max())
    is_far = high and not low
    away = extent - place if is_far else place
    size = format_length(nearest(abs(away), style), style)
    return f"{size} {'beyond' if away < 0 else 'from'} the {names[is_far]}"


def _factory_sides(piece: Piece, axis: int) -> tuple[bool, bool]:
    """Return whether the tile's own first and last edge across an axis stay on the piece."""
    ring = piece.in_tile(piece.outline)
    outline = tile_outline(piece.tile)
    sides = ring[~is_sawn(ring, outline)], following(ring)[~is_sawn(ring, outline)]
    low, high = float(outline[:, axis].min()), float(outline[:, axis].max())
    return _is_along(sides, axis, low), _is_along(sides, axis, high)


def _is_along(sides: tuple[Points, Points], axis: int, place: float) -> bool:
    return bool(np.any(np.all(np.abs(np.array(sides)[..., axis] - place) < ON_EDGE, axis=0)))
