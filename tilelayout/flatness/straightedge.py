"""A straightedge laid on the surface everywhere and in every direction: gap and rise over each length.

The chords through two corners of the mesh are all tried (see `fans`), then the deepest are followed to where
a straightedge of full length lies deepest between corners (see `following`). Each figure is therefore one
that a real straightedge shows at the place named; and beside it stands the figure that no place can exceed.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from tilelayout.base.stepping import last_of
from tilelayout.flatness.fans import Fan, Fans, Trials, trials
from tilelayout.flatness.following import followed
from tilelayout.flatness.mesh import Mesh, Numbers, Points
from tilelayout.flatness.sweep import Bounds, Sweep, sweep_for
from tilelayout.flatness.values import Chord, Spot, Variation

_NOTHING = 1e-9
"""Less than this (mm) is the rounding of arithmetic, not a gap."""

_SAME_LENGTH = 1e-7

_BETWEEN_STEPS = 40
"""So many fans are looked at before it is told how far the work is."""


@dataclass(frozen=True, eq=False)
class Deepest:
    """The deepest chord from each corner of the mesh, over one length, below (gap) or above (rise).

    The deepest of all comes first; none can be deeper than `at_most`.
    """

    over: float
    is_rise: bool
    chords: tuple[Chord, ...]
    at_most: float

    @property
    def best(self) -> Chord | None:
        """The deepest of all; None on a plane."""
        return self.chords[0] if self.chords else None


def variations(mesh: Mesh, heights: Numbers, overs: Sequence[float]) -> tuple[Variation, ...]:
    """Return gap and rise of the surface over each length; `heights` (v,) of the mesh's corners."""
    return last_of(variations_steps(mesh, heights, overs))


def variations_steps(
    mesh: Mesh, heights: Numbers, overs: Sequence[float]
) -> Generator[float, None, tuple[Variation, ...]]:
    """Yield which share of the straightedges is laid at most; return what `variations` does."""
    rays = rays_for(mesh, overs)
    gathered = yield from gathering(mesh, heights, overs, rays)
    found = gathered.searched(THOROUGH)
    return tuple(_variation(over, found[2 * k], found[2 * k + 1]) for k, over in enumerate(overs))


def _variation(over: float, gap: Deepest, rise: Deepest) -> Variation:
    below, above = gap.best, rise.best
    gap_depth, rise_depth = (chord.depth if chord else 0.0 for chord in (below, above))
    return Variation(
        over, gap_depth, rise_depth, below, above, max(gap_depth, gap.at_most), max(rise_depth, rise.at_most)
    )


@dataclass(frozen=True)
class Search:
    """How hard to look between corners: how many chords are followed, and for how many rounds.

    With `only_above`, a depth for each length, chords are followed only where more than that is possible.
    """

    starts: int = 24
    rounds: int = 90
    only_above: tuple[float, ...] = ()


THOROUGH = Search()


class Rays:
    """The fans that reach as far as the lengths ask, and on a large even grid the sweep that chooses of them.

    They serve for all heights of the mesh.
    """

    def __init__(self, fans: Fans, sweep: Sweep | None) -> None:
        self.fans, self._sweep = fans, sweep
        self._latest: tuple[Numbers, Bounds] | None = None

    def bounds(self, plain: Numbers) -> Bounds | None:
        """Return how deep chords from each corner can be; None where every fan is drawn anyway."""
        if self._sweep is None:
            return None
        if self._latest is None or not np.array_equal(self._latest[0], plain):
            self._latest = (plain, self._sweep.bounds(plain))
        return self._latest[1]


def rays_for(mesh: Mesh, overs: Sequence[float]) -> Rays:
    """Return the rays for straightedges of these lengths."""
    fans = Fans(mesh, max(overs) + 2.0 * mesh.longest)
    return Rays(fans, None if fans.are_kept else sweep_for(mesh, overs))


def deepest(mesh: Mesh, heights: Numbers, overs: Sequence[float], rays: Rays) -> list[Deepest]:
    """Return the deepest chords, each from another corner: for each length those below, then those above.

    Those found by following chords of full length are among them.
    """
    return last_of(gathering(mesh, heights, overs, rays)).searched(THOROUGH)


