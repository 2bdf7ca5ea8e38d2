"""How far polygons with inward corners can shrink before they can no longer be grown back.

Growing what is left of a shrunken polygon moves every side back to its old line, so something is lost only
when
- a side next to an inward corner has shrunk to nothing: the stretch in front of it, an arm, has closed; or
- a whole part, cut off earlier by an inward corner that met a side opposite, has shrunk to nothing.
The first happens where the path of an inward corner first meets another side (`meetings`). A side between
outward corners may vanish: growing its neighbours back covers more than it bounded. So may a chord of a
curve, as long as the curve itself would run on to the side that closes in on it. Once the polygon has come
apart, what one part loses another may still cover; there it is looked at (`parted`, `losses`).

The events are those of the straight skeleton: Aichholzer, Aurenhammer, Alberts, Gaertner, "A novel type of
skeleton for polygons", Journal of Universal Computer Science 1 (1995); the reading of what is lost is ours.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.curves import curves_of
from tilelayout.geometry.holding import held_radii
from tilelayout.geometry.losses import HAIRLINE, first_loss
from tilelayout.geometry.meetings import SURELY_LOST, Meetings, first_meetings
from tilelayout.geometry.parted import lost_arm, radius_once_parted
from tilelayout.geometry.sides import Sides, sides_of

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]


def thinnest_radii(
    polygons: Sequence[Sequence[Points]], limit: float, negligible: float = 0.0
) -> tuple[Numbers, Flags]:
    """Return half the narrowest place of each polygon, and whether it is that; else it is at least that.

    All are exact that are under `limit`, but of those under `negligible` it is only told that they are. A
    polygon is its outer ring, counter-clockwise, and its clockwise holes; it has an inward corner, and its
    rings have no repeated or straight corners.
    """
    sides = sides_of(polygons)
    meetings = first_meetings(sides, curves_of(sides))
    closing, surely, parting = (
        _least_of_each(meetings.polygon, np.where(happens, meetings.radii, np.inf), len(polygons))
        for happens in (meetings.closes, meetings.closes_surely, meetings.parts)
    )
    radii = np.minimum(closing, parting)
    is_exact = np.isfinite(radii) & (surely <= radii)
    if np.isfinite(limit):
        never = np.flatnonzero(np.isinf(radii))
        radii[never] = held_radii(sides, never)
    is_slight = ~is_exact & (surely < negligible) & (surely <= parting)
    radii[is_slight], is_exact[is_slight] = surely[is_slight], True
    inward = np.bincount(meetings.polygon, minlength=len(polygons))
    for at in np.flatnonzero(~is_exact & ~(np.isfinite(radii) & (radii >= limit))).tolist():
        quick = (
            _quickly(int(np.searchsorted(meetings.polygon, at)), sides, meetings) if inward[at] == 1 else None
        )
        radii[at] = first_loss(polygons[at]) if quick is None else quick
        is_exact[at] = True
    return radii, is_exact


def _quickly(at: int, sides: Sides, meetings: Meetings) -> float | None:
    """Return the radius of a polygon with one inward corner by what its meeting does; None to look closer."""
    corner, met, radius = int(meetings.corners[at]), int(meetings.met[at]), float(meetings.radii[at])
    if radius <= HAIRLINE or meetings.closes[at] == meetings.parts[at]:
        return None
    if meetings.parts[at]:
        return radius_once_parted(sides, corner, met, radius, SURELY_LOST)
    return radius if lost_arm(sides, corner, met) > SURELY_LOST else None


def _least_of_each(polygon: NDArray[np.intp], radii: Numbers, count: int) -> Numbers:
    least = np.full(count, np.inf)
    np.minimum.at(least, polygon, radii)
    return least
