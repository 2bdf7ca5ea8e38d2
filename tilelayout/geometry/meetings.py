"""Where the inward corners of shrinking polygons first meet another side, for many polygons at once.

While a polygon shrinks with mitred corners, each corner travels along the bisector of its two sides. Each
pair of an inward corner and a side of its polygon is one place in an array, whichever polygon it is of.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.curves import Curves
from tilelayout.geometry.rings import cross
from tilelayout.geometry.sides import Sides

Numbers = NDArray[np.float64]
Places = NDArray[np.intp]
Flags = NDArray[np.bool_]

_PARALLEL = 1e-7
_SLACK = 1e-7
_SAME_TIME = 1e-9

HAIR = 0.5
TOOTH = 1.0
"""What closes is an arm only if more mm2 than TOOTH are lost: less is a roughness of the outline, or a tooth
that the saw leaves. Below HAIR mm that is always looked at."""

SURELY_LOST = 2.0 * TOOTH
"""An area found with an eye on what surely is lost is an arm from here on."""

_SHARPEST = 1e-6
"""An inward corner sharper than this has hardly a bisector: 1 plus the cosine between its sides' normals."""


@dataclass(frozen=True, eq=False)
class Meetings:
    """What the k inward corners of all polygons meet first, each after `radii` (k,) mm of shrinking.

    `corners` (k,) are named by the side that ends there, `polygon` (k,) the polygon's number, `met` (k,)
    one of the sides met, -1 if none. The meeting `closes` an arm, or `parts` the polygon, or does neither.
    `least_arms` (k,) are areas in mm2 that a closed arm surely is as large as.
    """

    polygon: Places
    corners: Places
    met: Places
    radii: Numbers
    closes: Flags
    parts: Flags
    least_arms: Numbers

    @property
    def closes_surely(self) -> Flags:
        """Which meetings close what surely is an arm."""
        return np.asarray(self.closes & (self.radii > HAIR) & (self.least_arms > SURELY_LOST))


def first_meetings(sides: Sides, curves: Curves) -> Meetings:
    """Return the first meeting of every inward corner; after infinity if it meets nothing."""
    corners = np.flatnonzero(sides.bends_in)
    polygon = np.searchsorted(sides.first, corners, side="right") - 1
    corner, side, radii = _all_meetings(corners, polygon, sides)
    first = np.full(len(corners), np.inf)
    np.minimum.at(first, corner, radii)
    together = radii <= first[corner] * (1.0 + _SAME_TIME) + _SAME_TIME
    met = np.full(len(corners), -1)
    met[corner[together]] = side[together]
    happens = _what_happens(corners, first, corner[together], side[together], sides, curves)
    return Meetings(polygon, corners, met, first, *happens)


def _all_meetings(corners: Places, polygon: Places, sides: Sides) -> tuple[Places, Places, Numbers]:
    """Return every meeting of an inward corner's path with a strip: number of corner, side, and radius."""
    normal, next_normal = sides.normals[corners], sides.normals[sides.next[corners]]
    opening = np.maximum(1.0 + np.sum(normal * next_normal, axis=1), _SHARPEST)
    (path_x, path_y), (x, y) = ((normal + next_normal) / opening[:, None]).T, sides.ends[corners].T
    corner, side = _pairs(polygon, sides)
    normal_x, normal_y = sides.normals[:, 0].take(side), sides.normals[:, 1].take(side)
    speed = 1.0 - path_x.take(corner) * normal_x - path_y.take(corner) * normal_y
    depth = x.take(corner) * normal_x + y.take(corner) * normal_y - sides.offsets.take(side)
    met = np.flatnonzero((speed > _PARALLEL) & (depth > _SLACK))
    corner, side, radii = corner[met], side[met], depth[met] / speed[met]
    at_x, at_y = x[corner] + radii * path_x[corner], y[corner] + radii * path_y[corner]
    beside = _are_beside(at_x, at_y, side, radii, sides)
    beside &= (side != corners[corner]) & (side != sides.next[corners][corner])
    return corner[beside], side[beside], radii[beside]


def _pairs(polygon: Places, sides: Sides) -> tuple[Places, Places]:
    """Pair each inward corner, by its number, with every side of its polygon."""
    counts = np.diff(sides.first)[polygon]
    corner = np.repeat(np.arange(len(polygon)), counts)
    begins = sides.first[polygon] - (np.cumsum(counts) - counts)
    return corner, np.arange(len(corner)) + np.repeat(begins, counts)


