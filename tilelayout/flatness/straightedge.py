"""A straightedge laid on the surface everywhere and in every direction: gap and rise over each length.

The chords through two corners of the mesh are all tried (see `fans`), then the deepest are followed to where
a straightedge of full length lies deepest between corners (see `following`). Each figure is therefore one
that a real straightedge shows at the place named; and beside it stands the figure that no place can exceed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tilelayout.flatness.fans import Fan, Fans, Trials, trials
from tilelayout.flatness.following import followed
from tilelayout.flatness.mesh import Mesh, Numbers, Points
from tilelayout.flatness.values import Chord, Spot, Variation

_NOTHING = 1e-9
"""Less than this (mm) is the rounding of arithmetic, not a gap."""

_SAME_LENGTH = 1e-7


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
    found = deepest(mesh, heights, overs, fans_for(mesh, overs))
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


def fans_for(mesh: Mesh, overs: Sequence[float]) -> Fans:
    """Return the fans that reach as far as the lengths ask; they serve for all heights of the mesh."""
    return Fans(mesh, max(overs) + 2.0 * mesh.longest)


def deepest(
    mesh: Mesh, heights: Numbers, overs: Sequence[float], fans: Fans, search: Search = THOROUGH
) -> list[Deepest]:
    """Return the deepest chord from every corner: for each length those below, then those above.

    Those found by following chords of full length are among them.
    """
    plain = _without_plane(mesh, heights)
    found = [_Found(over, sign) for over in overs for sign in (1.0, -1.0)]
    for drawn in fans:
        bundle = trials(drawn, plain, tuple(overs))
        for one in found:
            one.look(mesh, drawn, bundle)
    least = search.only_above or (0.0,) * len(overs)
    return [one.finished(mesh, plain, search, least[k // 2]) for k, one in enumerate(found)]


class _Found:
    """Gathers, over one length, the deepest chords of each fan, and the deepest of full length."""

    def __init__(self, over: float, sign: float) -> None:
        self.over, self.sign, self.at_most = over, sign, 0.0
        self.chords: list[Chord] = []
        self.full: list[Chord] = []

    def look(self, mesh: Mesh, drawn: Fan, bundle: Trials) -> None:
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


def deeper_than(
    mesh: Mesh, heights: Numbers, limits: Sequence[tuple[float, float]], fans: Fans, most: int
) -> list[tuple[Chord, float, float]]:
    """Return chords that break a limit (over, limit), up to `most` from each corner, each below and above.

    With each chord comes its sign (1 below, -1 above) and the limit.
    """
    plain, overs = _without_plane(mesh, heights), tuple(over for over, _ in limits)
    broken: list[tuple[Chord, float, float]] = []
    for drawn in fans:
        bundle = trials(drawn, plain, overs)
        for over, limit in limits:
            for sign in (1.0, -1.0):
                chords = seen_chords(mesh, drawn, bundle, sign, (0.0, over), limit, most)
                broken += [(chord, sign, limit) for chord in chords]
    return broken


def _without_plane(mesh: Mesh, heights: Numbers) -> Numbers:
    """The heights less the plane nearest to them: it has no gap, and small numbers round less."""
    level = np.column_stack([mesh.places - mesh.places.mean(axis=0), np.ones(len(heights))])
    return np.asarray(heights - level @ np.linalg.lstsq(level, heights, rcond=None)[0])


def seen_chords(
    mesh: Mesh,
    drawn: Fan,
    bundle: Trials,
    sign: float,
    lengths: tuple[float, float],
    least: float,
    most: int = 1,
) -> list[Chord]:
    """Return up to `most` of the trials deeper than `least`, `lengths` (from, to) long, deepest first.

    Only those count of which all lies on the surface. Of each ray only the deepest is taken.
    """
    fits = (bundle.end >= lengths[0] - _SAME_LENGTH) & (bundle.end <= lengths[1] + _SAME_LENGTH)
    depths = np.where(fits & bundle.on_ground, sign * bundle.depth, 0.0)
    if most == 1:
        k = int(np.argmax(depths))
        return [_chord(mesh, drawn, bundle, k, depths[k])] if depths[k] > least else []
    good = np.flatnonzero(depths > least)
    order = good[np.argsort(-depths[good], kind="stable")]
    order = order[np.sort(np.unique(bundle.ray[order], return_index=True)[1])]
    return [_chord(mesh, drawn, bundle, k, depths[k]) for k in order[:most].tolist()]


def _chord(mesh: Mesh, drawn: Fan, bundle: Trials, k: int, depth: float) -> Chord:
    start, direction = mesh.places[drawn.corner], drawn.directions[bundle.ray[k]]
    end, at = start + bundle.end[k] * direction, start + bundle.at[k] * direction
    return Chord(_spot(start), _spot(end), _spot(at), float(depth))


def _spot(point: Points) -> Spot:
    return float(point[0]), float(point[1])
