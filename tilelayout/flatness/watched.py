"""Which chords break a limit while a surface is filled, without laying every straightedge again each time.

From each corner of the mesh the deep chords are kept as rows, sums of heights that are tried in no time. Of
all its other chords it is known by how much they lacked to the limit. A chord's depth is a sum of heights of
three places, so it changes by no more than the changes of the ground in reach differ: as long as that is less
than what was lacking, none of the others can break a limit, and the fan need not be drawn again.
"""

from __future__ import annotations

from collections.abc import Generator, Sequence
from dataclasses import dataclass

import numpy as np

from tilelayout.flatness.fans import Fan, Fans, Trials, trials
from tilelayout.flatness.mesh import Flags, Mesh, Numbers, Places, Points
from tilelayout.flatness.programs import Sums, corner_rows, sums_over
from tilelayout.flatness.straightedge import Rays, without_plane
from tilelayout.flatness.surroundings import Surroundings
from tilelayout.flatness.values import Chord

_KEPT_EACH = 64
"""So many chords of a corner are kept for each length, below and above."""

_KEPT_FROM = 0.1
"""Chords are kept that lack less than this share of the limit."""

_AT_ONCE = 200
"""Fans drawn before it is looked whether a limit is broken; then the program is solved first."""

_EVERY = 7
"""Corners are drawn in strides: the first are spread over the whole surface."""

_ROWS_EACH = 2
"""Rows that the program is given at a time from a corner, for each length, below and above."""

_SAME_LENGTH = 1e-7


@dataclass(frozen=True, eq=False)
class _Rows:
    """Chords as sums of `shares` (k, 9) x heights at `corners` (k, 9), to be at most `limits` (k,).

    `points` (k, 3, 2) are start, end and place. `owner` (k,) is the corner of the mesh that each starts from,
    `kind` (k,) numbers length and side.
    """

    owner: Places
    kind: Places
    corners: Places
    shares: Numbers
    limits: Numbers
    points: Points

    def excess(self, heights: Numbers) -> Numbers:
        """By how much (k,) each breaks its limit."""
        return np.asarray(np.einsum("kc,kc->k", self.shares, heights[self.corners]) - self.limits)

    def picked(self, which: Places | Flags) -> _Rows:
        return _Rows(*(getattr(self, name)[which] for name in self.__dataclass_fields__))

    def and_more(self, more: _Rows) -> _Rows:
        both = ((getattr(self, name), getattr(more, name)) for name in self.__dataclass_fields__)
        return _Rows(*(np.concatenate(pair) for pair in both))


@dataclass(frozen=True, eq=False)
class Broken:
    """Rows for the program, the worst of which is broken by `worst` mm.

    Of chords through corners there are finitely many; `is_between` claims that these are not among them.
    """

    sums: Sums
    worst: float
    is_between: bool = False