def _are_beside(x: Numbers, y: Numbers, side: Places, radii: Numbers, sides: Sides) -> Flags:
    """Tell whether points stand between the ends of the strips, `radii` wide, of sides; (p,) all."""
    along_x, along_y = sides.along[side].T
    start_x, start_y = sides.starts[side].T
    mitre_before, mitre_after = sides.mitres[side].T
    places = (x - start_x) * along_x + (y - start_y) * along_y
    before_end = places <= sides.lengths[side] + mitre_after * radii + _SLACK
    return np.asarray(before_end & (places >= -mitre_before * radii - _SLACK))


def _what_happens(
    corners: Places, radii: Numbers, corner: Places, side: Places, sides: Sides, curves: Curves
) -> tuple[Flags, Flags, Numbers]:
    """Tell which corners' first meetings, of `corner` (p,) with `side` (p,), close and part, and least arms.

    A meeting closes an arm if a side next to the corner, seen from there, does not lead away from a side it
    meets, and is no chord of a curve that runs on to that side; it parts the polygon if both sides lead
    away. A curve that bulges towards a side parts the polygon only a moment before its first chord closes
    the arm. Where a side that would close the arm reaches past the end of the one it meets, some of it may be
    left in another part: such a meeting parts the polygon too, and closes nothing surely.
    """
    at, after = corners[corner], sides.next[corners[corner]]
    is_joint = curves.joins[at]
    runs_on = np.zeros(len(at), dtype=bool)
    runs_on[is_joint] = curves.run_on_to(curves.owner[at[is_joint]], side[is_joint], sides)
    arms, vanishing, reaching = (
        np.zeros(len(at)),
        np.zeros(len(at), dtype=bool),
        np.zeros(len(at), dtype=bool),
    )
    for lost, way, far in ((at, -1.0, sides.starts[at]), (after, 1.0, sides.ends[after])):
        along = way * sides.along[lost]
        closes = np.sum(along * sides.normals[side], axis=1) <= _PARALLEL
        reaching |= closes & _reaches_past(far, along, side, radii[corner], sides)
        arms = np.maximum(arms, np.where(closes, _least_arm(at, lost, radii[corner], sides), 0.0))
        vanishing |= closes
    reaching &= ~is_joint & (curves.owner[side] < 0)
    arms = np.where(reaching, 0.0, np.where(is_joint, np.inf, arms))
    is_any = (
        _any_of(corner, flags, len(corners))
        for flags in (vanishing, vanishing & ~runs_on, ~runs_on, reaching)
    )
    vanishes, closes, stops_short, reaches = is_any
    parts = np.isfinite(radii) & ~vanishes & ~(curves.joins[corners] & stops_short)
    least_arms = np.zeros(len(corners))
    np.maximum.at(least_arms, corner, arms)
    return closes, parts | reaches, least_arms


def _reaches_past(far: Numbers, along: Numbers, side: Places, radii: Numbers, sides: Sides) -> Flags:
    """Tell whether a line that leads `along` to `far` (p, 2) reaches past an inward end of a side (p,)."""
    onward = np.sum(along * sides.along[side], axis=1)
    place = np.sum((far - sides.starts[side]) * sides.along[side], axis=1)
    mitres = sides.mitres[side]
    past_end = (onward > 0.0) & (mitres[:, 1] > 0.0) & (place > sides.lengths[side] + mitres[:, 1] * radii)
    past_start = (onward < 0.0) & (mitres[:, 0] > 0.0) & (place < -mitres[:, 0] * radii)
    return np.asarray(past_end | past_start)


def _any_of(corner: Places, flags: Flags, count: int) -> Flags:
    return np.bincount(corner[flags], minlength=count) > 0


def _least_arm(corner: Places, lost: Places, radii: Numbers, sides: Sides) -> Numbers:
    """Return the area that surely is lost if the side `lost` beside an inward corner shrinks to nothing.

    While it shrinks it sweeps a triangle; what of that lies past the line of the corner's other side is lost.
    """
    turn = np.abs(cross(sides.along[corner], sides.along[sides.next[corner]]))
    length = sides.lengths[lost]
    past = length * turn
    return np.asarray(length * past * radii / (2.0 * np.maximum(radii + past, 1e-12)))
