"""Plans as the JSON document that other programs read. Lengths in mm, areas in mm2, angles in degrees."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import msgspec
import numpy as np

from tilelayout.layout.values import Piece, Points
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.offcuts.tile_counts import TileCount
from tilelayout.planning.plan import Plan
from tilelayout.planning.reference_lines import line_misses
from tilelayout.planning.sensitivity import TILE_OFF, WALL_OFF, Range, ranges

_DECIMALS = 6
"""A nanometre: far below any measure, and short enough to read."""


def as_json(plans: Iterable[Plan], with_ranges: bool = False, **more: object) -> str:
    """Return the document, ending in a line feed. With ranges each layout has a key "ranges" more.

    `more` are further keys of the document (`findings`).
    """
    layouts = [_layout(made) | ({"ranges": _ranges(made)} if with_ranges else {}) for made in plans]
    return msgspec.json.encode({"layouts": layouts, **more}).decode() + "\n"


def _layout(made: Plan) -> dict[str, Any]:
    """The keys of a layout; one of several tiles says of each what is needed, and of a piece its tile."""
    has_several = len(made.tiles) > 1
    by_tile = {"by_tile": [count_tree(count) for count in made.by_tile]} if has_several else {}
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
        "pieces": [_piece(piece, has_several) for piece in made.laid.pieces()],
        "tiles_needed": made.tiles_needed,
        "tiles_needed_at_least": made.tiles_needed_at_least,
        **by_tile,
        **_chips(made),
        **_lines(made),
        "cut_from": [opened_tree(tile) for tile in made.cut_from],
    }


def _lines(made: Plan) -> dict[str, Any]:
    """How far each reference line is missed, if there are some."""
    lines = [
        {
            "is": line.line.kind.value,
            "name": line.line.name,
            "what": line.what,
            "miss": None if line.miss is None else _figure(line.miss),
            "words": line.words,
        }
        for line in line_misses(made)
    ]
    return {"lines": lines} if lines else {}


def _chips(made: Plan) -> dict[str, Any]:
    """How many chips of mosaic sheets stay whole and how many are cut, if there are any."""
    if made.chips is None:
        return {}
    return {"chips_whole": made.chips.whole_count, "chips_cut": len(made.chips.cut_parts)}


def count_tree(count: TileCount) -> dict[str, Any]:
    """Return what is needed of one tile, as keys for another program."""
    return {
        "tile": count.tile.id,
        "whole": count.whole,
        "cut": count.cut,
        "tiles_needed": count.needed,
        "tiles_needed_at_least": count.needed_at_least,
        "boxes": count.boxes,
    }


def _piece(piece: Piece, names_its_tile: bool) -> dict[str, Any]:
    tile = {"tile": piece.tile.id} if names_its_tile else {}
    return {
        "id": piece.id,
        "whole": piece.whole,
        "outline": _points(piece.outline),
        "holes": [_points(hole) for hole in piece.holes],
        "face": _points(piece.face),
        "narrowest": _figure(piece.narrowest),
        **tile,
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


def opened_tree(tile: OpenedTile, *, names_its_layout: bool = False) -> dict[str, Any]:
    """The pieces of a tile; of an offcut on hand also its outline, and no tile is opened for it."""
    pieces = [
        {
            "piece": p.piece,
            "outline": _points(p.outline),
            "turned": _figure(p.turned),
            **({"layout": p.layout} if names_its_layout else {}),
        }
        for p in tile.pieces
    ]
    on_hand = {"on_hand": _points(np.array(tile.blank.part))} if tile.is_on_hand else {}
    return {"tile": tile.number, "pieces": pieces, **on_hand}


def _points(points: Points) -> list[list[float]]:
    rounded: list[list[float]] = (np.round(points, _DECIMALS) + 0.0).tolist()
    return rounded


def _figure(figure: float) -> float:
    return round(float(figure), _DECIMALS) + 0.0
