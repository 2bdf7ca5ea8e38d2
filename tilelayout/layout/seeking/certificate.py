"""A proved bound on the widest narrowest cut of any start, by branch and bound over one cell of the pattern.

Starts are parted into boxes, each laid at its middle. Take a convex part there and a start at most R from the
middle. If no inward corner of the region comes nearer to the part's convex face than R, then what the face,
moved by no more than R, can meet of the region next to the part is convex. So the part's narrowest place is
the diameter of the largest circle between the sides of the face, which move with the start, and walls, which
do not: twice the value of a linear program. Its dual weights add up to one, and weighted by them the normals
of walls and sides add up to nothing, so each of the two sums is at most a half, and the width changes by at
most the way the start moves. So if the part is wider than the least piece by more than R, it is a piece of
every start of the box, and cut there unless it may become as wide as the tile: no start of the box has a
narrowest cut wider than the part's width and R. Nor is it wider than the face reaches beyond a wall that
cuts the part, which changes only with the way the start moves square to the wall. A box is parted until such
a bound is no wider than what was found, but for `NEAR`, or until very many starts are laid; it holds always.

(Branch and bound after A. H. Land, A. G. Doig, Econometrica 28 (1960); the bound is our own.)
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.rings import following
from tilelayout.layout.kernel.arrays import Flags
from tilelayout.layout.offset_map.many_starts import AT_ONCE
from tilelayout.layout.seeking.trials import ConvexParts, Trials
from tilelayout.layout.values import Points, Region

NEAR = 25.4 / 32
"""A bound this near to what was found is near enough, in mm: a thirty-second of an inch."""

_MOST_LAID = 4096
_FINEST = 0.02
"""A box whose ends are nearer to its middle, in mm, is not parted further."""

_MOST_TRIED = 96
"""So many starts are offered for a closer look; where a drain decides, no bound tells they are no better."""

_MOST_WALLS = 24
"""The bound asks how far faces reach beyond so many walls, the longest."""


_Box = tuple[float, float, float, float, float]
"""The bound with a minus sign, then the middle and the half sizes as shares of the two lattice vectors."""


class Certificate:
    """The bound of one layout's starts, for rooms without hidden edges. `at_most` is in mm."""

    def __init__(self, trials: Trials) -> None:
        self.trials = trials
        self.at_most = trials.tile_narrowest
        self.laid = self.tried = 0
        self._inward, self._walls = inward_corners(trials.region), _longest_walls(trials.region)
        self._boxes: list[_Box] = [
            (-self.at_most, (i + 0.5) / 4, (j + 0.5) / 4, 0.125, 0.125) for i in range(4) for j in range(4)
        ]
        self._unparted = 0.0

    def steps(self, best: Callable[[], float]) -> Iterator[Points]:
        """Narrow the bound; yield starts (n, 2) that may be better than `best()`, the widest known so far."""
        while self._boxes and -self._boxes[0][0] > best() + NEAR and self.laid < _MOST_LAID:
            chosen = [heapq.heappop(self._boxes) for _ in range(min(AT_ONCE, len(self._boxes)))]
            boxes = np.array(chosen)
            starts = boxes[:, 1:3] @ self.trials.placed.vectors
            corners = self._corners(boxes[:, 3:])
            bounds, told = self._bounds(starts, corners)
            reach = np.hypot(corners[..., 0], corners[..., 1]).max(axis=1)
            self.laid += len(starts)
            better = starts[told > best()][: _MOST_TRIED - self.tried]
            self.tried += len(better)
            yield better
            for box, bound, far in zip(chosen, np.minimum(-boxes[:, 0], bounds), reach, strict=True):
                self._part(box, float(bound), float(far), best() + NEAR)
            if np.any((reach < NEAR / 4.0) & (told > best() + NEAR)):
                break  # what decides there is no convex part, so no bound will come near
        self.at_most = max(best(), self._unparted, *(-box[0] for box in self._boxes[:1]))

    def _corners(self, halves: Points) -> Points:
        """Return two neighbouring corners (n, 2, 2) of boxes (n, 2) from their middles, in mm."""
        u, v = (halves[:, axis, None] * self.trials.placed.vectors[axis] for axis in (0, 1))
        return np.stack([u + v, u - v], axis=1)

    def _bounds(self, starts: Points, corners: Points) -> tuple[Points, Points]:
        """Return what no start of a box is wider than, and what its middle is not wider than."""
        parts, least = self.trials.convex_parts(starts), self.trials.layout.least_piece
        reach = np.hypot(corners[..., 0], corners[..., 1]).max(axis=1)[parts.owner]
        holds = (parts.widths > least + reach) & ~self._are_near_inward(parts.faces, reach)
        wide = np.minimum(parts.widths + reach, self._beyond_walls(parts, corners))
        bounds, told = (np.full(len(starts), self.trials.tile_narrowest) for _ in range(2))
        np.minimum.at(bounds, parts.owner[holds], wide[holds])
        is_piece = parts.widths >= least
        np.minimum.at(told, parts.owner[is_piece], parts.widths[is_piece])
        return bounds, told

    def _are_near_inward(self, faces: Points, reach: Points) -> Flags:
        """Tell whose circle round the face (n, m, 2), and `reach` (n,) more, holds an inward corner."""
        if not len(self._inward):
            return np.zeros(len(faces), dtype=bool)
        centres = faces.mean(axis=1)
        away = faces - centres[:, None]
        radii = np.hypot(away[..., 0], away[..., 1]).max(axis=1) + reach
        apart = centres[:, None] - self._inward
        return np.asarray((np.hypot(apart[..., 0], apart[..., 1]) <= radii[:, None]).any(axis=1))

    def _beyond_walls(self, parts: ConvexParts, corners: Points) -> Points:
        """Return how far the faces (n,) can reach beyond a wall that cuts the part; infinite if none does."""
        ways, points = self._walls.ways, parts.outlines.points
        ring, inward = parts.outlines.following(), np.column_stack((-ways[:, 1], ways[:, 0]))
        middles = (points + ring) / 2.0
        level = (inward * self._walls.starts).sum(axis=1)
        is_on = (np.abs(points @ inward.T - level) < ON_EDGE) & (np.abs(ring @ inward.T - level) < ON_EDGE)
        along = middles @ ways.T - (ways * self._walls.starts).sum(axis=1)
        is_on &= (along > 0.0) & (along < self._walls.lengths)
        side, wall = np.nonzero(is_on)
        part = np.repeat(np.arange(len(parts.owner)), parts.outlines.sizes)[side]
        depth = (parts.faces[part] @ inward[wall][..., None])[..., 0].max(axis=1) - level[wall]
        moved = np.abs((corners[parts.owner[part]] @ inward[wall][..., None])[..., 0]).max(axis=1)
        found = np.full(len(parts.owner), np.inf)
        np.minimum.at(found, part, depth + moved)
        return found

    def _part(self, box: _Box, bound: float, reach: float, enough: float) -> None:
        """Put the two halves of a box back, if its bound is not good enough."""
        if bound <= enough or reach < _FINEST:
            self._unparted = max(self._unparted, bound)
            return
        _, u, v, half_u, half_v = box
        lengths = np.hypot(*self.trials.placed.vectors.T)
        if half_u * lengths[0] >= half_v * lengths[1]:
            halves = [(u + way * half_u / 2, v, half_u / 2, half_v) for way in (-1, 1)]
        else:
            halves = [(u, v + way * half_v / 2, half_u, half_v / 2) for way in (-1, 1)]
        for half in halves:
            heapq.heappush(self._boxes, (-bound, *half))


@dataclass(frozen=True, eq=False)
class _Walls:
    """Straight stretches of border (k,): their starts (k, 2) and ways (k, 2), the region on the left."""

    starts: Points
    ways: Points
    lengths: Points


def _longest_walls(region: Region) -> _Walls:
    starts = np.concatenate(region.rings)
    along = np.concatenate([following(ring) for ring in region.rings]) - starts
    lengths = np.hypot(along[:, 0], along[:, 1])
    longest = np.argsort(-lengths, kind="stable")[:_MOST_WALLS]
    return _Walls(starts[longest], along[longest] / lengths[longest, None], lengths[longest])


def inward_corners(region: Region) -> Points:
    """Return the corners (n, 2) at which the region is wider than half a turn: walls stand out there."""
    found = []
    for ring in region.rings:
        back, onward = ring - np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0) - ring
        found.append(ring[back[:, 0] * onward[:, 1] - back[:, 1] * onward[:, 0] < 0.0])
    return np.vstack(found)
