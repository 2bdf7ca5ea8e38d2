"""Finds which border a sawn side of a piece fits.

A side of a piece is sawn unless it lies on the outline of its tile; a sawn side lies on the boundary of the
region.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.inscribed import inward_normals
from tilelayout.geometry.rings import following
from tilelayout.layout.sources import Stretches, together
from tilelayout.layout.values import BorderEdge, Piece, Points, Region


@lru_cache(maxsize=16)
def stretches_of(region: Region) -> Stretches:
    """Return the boundary of a region, and of the regions it is divided into, as stretches."""
    no_ring = np.empty((0, 2))
    ends = np.concatenate([no_ring, *(following(ring) for ring in region.rings)])
    borders = tuple(border for ring in region.borders for border in ring)
    own = Stretches(np.concatenate([no_ring, *region.rings]), ends, borders)
    return together([own, *map(stretches_of, region.within)]) if region.within else own


def is_sawn(ring: Points, outline: Points) -> NDArray[np.bool_]:
    """Tell of each side of a ring whether it is sawn: whether no side of `outline` holds it."""
    normals, lengths = inward_normals(outline, following(outline))
    along = np.column_stack([normals[:, 1], -normals[:, 0]])
    depths = ring @ normals.T - np.sum(outline * normals, axis=1)
    places = ring @ along.T - np.sum(outline * along, axis=1)
    on_side = (np.abs(depths) < ON_EDGE) & (places > -ON_EDGE) & (places < lengths + ON_EDGE)
    return np.asarray(~np.any(on_side & following(on_side), axis=1))


def sawn_sides(piece: Piece, ring: Points) -> NDArray[np.bool_]:
    """Tell of each side of a ring (n, 2) of a piece, in surface coordinates, whether it is sawn."""
    return np.asarray(np.all([is_sawn(ring, own) for own in piece.sawn_from], axis=0))


def sawn_borders(piece: Piece, region: Region) -> tuple[BorderEdge, ...]:
    """Return the borders that the sawn sides of a piece fit, side by side."""
    found: list[BorderEdge] = []
    for ring in (piece.outline, *piece.holes):
        sawn = sawn_sides(piece, ring)
        found += stretches_of(region).nearest(ring[sawn], following(ring)[sawn])
    return tuple(found)
