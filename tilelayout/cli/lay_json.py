"""Plans as the JSON document that other programs read. Lengths in mm, areas in mm2, angles in degrees."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import msgspec
import numpy as np

from tilelayout.layout.values import Piece, Points
from tilelayout.offcuts.one_each import OpenedTile
from tilelayout.planning.plan import Plan
from tilelayout.planning.sensitivity import TILE_OFF, WALL_OFF, Range, ranges

_DECIMALS = 6
"""A nanometre: far below any measure, and short enough to read."""


def as_json(plans: Iterable[Plan], with_ranges: bool = False) -> str:
    """Return the document, ending in a line feed. With ranges each layout has a key "ranges" more."""
    layouts = [_layout(made) | ({"ranges": _ranges(made)} if with_ranges else {}) for made in plans]
    return msgspec.json.encode({"layouts": layouts}).decode() + "\n"


def _layout(made: Plan) -> dict[str, Any]:
    return {
        "id": made.layout.id,
        "surface": made.surface.id,
        "tile": made.tile.id,
        "region_area": _figure(made.region_area),
        "covered_area": _figure(made.covered_area),
        "whole": made.whole,
        "cut": made.cut,
        "left_to_joint": made.left_to_joint,
        "slivers": len(made.slivers),
        "narrowest": None if made.narrowest is None else _figure(made.narrowest),
        "pieces": [_piece(piece) for piece in made.laid.pieces()],
        "tiles_needed": made.tiles_needed,
        "tiles_needed_at_least": made.tiles_needed_at_least,
        "cut_from": [_opened(tile) for tile in made.cut_from],
    }


def _piece(piece: Piece) -> dict[str, Any]:
    return {
        "id": piece.id,
        "whole": piece.whole,
        "outline": _points(piece.outline),
        "holes": [_points(hole) for hole in piece.holes],
        "face": _points(piece.face),
        "narrowest": _figure(piece.narrowest),
    }


def _ranges(made: Plan) -> dict[str, Any]:
    found = ranges(made)
    counts = {"whole": found.whole, "cut": found.cut, "slivers": found.slivers}
    borders = [
        {"edge": edge, "may_be_whole": border.may_be_whole, "cut": _range(border)}
        for edge, border in sorted(found.borders.items())
    ]
    return {
        "wall_off": WALL_OFF,
        "tile_off": TILE_OFF,
        **{name: [round(each.least), round(each.greatest)] for name, each in counts.items()},
        "narrowest": _range(found.narrowest),
        "borders": borders,
    }


def _range(found: Range) -> list[float] | None:
    """The two ends in mm; none if the figure was never there."""
    return [_figure(found.least), _figure(found.greatest)] if found.least <= found.greatest else None


def _opened(tile: OpenedTile) -> dict[str, Any]:
    pieces = [
        {"piece": p.piece, "outline": _points(p.outline), "turned": _figure(p.turned)} for p in tile.pieces
    ]
    return {"tile": tile.number, "pieces": pieces}


def _points(points: Points) -> list[list[float]]:
    rounded: list[list[float]] = (np.round(points, _DECIMALS) + 0.0).tolist()
    return rounded


def _figure(figure: float) -> float:
    return round(float(figure), _DECIMALS) + 0.0
