"""Cuts many tiles at once: all those that the region's boundary enters once and leaves once.

Such a tile keeps what lies on the left of the chain of edges that runs through it. Its part is the chain
from where it enters to where it leaves, and from there the tile's own corners, counter-clockwise, back to
where the chain entered. A straight wall is a chain of one edge, a corner of the room one of two, a piece
of an arc one of many. Corners and crossings of all tiles are written into one array; no tile is looked at
by itself.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.layout.kernel.arrays import Flags, Outlines, Whole, outlines_of, spread
from tilelayout.layout.kernel.crossing import Crossings
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.kernel.walk import Edges, Meetings
from tilelayout.layout.values import Points


@dataclass(frozen=True, eq=False)
class Chains:
    """The crossings of every tile, in order along the boundary; tile t has `starts[t] .. starts[t + 1] - 1`.

    `is_single` says which tiles are entered once and left once, by one ring.
    """

    crossings: Crossings
    starts: Whole
    is_single: Flags

    @property
    def tiles(self) -> Meetings:
        """The tiles, each with the first edge of its chain."""
        return self.crossings.met.only(self.starts[:-1])

    def only(self, wanted: Flags) -> Chains:
        """Return the chains of the tiles that are wanted, each of which must be single."""
        sizes = np.diff(self.starts)
        kept = self.crossings.only(np.repeat(wanted, sizes))
        starts = np.concatenate(([0], np.cumsum(sizes[wanted])))
        return Chains(kept, starts, self.is_single[wanted])


def chains_of(found: Crossings, edges: Edges) -> Chains:
    """Return the crossings gathered by tile."""
    met = found.met
    order = np.lexsort((met.edge, met.column, met.row, met.face))
    found = found.only(order)
    met = found.met
    differs = (np.diff(met.column) != 0) | (np.diff(met.row) != 0) | (np.diff(met.face) != 0)
    starts = np.concatenate(([0], np.flatnonzero(differs) + 1, [len(order)]))
    tile = np.repeat(np.arange(len(starts) - 1), np.diff(starts))
    first = met.edge[found.begins]
    entry = np.zeros(len(starts) - 1, dtype=np.int64)
    entry[tile[found.begins]] = first
    ring_size = edges.ring_sizes[edges.ring[met.edge]]
    place = (met.edge - entry[tile]) % ring_size
    found = found.only(np.lexsort((place, tile)))
    return Chains(found, starts, _are_single(found, starts, edges, place))


def _are_single(found: Crossings, starts: Whole, edges: Edges, place: Whole) -> Flags:
    """Tell which tiles have one way in, one way out, and between them one unbroken stretch of one ring."""
    begin, size = starts[:-1], np.diff(starts)
    ring = edges.ring[found.met.edge]
    one_ring = np.minimum.reduceat(ring, begin) == np.maximum.reduceat(ring, begin)
    unbroken = np.maximum.reduceat(place, begin) == size - 1
    ways_in = np.add.reduceat(found.begins.astype(np.int64), begin)
    ways_out = np.add.reduceat(found.ends.astype(np.int64), begin)
    return np.asarray(one_ring & unbroken & (ways_in == 1) & (ways_out == 1) & found.begins[begin])


def kept_on_the_left(chains: Chains, edges: Edges, placed: Placed) -> Outlines:
    """Return what each tile of single chains keeps, its outline counter-clockwise."""
    found, begin, end = chains.crossings, chains.starts[:-1], chains.starts[1:] - 1
    tiles, length = chains.tiles, np.diff(chains.starts)
    entry = _on_edge(edges, found.met.edge[begin], found.enters[begin])
    leave = _on_edge(edges, found.met.edge[end], found.leaves[end])
    corners = _corners_between(found.side_out[end], found.side_in[begin], leave - entry, tiles.face, placed)
    sizes = length + 1 + corners
    first = np.cumsum(sizes) - sizes
    tile, step = spread(length)
    at_chain = first[tile] + step
    tile, step = spread(corners)
    corner = (found.side_out[end][tile] + 1 + step) % placed.corner_counts[tiles.face[tile]]
    own = placed.points(tiles.face[tile], corner, tiles.column[tile], tiles.row[tile])
    at_own = (first + length + 1)[tile] + step
    along = edges.starts.take(found.met.edge, axis=0)
    along[chains.starts[:-1]] = entry
    return outlines_of(_woven((at_chain, along), (first + length, leave), (at_own, own)), sizes)


def _woven(*strands: tuple[Whole, Points]) -> Points:
    """Return the points of all strands, each at its place; together the places are 0, 1, 2, ..."""
    places = np.concatenate([places for places, _ in strands])
    source = np.empty_like(places)
    source[places] = np.arange(len(places))
    return np.concatenate([points for _, points in strands]).take(source, axis=0)


def _on_edge(edges: Edges, edge: Whole, share: Points) -> Points:
    start, stop = edges.starts.take(edge, axis=0), edges.stops.take(edge, axis=0)
    return np.asarray(start + share[:, None] * (stop - start))


def _corners_between(side_out: Whole, side_in: Whole, onward: Points, face: Whole, placed: Placed) -> Whole:
    """Count the tile's corners met on the way from the side left by to the side entered by.

    On one and the same side there are none if the way out lies before the way in, else all.
    """
    counts = placed.corner_counts[face]
    between = (side_in - side_out) % counts
    normal_x, normal_y = placed.normals[face, side_in].T
    is_past = normal_y * onward[:, 0] - normal_x * onward[:, 1] > 0.0
    return np.where((between == 0) & is_past, counts, between)
