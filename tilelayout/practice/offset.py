"""How far the ends of tiles in one row stand beside the middles of the next, which several rules judge."""

from __future__ import annotations

from itertools import pairwise

from tilelayout.job.values import Layout, RectangleTile, Tile
from tilelayout.layout.patterns import settings_of

_NONE = 1e-3


def offset_share(layout: Layout) -> float:
    """Return the largest offset of neighbouring rows or columns as a share of a tile, 0 to 1/2.

    A shift of 2/3 is one of 1/3 seen from the other end. Patterns that know no offsets have none.
    """
    settings = settings_of(layout)
    names = [name for name in settings.__struct_fields__ if name.endswith("_offsets")]
    offsets = [float(share) for name in names for share in getattr(settings, name)]
    steps = ((later - earlier) % 1.0 for earlier, later in pairwise([*offsets, *offsets[:1]]))
    largest = max((min(step, 1.0 - step) for step in steps), default=0.0)
    return largest if largest > _NONE else 0.0


def side_offset(tile: Tile) -> float:
    """Return the side along which rows are shifted: nominal where the label is known, else as measured.

    The rule on offsets looks at this side, that on joints at any.
    """
    along = getattr(tile, "length", getattr(tile, "side", 0.0))
    is_longest = not isinstance(tile, RectangleTile) or tile.length >= tile.width
    return float(tile.nominal if tile.nominal is not None and is_longest else along)
