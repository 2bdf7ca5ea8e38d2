"""The border cuts along each straight edge of a surface: what the tiler judges a setting out by.

Along an edge stand cut pieces, or whole tiles that come to within a joint or a part too narrow to lay. The
depth of one is measured square to the edge, from the border of the region to its far side.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.rings import following
from tilelayout.layout.bordering import stretches_of
from tilelayout.layout.laying import Laid
from tilelayout.layout.outlines import edge_source
from tilelayout.layout.values import Points
from tilelayout.layout.whole_near import whole_near

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
class _Line:
    """The border along one edge, as a line: `places` (n, 2) are the parts of it that the region reaches."""

    start: Points
    way: Points
    inward: Points
    places: Points

    def depths(self, points: Points) -> Points:
        return np.asarray((points - self.start) @ self.inward)

    def touched(self, starts: Points, ends: Points) -> Points:
        """Length of the border between the places of `starts` and `ends` (n, 2), either way round."""
        at = np.stack([(starts - self.start) @ self.way, (ends - self.start) @ self.way])
        low, high = at.min(axis=0)[:, None], at.max(axis=0)[:, None]
        overlap = np.minimum(high, self.places[:, 1]) - np.maximum(low, self.places[:, 0])
        return np.asarray(np.maximum(overlap, 0.0).sum(axis=1))


@dataclass(frozen=True, eq=False)
class _Standing:
    """What stands along one border: depths, lengths of border, and which are whole tiles; (n,) each."""

    depths: NDArray[np.float64]
    lengths: NDArray[np.float64]
    whole: NDArray[np.bool_]


def border_cuts(laid: Laid) -> tuple[BorderCut, ...]:
    """Return the border cut of each straight edge of the surface at which any tile stands."""
    sides = _CutSides(laid)
    found = []
    for edge in range(len(laid.surface.outline)):
        line = _line_along(edge, laid)
        if line is not None:
            standing = _together(sides.along(line), _whole_along(line, laid))
            if len(standing.depths):
                found.append(_judged(edge, line, standing, laid))
    return tuple(found)


def _line_along(edge: int, laid: Laid) -> _Line | None:
    """The border of a straight edge; None for an arc, or where nothing of the edge is left."""
    if laid.surface.edge(edge).through is not None:
        return None
    stretches = stretches_of(laid.region)
    at = [i for i, border in enumerate(stretches.borders) if border.source == edge_source(edge)]
    outline = np.array(laid.surface.outline, dtype=float)
    along = outline[(edge + 1) % len(outline)] - outline[edge]
    way = along / np.hypot(*along)
    starts, ends = stretches.starts[at], stretches.ends[at]
    steps = ends - starts
    is_along = np.abs(steps[:, 0] * way[1] - steps[:, 1] * way[0]) < ON_EDGE
    if not is_along.any():
        return None
    starts, ends = starts[is_along], ends[is_along]
    way = way if (ends[0] - starts[0]) @ way > 0 else -way
    places = np.stack([(starts - starts[0]) @ way, (ends - starts[0]) @ way], axis=1)
    return _Line(starts[0], way, np.array([-way[1], way[0]]), places)


class _CutSides:
    """The sides of all cut pieces in one array, so that each edge is compared with all of them at once."""

    def __init__(self, laid: Laid) -> None:
        rings = [piece.outline for piece in laid.cut] or [np.empty((0, 2))]
        counts = np.array([len(ring) for ring in rings])
        self.first = np.cumsum(counts) - counts
        self.starts = np.concatenate(rings)
        self.ends = following(self.starts)
        if len(self.starts):
            self.ends[self.first + counts - 1] = self.starts[self.first]

    def along(self, line: _Line) -> _Standing:
        """The pieces with a side on a border."""
        depths = line.depths(self.starts)
        on_line = (np.abs(depths) < ON_EDGE) & (np.abs(line.depths(self.ends)) < ON_EDGE)
        touching = on_line & ((self.ends - self.starts) @ line.way > 0)
        lengths = np.where(touching, line.touched(self.starts, self.ends), 0.0)
        if not lengths.any():
            return _nothing()
        length = np.add.reduceat(lengths, self.first)
        depth = np.maximum.reduceat(depths, self.first)
        stands = length > ON_EDGE
        return _Standing(depth[stands], length[stands], np.zeros(int(stands.sum()), dtype=bool))


def _whole_along(line: _Line, laid: Laid) -> _Standing:
    """The whole tiles between which and a border nothing can lie but a joint and a part too narrow to lay."""
    reach = laid.layout.joint + laid.layout.least_piece
    found = _nothing()
    for faces in _faces_near(line, reach, laid):
        depths = line.depths(faces)
        near = depths.min(axis=1)
        at = np.flatnonzero((near > -ON_EDGE) & (near < reach))
        places = (faces[at] - line.start) @ line.way
        low, high = places.min(axis=1)[:, None] * line.way, places.max(axis=1)[:, None] * line.way
        lengths = line.touched(line.start + low, line.start + high)
        stands = lengths > ON_EDGE
        depth = (depths[at].max(axis=1) - near[at])[stands]
        found = _together(found, _Standing(depth, lengths[stands], np.ones(len(depth), dtype=bool)))
    return found


def _faces_near(line: _Line, reach: float, laid: Laid) -> list[Points]:
    """The whole tiles (n, m, 2) around a border, an array for each face of the cell."""
    ends = line.start + line.places.reshape(-1, 1) * line.way
    moves = whole_near(laid, ends.min(axis=0) - reach, ends.max(axis=0) + reach)
    return [face + move[:, None] for face, move in zip(laid.placed_faces, moves, strict=True)]


def _nothing() -> _Standing:
    return _Standing(np.empty(0), np.empty(0), np.empty(0, dtype=bool))


def _together(one: _Standing, other: _Standing) -> _Standing:
    return _Standing(
        np.concatenate([one.depths, other.depths]),
        np.concatenate([one.lengths, other.lengths]),
        np.concatenate([one.whole, other.whole]),
    )


def _judged(edge: int, line: _Line, standing: _Standing, laid: Laid) -> BorderCut:
    sizes = np.round(standing.depths / _SAME_DEPTH).astype(int)
    kinds, members = np.unique(sizes, return_inverse=True)
    runs = np.bincount(members, weights=standing.lengths, minlength=len(kinds))
    usual = members == int(np.argmax(runs))
    runs_whole = standing.lengths[usual & standing.whole].sum()
    depth = float(np.median(standing.depths[usual]))
    full = max(float(np.ptp(line.depths(face))) for face in laid.placed_faces)
    return BorderCut(
        edge=edge,
        name=laid.surface.edge(edge).name,
        usual=depth,
        least=float(standing.depths.min()),
        greatest=float(standing.depths.max()),
        share=depth / full,
        is_whole=bool(runs_whole > standing.lengths[usual].sum() / 2.0),
    )
