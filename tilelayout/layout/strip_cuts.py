"""The cuts that make a strip of trim out of its tile: one along each side that is no factory edge."""

from __future__ import annotations

import numpy as np

from tilelayout.geometry.rings import following
from tilelayout.layout.bordering import is_sawn
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.sawn import How, Stretch
from tilelayout.layout.straight_cuts import straight_cut
from tilelayout.layout.values import Cut, Piece


def strip_cuts(strip: Piece) -> tuple[Cut, ...]:
    """Return the straight cuts of a strip, whose outline is convex."""
    ring, tile = strip.in_tile(strip.outline), tile_outline(strip.tile)
    ends = following(ring)
    return tuple(
        straight_cut(Stretch(np.array([ring[at], ends[at]]), How.ACROSS, None), tile, stops=False)
        for at in np.flatnonzero(is_sawn(ring, tile))
    )
