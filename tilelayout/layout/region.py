"""The part of a surface that takes tile: its outline less the gap at its walls less its grown cutouts.

The shape comes from polygon operations. Afterwards each edge of its rings is matched with the stretches it
can have come from, so that a cut knows which wall or cutout it fits.
"""

from __future__ import annotations

import numpy as np
import shapely

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import NO_AREA, SAME_PLACE
from tilelayout.geometry.arcs import circle_points
from tilelayout.geometry.overlays import beyond, covered, polygons_of
from tilelayout.geometry.rings import clockwise, corner_heights, counter_clockwise, following
from tilelayout.job.values import Cutout, EdgeRole, Surface, Visibility
from tilelayout.layout.outlines import open_sides, outline_of, wall_strips
from tilelayout.layout.sources import Stretches, stretches_of_ring, together
from tilelayout.layout.values import BorderEdge, Points, Region

_MITRE_LIMIT = 1000.0
_STRAIGHT = 1e-7


def region_of(surface: Surface, gap: float) -> Region:
    """Return the region of `surface` with `gap` mm left free along its plain walls.

    LayoutError if nothing is left, or if the outline crosses itself.
    """
    outline = outline_of(surface)
    whole = shapely.Polygon(outline.corners)
    if not whole.is_valid:
        raise LayoutError(
            f"The outline of {surface.title} crosses or touches itself.", "Move a corner so that it does not."
        )
    strips, strip_sides = wall_strips(outline, gap)
    grown = [(_grown(cutout), _border_of(cutout, at)) for at, cutout in enumerate(surface.cutouts)]
    taken = covered(shapely.Polygon(ring) for ring in (*strips, *(ring for ring, _ in grown)))
    around = [stretches_of_ring(ring, border) for ring, border in grown]
    stretches = together([open_sides(outline, gap), strip_sides, *around])
    region = region_from(beyond(whole, taken), stretches)
    if not region.rings:
        raise _nothing_left(surface, gap)
    return region


def region_from(shape: shapely.Geometry, stretches: Stretches) -> Region:
    """Return the region of this shape, every edge of it named by the stretch it lies on."""
    parts = [part for part in polygons_of(shape) if part.area > NO_AREA]
    return _region([_rings(part, stretches) for part in parts])


def cutout_name(cutout: Cutout, at: int) -> str:
    """Return what a border calls the cutout at this place in the surface's list."""
    return cutout.name or f"cutout {at + 1}"


def _grown(cutout: Cutout) -> Points:
    """The ring of a cutout with its clearance: a larger circle, or a polygon moved out and mitred."""
    if cutout.circle is not None:
        return circle_points(cutout.circle.centre, cutout.circle.diameter / 2.0 + cutout.clearance)
    shape = shapely.Polygon(np.array(cutout.polygon, dtype=float))
    if cutout.clearance > 0:
        shape = shape.buffer(cutout.clearance, join_style="mitre", mitre_limit=_MITRE_LIMIT)
    return counter_clockwise(shapely.get_coordinates(shape.exterior)[:-1])


def _border_of(cutout: Cutout, at: int) -> BorderEdge:
    name, role, seen = cutout_name(cutout, at), EdgeRole.WALL, Visibility.ORDINARY
    if cutout.circle is None:
        return BorderEdge(name, role, seen)
    x, y = cutout.circle.centre
    radius = cutout.circle.diameter / 2.0 + cutout.clearance
    return BorderEdge(name, role, seen, (float(x), float(y)), float(radius))


_Ring = tuple[Points, tuple[BorderEdge, ...]]


def _region(parts: list[list[_Ring]]) -> Region:
    polygons = [shapely.Polygon(rings[0][0], [ring for ring, _ in rings[1:]]) for rings in parts]
    shape = polygons[0] if len(polygons) == 1 else shapely.MultiPolygon(polygons)
    rings = [ring for part in parts for ring in part]
    return Region(shape, tuple(ring for ring, _ in rings), tuple(borders for _, borders in rings))


def _rings(part: shapely.Polygon, stretches: Stretches) -> list[_Ring]:
    """The rings of a polygon, outer first, with the border of each edge."""
    outer = counter_clockwise(shapely.get_coordinates(part.exterior)[:-1])
    holes = [clockwise(shapely.get_coordinates(hole)[:-1]) for hole in part.interiors]
    return [_attributed(ring, stretches) for ring in (outer, *holes)]


def _attributed(ring: Points, stretches: Stretches) -> _Ring:
    """The ring with a corner wherever the border changes, none where it runs straight on, and the borders."""
    ring = _divided(_without_repeats(ring), np.concatenate([stretches.starts, stretches.ends]))
    borders = stretches.nearest(ring, following(ring))
    straight = np.abs(corner_heights(ring)) < _STRAIGHT
    runs_on = np.array([borders[at - 1] == borders[at] and straight[at] for at in range(len(ring))])
    kept = np.flatnonzero(~runs_on)
    return np.ascontiguousarray(ring[kept]), tuple(borders[at] for at in kept)


def _without_repeats(ring: Points) -> Points:
    step = following(ring) - ring
    return ring[np.hypot(step[:, 0], step[:, 1]) > SAME_PLACE]


def _divided(ring: Points, points: Points) -> Points:
    """The ring with those of `points` that lie on its sides as further corners."""
    ends = following(ring)
    lines = shapely.linestrings(np.stack([ring, ends], axis=1))
    tree = shapely.STRtree(np.asarray(shapely.points(points)))
    sides, found = tree.query(lines, predicate="dwithin", distance=SAME_PLACE)
    along = ends - ring
    share = np.sum((points[found] - ring[sides]) * along[sides], axis=1) / np.sum(along**2, axis=1)[sides]
    between = (share > 0.0) & (share < 1.0)
    at = np.concatenate([np.arange(len(ring)), (sides + share)[between]])
    at = np.sort(at)
    whole = np.minimum(at.astype(int), len(ring) - 1)  # the last side and nearly all of it may round up
    return _without_repeats(ring[whole] + (at - whole)[:, None] * along[whole])


def _nothing_left(surface: Surface, gap: float) -> LayoutError:
    mends = ["Make the gap smaller"] if gap > 0 else []
    mends += ["make a cutout or its clearance smaller"] if surface.cutouts else []
    mends += ["draw the surface larger"]
    mend = " or ".join(mends)
    return LayoutError(f"Nothing of {surface.title} is left to tile.", f"{mend[0].upper()}{mend[1:]}.")
