"""The border cuts along each straight edge of a surface: what the tiler judges a setting out by.

Along an edge stand cut pieces, or whole tiles that come to within a joint or a part too narrow to lay. The
depth of one is measured square to the edge, from the border of the region to its far side. All edges are
compared with all pieces in the same arrays, since a dragged start asks for this at every step.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.job.values import Surface
from tilelayout.layout.bordering import stretches_of
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.laying import Laid
from tilelayout.layout.outlines import border_source, edge_source
from tilelayout.layout.values import Points, Region
from tilelayout.layout.whole_near import whole_near_boxes

_SAME_DEPTH = 0.05
"""Depths that differ by less are one size: nobody could set a saw to the difference."""


@dataclass(frozen=True)
class BorderCut:
    """The pieces along outline edge `edge`, which a person calls `name` ("" if it has no name).

    `usual` is the depth that the longest run of the edge has, `least` and `greatest` are its extremes, all in
    mm; `share` is the usual depth as a part of the whole tile's in that direction. `is_whole` claims that
    most of the usual ones are whole tiles.
    """

    edge: int
    name: str
    usual: float
    least: float
    greatest: float
    share: float
    is_whole: bool


@dataclass(frozen=True, eq=False)
class _Lines:
    """The borders along k straight edges, as lines: the same for every start.

    `starts`, `ways` and `inwards` are (k, 2); `places` (k, p, 2) are the parts of a line that the region
    reaches, filled up with some of no length.
    """

    edges: tuple[int, ...]
    starts: Points
    ways: Points
    inwards: Points
    places: Points

    def depths(self, line: Whole, points: Points) -> Points:
        """How far inside of line `line` (n,) each point (n, ..., 2) lies."""
        return self._along(self.inwards, line, points)

    def at(self, line: Whole, points: Points) -> Points:
        """How far along line `line` (n,) each point (n, ..., 2) lies."""
        return self._along(self.ways, line, points)

    def _along(self, ways: Points, line: Whole, points: Points) -> Points:
        to_each = (len(line), *(1,) * (points.ndim - 2), 2)
        way, start = ways[line].reshape(to_each), self.starts[line].reshape(to_each)
        x, y = np.moveaxis((points - start) * way, -1, 0)
        return np.asarray(x + y)

    def touched(self, line: Whole, low: Points, high: Points) -> Points:
        """Length of border `line` (n,) between two places along it."""
        places = self.places[line]
        overlap = np.minimum(high[:, None], places[..., 1]) - np.maximum(low[:, None], places[..., 0])
        return np.asarray(np.maximum(overlap, 0.0).sum(axis=1))


@dataclass(frozen=True, eq=False)
class _Standing:
    """What stands along the borders: which line, depth, length of border, is it a whole tile; (n,) each."""

    line: Whole
    depths: Points
    lengths: Points
    is_whole: Flags


def border_cuts(laid: Laid) -> tuple[BorderCut, ...]:
    """Return the border cut of each straight edge of the surface at which any tile stands."""
    lines = _lines_of(laid.surface, laid.region)
    if not lines.edges:
        return ()
    standing = _together(_cut_along(lines, laid), _whole_along(lines, laid))
    full = np.max([np.ptp(face @ lines.inwards.T, axis=0) for face in laid.placed_faces], axis=0)
    found = []
    for at, edge in enumerate(lines.edges):
        here = standing.line == at
        if here.any():
            name = laid.surface.edge(edge).name
            found.append(_judged(edge, name, float(full[at]), standing, np.flatnonzero(here)))
    return tuple(found)


@lru_cache(maxsize=16)
def _lines_of(surface: Surface, region: Region) -> _Lines:
    """The straight edges of which anything is left."""
    found = [
        (edge, line)
        for edge in range(len(surface.outline))
        if (line := _line_along(edge, surface, region)) is not None
    ]
    places = np.zeros((len(found), max((len(line[2]) for _, line in found), default=0), 2))
    for at, (_, (_, _, there)) in enumerate(found):
        places[at, : len(there)] = there
    starts = np.array([start for _, (start, _, _) in found]).reshape(-1, 2)
    ways = np.array([way for _, (_, way, _) in found]).reshape(-1, 2)
    inwards = np.stack([-ways[:, 1], ways[:, 0]], axis=1)
    return _Lines(tuple(edge for edge, _ in found), starts, ways, inwards, places)


def _line_along(edge: int, surface: Surface, region: Region) -> tuple[Points, Points, Points] | None:
    """Start, way and places of a straight edge's border; None for an arc, or where nothing of it is left.

    A field ends at its border of tiles, not at the edge.
    """
    if surface.edge(edge).through is not None:
        return None
    stretches = stretches_of(region)
    sources = [border.source for border in stretches.borders]
    wanted = border_source(edge) if border_source(edge) in sources else edge_source(edge)
    at = [i for i, source in enumerate(sources) if source == wanted]
    outline = np.array(surface.outline, dtype=float)
    along = outline[(edge + 1) % len(outline)] - outline[edge]
    way = along / np.hypot(*along)
    starts, ends = stretches.starts[at], stretches.ends[at]
    steps = ends - starts
    is_along = np.abs(steps[:, 0] * way[1] - steps[:, 1] * way[0]) < ON_EDGE
    if not is_along.any():
        return None
    starts, ends = starts[is_along], ends[is_along]
    way = way if (ends[0] - starts[0]) @ way > 0 else -way
    return starts[0], way, np.stack([(starts - starts[0]) @ way, (ends - starts[0]) @ way], axis=1)


def _cut_along(lines: _Lines, laid: Laid) -> _Standing:
    """The cut pieces with a side on a border."""
    outlines = laid.cut_parts.outlines
    if not len(outlines):
        return _NOTHING
    starts, ends = outlines.points, outlines.following()
    depths = starts @ lines.inwards.T - np.sum(lines.starts * lines.inwards, axis=1)
    side, line = np.nonzero(np.abs(depths) < ON_EDGE)
    low, high = lines.at(line, starts[side]), lines.at(line, ends[side])
    touching = (np.abs(lines.depths(line, ends[side])) < ON_EDGE) & (high > low)
    side, line, low, high = side[touching], line[touching], low[touching], high[touching]
    piece = np.searchsorted(outlines.starts, side, side="right") - 1
    pair, sides = np.unique(line * len(outlines) + piece, return_inverse=True)
    lengths: Points = np.zeros(len(pair))
    np.add.at(lengths, sides, lines.touched(line, low, high))
    line, piece = np.divmod(pair, len(outlines))
    deepest = np.maximum.reduceat(depths, outlines.starts[:-1], axis=0)
    stands = lengths > ON_EDGE
    line, piece = line[stands], piece[stands]
    return _Standing(line, deepest[piece, line], lengths[stands], np.zeros(len(line), dtype=bool))


def _whole_along(lines: _Lines, laid: Laid) -> _Standing:
    """The whole tiles between which and a border nothing can lie but a joint and a part too narrow to lay."""
    reach = laid.layout.joint + laid.layout.least_piece
    ends = lines.starts[:, None] + lines.places.reshape(len(lines.edges), -1, 1) * lines.ways[:, None]
    near = whole_near_boxes(laid, ends.min(axis=1) - reach, ends.max(axis=1) + reach)
    found = _NOTHING
    for face, (beside, moves) in zip(laid.placed_faces, near, strict=True):
        faces = face + moves[:, None]
        depths = lines.depths(beside, faces)
        least = depths.min(axis=1)
        is_near = (least > -ON_EDGE) & (least < reach)
        line, depth = beside[is_near], np.ptp(depths[is_near], axis=1)
        at = lines.at(line, faces[is_near])
        lengths = lines.touched(line, at.min(axis=1), at.max(axis=1))
        stands = lengths > ON_EDGE
        standing = _Standing(
            line[stands], depth[stands], lengths[stands], np.ones(int(stands.sum()), dtype=bool)
        )
        found = _together(found, standing)
    return found


_NOTHING = _Standing(np.empty(0, dtype=np.int64), np.empty(0), np.empty(0), np.empty(0, dtype=bool))


def _together(one: _Standing, other: _Standing) -> _Standing:
    return _Standing(
        np.concatenate([one.line, other.line]),
        np.concatenate([one.depths, other.depths]),
        np.concatenate([one.lengths, other.lengths]),
        np.concatenate([one.is_whole, other.is_whole]),
    )


def _judged(edge: int, name: str, full: float, standing: _Standing, here: Whole) -> BorderCut:
    """The border cut of one edge from what stands there; `full` is the tile's size in that direction."""
    depths, lengths = standing.depths[here], standing.lengths[here]
    sizes = np.round(depths / _SAME_DEPTH).astype(int)
    runs = np.bincount(sizes, weights=lengths).round(2)  # of runs equally long the narrower
    usual = sizes == int(np.argmax(runs))
    runs_whole = float(lengths[usual & standing.is_whole[here]].sum())
    in_order = np.sort(depths[usual])
    depth = float(in_order[(len(in_order) - 1) // 2] + in_order[len(in_order) // 2]) / 2.0
    return BorderCut(
        edge=edge,
        name=name,
        usual=depth,
        least=float(depths.min()),
        greatest=float(depths.max()),
        share=depth / full,
        is_whole=bool(runs_whole > lengths[usual].sum() / 2.0),
    )