@dataclass(frozen=True, eq=False)
class Gathered:
    """Chords through corners of the mesh that are worth following; `heights` (v,) without their plane."""

    mesh: Mesh
    heights: Numbers
    found: tuple[_Found, ...]

    def searched(self, search: Search) -> list[Deepest]:
        """Return the deepest chords once those of full length are followed between corners."""
        least = search.only_above or (0.0,) * len(self.found)
        return [
            one.finished(self.mesh, self.heights, search, least[k // 2]) for k, one in enumerate(self.found)
        ]


def gathering(
    mesh: Mesh, heights: Numbers, overs: Sequence[float], rays: Rays, starts: int = THOROUGH.starts
) -> Generator[float, None, Gathered]:
    """Lay straightedges from all corners that matter; yields which share of the corners is done."""
    plain = without_plane(mesh, heights)
    found = tuple(_Found(over, sign) for over in overs for sign in (1.0, -1.0))
    for count, drawn in enumerate(_worth_drawing(rays, rays.bounds(plain), found, starts)):
        bundle = trials(drawn, plain, tuple(overs))
        for one in found:
            one.look(mesh, drawn, bundle)
        if count % _BETWEEN_STEPS == 0:
            yield count / len(plain)
    return Gathered(mesh, plain, found)


def _worth_drawing(
    rays: Rays, bounds: Bounds | None, found: tuple[_Found, ...], starts: int
) -> Iterator[Fan]:
    """Yield all fans; or those that can hold a deepest chord, and chords of full length to follow.

    What was found so far decides what is still worth it.
    """
    if bounds is None:
        yield from rays.fans
        return
    for one, most in zip(found, bounds.at_most.tolist(), strict=True):
        one.at_most = most
    full = np.argsort(-bounds.full_length, axis=1, kind="stable")[:, :starts]
    drawn: set[int] = set(full.ravel().tolist())
    yield from rays.fans.of(sorted(drawn))
    for one, depth in zip(found, bounds.any_length, strict=True):
        for corner in np.argsort(-depth, kind="stable").tolist():
            if depth[corner] <= one.best_depth + _NOTHING:
                break
            if corner not in drawn:
                drawn.add(corner)
                yield from rays.fans.of([corner])


class _Found:
    """Gathers, over one length, the deepest chords of each fan, and the deepest of full length."""

    def __init__(self, over: float, sign: float) -> None:
        self.over, self.sign, self.at_most = over, sign, 0.0
        self.chords: list[Chord] = []
        self.full: list[Chord] = []

    @property
    def best_depth(self) -> float:
        """The deepest so far, mm."""
        return max((chord.depth for chord in self.chords), default=0.0)

    def look(self, mesh: Mesh, drawn: Fan, bundle: Trials) -> None:
        """Keep the deepest chord of a fan, and its deepest of full length."""
        reached = bundle.end <= self.over + 2.0 * mesh.longest
        self.at_most = max(self.at_most, float((self.sign * bundle.depth[reached]).max(initial=0.0)))
        self.chords += seen_chords(mesh, drawn, bundle, self.sign, (0.0, self.over), _NOTHING)
        self.full += seen_chords(mesh, drawn, bundle, self.sign, (self.over, self.over), _NOTHING)

    def finished(self, mesh: Mesh, heights: Numbers, search: Search, least: float) -> Deepest:
        """The chords, deepest first, with those of full length followed if any can be deeper."""
        chords = sorted(self.chords, key=lambda chord: -chord.depth)
        if self.full and self.at_most > max(chords[0].depth if chords else 0.0, least) + 1e-7:
            starts = sorted(self.full, key=lambda chord: -chord.depth)[: search.starts]
            chords += followed(mesh, self.sign * heights, self.over, starts, search.rounds)
            chords.sort(key=lambda chord: -chord.depth)
        return Deepest(self.over, self.sign < 0, tuple(chords), self.at_most)


def without_plane(mesh: Mesh, heights: Numbers) -> Numbers:
    """Return the heights less the plane nearest to them: it has no gap, and small numbers round less."""
    level = np.column_stack([mesh.places - mesh.places.mean(axis=0), np.ones(len(heights))])
    return np.asarray(heights - level @ np.linalg.lstsq(level, heights, rcond=None)[0])


def seen_chords(
    mesh: Mesh, drawn: Fan, bundle: Trials, sign: float, lengths: tuple[float, float], least: float
) -> list[Chord]:
    """Return the deepest of the trials that is deeper than `least` and `lengths` (from, to) long, if any.

    Only those count of which all lies on the surface.
    """
    fits = (bundle.end >= lengths[0] - _SAME_LENGTH) & (bundle.end <= lengths[1] + _SAME_LENGTH)
    depths = np.where(fits & bundle.on_ground, sign * bundle.depth, 0.0)
    k = int(np.argmax(depths))
    return [_chord(mesh, drawn, bundle, k, depths[k])] if depths[k] > least else []


def _chord(mesh: Mesh, drawn: Fan, bundle: Trials, k: int, depth: float) -> Chord:
    start, direction = mesh.places[drawn.corner], drawn.directions[bundle.ray[k]]
    end, at = start + bundle.end[k] * direction, start + bundle.at[k] * direction
    return Chord(_spot(start), _spot(end), _spot(at), float(depth))


def _spot(point: Points) -> Spot:
    return float(point[0]), float(point[1])