class Watched:
    """A surface and the limits (over, limit) that it has to keep to, for as many fills as are tried."""

    def __init__(self, mesh: Mesh, limits: Sequence[tuple[float, float]], rays: Rays) -> None:
        self.mesh, self._limits, self._rays = mesh, tuple(limits), rays
        count = len(mesh.places)
        self._order = np.argsort(np.arange(count) % _EVERY, kind="stable")
        longest = max(over for over, _ in limits)
        self._fans = rays.fans if rays.fans.are_kept else Fans(mesh, longest)
        self._around = [Surroundings(mesh.places, over + mesh.longest) for over, _ in limits]
        self._lacked = np.full((len(limits), count), -np.inf)
        self._drawn_at = np.zeros(count, dtype=np.intp)
        self._drawn_for: list[Numbers] = []
        self._kept = _Rows(
            *(np.empty(0, dtype=np.intp),) * 2,
            np.empty((0, 9), dtype=np.intp),
            np.empty((0, 9)),
            np.empty(0),
            np.empty((0, 3, 2)),
        )

    def broken_steps(self, heights: Numbers, by: float) -> Generator[None, None, Broken | None]:
        """Find chords that break a limit by more than `by` at heights (v,); None if there is none.

        It stops in between so that it can be given up.
        """
        while True:
            found = self._broken(heights, by)
            stale = self._stale(heights, by) if found is None else self._order[:0]
            if not len(stale):
                return found
            self._draw(stale[:_AT_ONCE], heights)
            yield

    def full_length(self, heights: Numbers, most: int) -> list[list[Chord]]:
        """Return for each length and side the deepest kept chords of full length, each of another corner."""
        depths = self._kept.excess(heights) + self._kept.limits
        return [self._deepest_full(kind, depths, most) for kind in range(2 * len(self._limits))]

    def _deepest_full(self, kind: int, depths: Numbers, most: int) -> list[Chord]:
        kept, over = self._kept, self._limits[kind // 2][0]
        along = kept.points[:, 1] - kept.points[:, 0]
        full = np.hypot(along[:, 0], along[:, 1]) >= over - _SAME_LENGTH
        which = np.flatnonzero(full & (kept.kind == kind))
        which = which[np.argsort(-depths[which], kind="stable")]
        which = which[np.sort(np.unique(kept.owner[which], return_index=True)[1])][:most]
        ends = kept.points[which].tolist()
        return [
            Chord(tuple(start), tuple(end), tuple(at), depth)
            for (start, end, at), depth in zip(ends, depths[which].tolist(), strict=True)
        ]

    def _broken(self, heights: Numbers, by: float) -> Broken | None:
        excess = self._kept.excess(heights)
        order = np.flatnonzero(excess > by)
        if not len(order):
            return None
        group = self._kept.owner[order] * 2 * len(self._limits) + self._kept.kind[order]
        by_group = np.lexsort((-excess[order], group))
        order, group = order[by_group], group[by_group]
        rank = np.arange(len(order)) - np.searchsorted(group, group)
        rows = self._kept.picked(order[rank < _ROWS_EACH])
        return Broken(sums_over(self.mesh, rows.corners, rows.shares, rows.limits), float(excess.max()))

    def _stale(self, heights: Numbers, by: float) -> Places:
        """The corners from which a chord that is not kept may break a limit, in the order to draw them."""
        stale = np.zeros(len(heights), dtype=bool)
        for at, then in enumerate(self._drawn_for):
            whose = self._drawn_at == at
            if whose.any():
                change = [around.spread(heights - then) for around in self._around]
                stale |= whose & np.any(self._lacked + by < change, axis=0)
        stale |= np.any(np.isinf(self._lacked) & (self._lacked < 0.0), axis=0)
        bounds = self._rays.bounds(without_plane(self.mesh, heights)) if stale.any() else None
        if bounds is None:
            return self._order[stale[self._order]]
        allowed = np.repeat([limit + by for _, limit in self._limits], 2)
        over = np.where(stale, np.max(bounds.any_length / allowed[:, None], axis=0), 0.0)
        corners = np.flatnonzero(over > 1.0)
        return np.asarray(corners[np.argsort(-over[corners], kind="stable")])

    def _draw(self, corners: Places, heights: Numbers) -> None:
        """Draw the fans of some corners, and keep their deep chords instead of those kept before."""
        if not self._drawn_for or not np.array_equal(self._drawn_for[-1], heights):
            self._drawn_for.append(heights)
        self._drawn_at[corners] = len(self._drawn_for) - 1
        overs = tuple(over for over, _ in self._limits)
        self._lacked[:, corners] = np.inf
        deep, plain = [], without_plane(self.mesh, heights)
        for drawn in self._fans.of(corners.tolist()):
            deep += self._deep(drawn, trials(drawn, plain, overs))
        kept = self._kept.picked(~np.isin(self._kept.owner, corners))
        self._kept = kept.and_more(self._rows(deep)) if deep else kept

    def _deep(self, drawn: Fan, bundle: Trials) -> list[_Deep]:
        """The deep chords of a fan; how much the others lack is noted."""
        found = []
        for at, (over, limit) in enumerate(self._limits):
            fits = np.flatnonzero((bundle.end <= over + _SAME_LENGTH) & bundle.on_ground)
            for side, sign in enumerate((1.0, -1.0)):
                lack = limit - sign * bundle.depth[fits]
                near = np.flatnonzero(lack < _KEPT_FROM * limit)
                rest = _KEPT_FROM * limit
                if len(near) > _KEPT_EACH:
                    near = near[np.argpartition(lack[near], _KEPT_EACH)]
                    near, rest = near[:_KEPT_EACH], float(lack[near[_KEPT_EACH]])
                elif not len(near):
                    rest = float(lack.min(initial=np.inf))
                self._lacked[at, drawn.corner] = min(self._lacked[at, drawn.corner], rest)
                if len(near):
                    found.append(_Deep(drawn, bundle, fits[near], 2 * at + side))
        return found

    def _rows(self, deep: list[_Deep]) -> _Rows:
        owner, kind = (np.repeat(which, [len(each.trial) for each in deep]) for which in _columns(deep))
        points = np.concatenate([each.points(self.mesh) for each in deep])
        share = np.concatenate([each.bundle.at[each.trial] / each.bundle.end[each.trial] for each in deep])
        sign = 1.0 - 2.0 * (kind % 2)
        weights = np.column_stack([1.0 - share, share, -np.ones(len(share))]) * sign[:, None]
        limits = np.array([limit for _, limit in self._limits])[kind // 2]
        return _Rows(owner, kind, *corner_rows(self.mesh, points, weights), limits, points)


@dataclass(frozen=True, eq=False)
class _Deep:
    """The trials (k,) of a fan that are kept, and the number of their length and side."""

    drawn: Fan
    bundle: Trials
    trial: Places
    kind: int

    def points(self, mesh: Mesh) -> Points:
        """Start, end and place (k, 3, 2) of each."""
        start = mesh.places[self.drawn.corner]
        along = self.drawn.directions[self.bundle.ray[self.trial]]
        end, at = (start + far[self.trial, None] * along for far in (self.bundle.end, self.bundle.at))
        return np.stack([np.broadcast_to(start, end.shape), end, at], axis=1)


def _columns(deep: list[_Deep]) -> tuple[Places, Places]:
    return np.array([each.drawn.corner for each in deep]), np.array([each.kind for each in deep])
