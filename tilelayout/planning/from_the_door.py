"""What meets the eye first: the pieces along doorways and along edges marked as looked at."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.job.values import EdgeRole, Surface, Tile, Visibility
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags
from tilelayout.layout.outlines import edge_source
from tilelayout.layout.values import Points
from tilelayout.layout.whole_near import whole_near
from tilelayout.planning.plan import Plan

_LEAST_STRETCH = 1.0
"""So far in mm must a piece lie along an edge to be seen there; a corner that touches its end is not."""


def is_anything_looked_at(surface: Surface) -> bool:
    """Tell whether an edge of the surface is a doorway or marked as looked at."""
    return bool(_looked_at(surface))


def narrowest_from_the_door(plan: Plan) -> float | None:
    """Return the narrowest place in mm of all pieces along those edges; None if no piece stands there.

    A piece stands along an edge if nothing is laid between: a joint and a strip too narrow to lay may be.
    """
    border = _border_looked_at(plan)
    if border is None:
        return None
    cut = plan.laid.cut
    reach = plan.layout.joint + plan.layout.least_piece + ON_EDGE
    near = _along(border, [piece.outline for piece in cut], reach)
    widths = [cut[at].narrowest for at in np.flatnonzero(near)]
    for tile, whole in _whole_near(plan, border, reach):
        if _along(border, whole, reach).any():
            widths.append(tile_width(tile))
    return min(widths, default=None)


def _looked_at(surface: Surface) -> tuple[int, ...]:
    edges = (surface.edge(at) for at in range(len(surface.outline)))
    return tuple(
        edge.at for edge in edges if edge.role is EdgeRole.DOORWAY or edge.seen is Visibility.LOOKED_AT
    )


def _border_looked_at(plan: Plan) -> shapely.MultiLineString | None:
    """Return the border of the region along the edges looked at; None if nothing is left of it."""
    sources = {edge_source(at) for at in _looked_at(plan.surface)}
    lines = [
        (ring[at], ring[(at + 1) % len(ring)])
        for ring, borders in zip(plan.region.rings, plan.region.borders, strict=True)
        for at, border in enumerate(borders)
        if border.source in sources
    ]
    return shapely.MultiLineString(lines) if lines else None


def _along(border: shapely.MultiLineString, outlines: list[Points], reach: float) -> Flags:
    """Tell of each outline whether it lies along the border, within `reach` and not at an end."""
    shapes = np.array([shapely.Polygon(outline) for outline in outlines], dtype=object)
    found = np.zeros(len(shapes), dtype=bool)
    near = np.flatnonzero(shapely.dwithin(shapes, border, reach)) if len(shapes) else found.nonzero()[0]
    stretches = shapely.intersection(shapely.buffer(shapes[near], reach), border)
    found[near] = shapely.length(stretches) > reach + _LEAST_STRETCH
    return found


def _whole_near(
    plan: Plan, border: shapely.MultiLineString, reach: float
) -> Iterator[tuple[Tile, list[Points]]]:
    """Yield the outlines of the whole tiles near the border, with the tile, for each face of the pattern."""
    left, bottom, right, top = border.bounds
    for laid in plan.laid.components:
        moves = whole_near(laid, np.array([left, bottom]) - reach, np.array([right, top]) + reach)
        faces = zip(laid.cell.faces, laid.placed_faces, moves, strict=True)
        for face, outline, shifts in faces:
            yield face.tile, [outline + move for move in shifts]
