"""The places of a surface whose height a fill may have to meet, and the fill that meets those that are given.

Doorways and cutouts have their places offered by name; any other point can be given as well.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.flatness.falls import Drain, fallen_heights, falling_to
from tilelayout.flatness.fill import Fill, fill_to
from tilelayout.flatness.given_plane import Grinding, plane_meeting
from tilelayout.flatness.refined import refined
from tilelayout.flatness.volumes import ground_of
from tilelayout.job.preparation import GivenHeight
from tilelayout.job.shapes import outline_ring
from tilelayout.job.values import Cutout, EdgeRole, Point, Surface
from tilelayout.planning.surface import Flatness
from tilelayout.planning.wall_names import edge_name

_OPEN = {EdgeRole.DOORWAY, EdgeRole.OPEN}

_SMALL = 60.0
"""Sides of the triangles (mm) that carry a fall: a cone is then out by a few tenths of a mm at its tip."""

_MISSED = 0.05
"""A given height that is missed by less than this (mm) is met."""


@dataclass(frozen=True)
class Missed:
    """A given height that the filled surface runs `above` (mm; below nought: it runs below)."""

    given: GivenHeight
    above: float


def offered_places(surface: Surface) -> Iterator[GivenHeight]:
    """Yield the places that fills often have to meet, without heights: openings, then cutouts."""
    for at, corner in enumerate(surface.outline):
        if surface.edge(at).role in _OPEN:
            yield GivenHeight(
                name=edge_name(surface, at), at=corner, to=surface.outline[(at + 1) % len(surface.outline)]
            )
    for at, cutout in enumerate(surface.cutouts, start=1):
        yield _place_of(cutout, cutout.name or f"cutout {at}")


def middle_of(surface: Surface) -> Point:
    """Return a point on the surface, near its middle, to begin another place with."""
    shape = shapely.Polygon(outline_ring(surface))
    middle = shape.centroid if shape.contains(shape.centroid) else shape.representative_point()
    return (round(middle.x), round(middle.y))


def _place_of(cutout: Cutout, name: str) -> GivenHeight:
    """The middle of a cutout, or of a long one the line along its middle, as wide as it is."""
    if cutout.circle is not None:
        return GivenHeight(name=name, at=cutout.circle.centre, across=cutout.circle.diameter)
    box = shapely.Polygon(cutout.polygon).minimum_rotated_rectangle
    a, b, c = shapely.get_coordinates(box)[:3]
    first, second = b - a, c - b
    across = float(min(np.hypot(*first), np.hypot(*second)))
    along = first if np.hypot(*first) > np.hypot(*second) else second
    reach = along * (0.5 - 0.5 * across / float(np.hypot(*along)))
    middle = (a + c) / 2.0
    ends = [(float(x), float(y)) for x, y in (middle - reach, middle + reach)]
    is_long = float(np.hypot(*(2.0 * reach))) > 1.0
    return GivenHeight(name=name, at=ends[0], to=ends[1] if is_long else None, across=across)


def filled_to_meet(
    one: Flatness, meets: Sequence[GivenHeight], grinding: Grinding
) -> tuple[Fill, tuple[Missed, ...]]:
    """Return the fill to the plane that meets the heights, or that falls to the drains among them.

    With it come the heights that it misses. A fall is not moved to save grinding. The survey has to make a
    surface.
    """
    drains = [_drain(each) for each in meets if each.fall_percent is not None]
    fill, missed = _fallen(one, drains, meets) if drains else _to_plane(one, meets, grinding)
    return fill, tuple(each for each in missed if abs(each.above) > _MISSED)


def _to_plane(one: Flatness, meets: Sequence[GivenHeight], grinding: Grinding) -> tuple[Fill, list[Missed]]:
    ground, heights = one.ground, one.surveyed.heights
    assert ground is not None
    rows = [(each, (*spot, each.height or 0.0)) for each in meets for spot in _ends(each)]
    plane = plane_meeting([row for _, row in rows], ground.mesh.places, heights, ground.weights, grinding)
    missed = [Missed(each, above) for (each, _), above in zip(rows, plane.missed.tolist(), strict=True)]
    return fill_to(ground, heights, plane.heights(ground.mesh.places)), _worst_of_each(missed)


def _fallen(
    one: Flatness, drains: Sequence[Drain], meets: Sequence[GivenHeight]
) -> tuple[Fill, list[Missed]]:
    mesh = one.surveyed.mesh
    assert mesh is not None
    fine = refined(mesh, _SMALL)
    ground = ground_of(fine, one.surveyed.ground)
    heights = fine.heights(one.surveyed.readings)
    on = ground.weights > 0.0
    known = falling_to(drains, fine.places[on], heights[on])
    fill = fill_to(ground, heights, fallen_heights(known, fine.places))
    others = [(each, spot) for each in meets if each.fall_percent is None for spot in _ends(each)]
    reached = fallen_heights(known, np.array([spot for _, spot in others]).reshape(-1, 2))
    pairs = zip(others, reached.tolist(), strict=True)
    missed = [Missed(each, height - (each.height or 0.0)) for (each, _), height in pairs]
    return fill, _worst_of_each(missed)


def _drain(given: GivenHeight) -> Drain:
    fall = (given.fall_percent or 0.0) / 100.0
    return Drain(given.at, given.to or given.at, given.across, fall, given.height)


def _ends(given: GivenHeight) -> list[tuple[float, float]]:
    return [given.at] if given.to is None else [given.at, given.to]


def _worst_of_each(missed: Sequence[Missed]) -> list[Missed]:
    """Of the two ends of an edge the one that is missed by more."""
    worst: dict[int, Missed] = {}
    for each in missed:
        known = worst.get(id(each.given))
        if known is None or abs(each.above) > abs(known.above):
            worst[id(each.given)] = each
    return list(worst.values())
