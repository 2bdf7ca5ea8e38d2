"""Makes scenes: what a surface, an outline being drawn or a corner being moved offers to snap to."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.naming import corner_title, cutout_title, edge_title
from tilelayout.drawing.placing import Direction
from tilelayout.drawing.preview import SnapKind
from tilelayout.drawing.scene import Scene, SnapLine, SnapPoint
from tilelayout.geometry.arcs import arc_through, circle_points
from tilelayout.job.values import Cutout, Point, Surface


@lru_cache(maxsize=16)
def surface_scene(
    surface: Surface, *, moving: frozenset[int] = frozenset(), without_cutouts: frozenset[int] = frozenset()
) -> Scene:
    """Return what a surface offers, less the corners that are `moving`, their edges, and some cutouts.

    The newest scenes are kept, since they are asked for at every move of the pointer.
    """
    count = len(surface.outline)
    still = [at for at in range(count) if at not in moving]
    edges = [at for at in still if (at + 1) % count not in moving]
    scenes = [edge_scene(surface, at) for at in edges]
    scenes += [_corner_scene(surface.outline[at], corner_title(at)) for at in still]
    for at, cutout in enumerate(surface.cutouts):
        if at not in without_cutouts:
            scenes.append(_cutout_scene(cutout, cutout_title(cutout, at)))
    return joined(scenes)


def outline_scene(corners: Sequence[Point]) -> Scene:
    """Return what an outline being drawn offers to its next corner.

    The last corner is no place for the next one, and its own edge no line to draw back along.
    """
    earlier = corners[:-1]
    scenes = [_corner_scene(corner, corner_title(at)) for at, corner in enumerate(earlier)]
    pairs = pairwise(earlier)
    scenes += [_straight(a, b, f"wall {at + 1}") for at, (a, b) in enumerate(pairs)]
    if len(corners) >= 3:
        scenes.append(Scene((SnapPoint(SnapKind.FIRST, corners[0], "corner 1, which closes the outline"),)))
    if len(corners) >= 2:
        scenes.append(ways_from(corners[-1], corners[-2], "the last wall"))
    elif corners:
        scenes.append(level_from(corners[-1]))
    return joined(scenes)


def ways_from(corner: Point, neighbour: Point, name: str) -> Scene:
    """Return the ways on from a corner: square to and in line with the edge from its neighbour, level."""
    length = math.dist(corner, neighbour)
    if length <= SAME_PLACE:
        return level_from(corner)
    along = ((corner[0] - neighbour[0]) / length, (corner[1] - neighbour[1]) / length)
    square = SnapLine(SnapKind.SQUARE, corner, (-along[1], along[0]), f"square to {name}")
    ahead = SnapLine(SnapKind.PARALLEL, corner, along, f"in line with {name}")
    return joined([Scene(lines=(square, ahead)), level_from(corner)])


def level_from(corner: Point) -> Scene:
    """Return the horizontal and the vertical through a corner."""
    level = SnapLine(SnapKind.LEVEL, corner, (1.0, 0.0), "horizontal")
    plumb = SnapLine(SnapKind.LEVEL, corner, (0.0, 1.0), "vertical")
    return Scene(lines=(level, plumb))


def parallels_from(corner: Point, surface: Surface, edges: Iterable[int]) -> Scene:
    """Return the lines through a corner that are parallel to some straight edges not along an axis."""
    lines = []
    for at in edges:
        direction = unit(surface.outline[at], surface.outline[(at + 1) % len(surface.outline)])
        if surface.edge(at).through is None and 0.0 not in direction:
            words = f"parallel to {edge_title(surface, at)}"
            lines.append(SnapLine(SnapKind.PARALLEL, corner, direction, words))
    return Scene(lines=tuple(lines))


def alignments(point: Point, name: str) -> Scene:
    """Return the horizontal and the vertical through a point that something can be lined up with."""
    words = f"lined up with {name}"
    across = SnapLine(SnapKind.ALIGNED, point, (1.0, 0.0), words, zeros=(-point[0],))
    upward = SnapLine(SnapKind.ALIGNED, point, (0.0, 1.0), words, zeros=(-point[1],))
    return Scene(lines=(across, upward))


def edge_scene(surface: Surface, at: int) -> Scene:
    """Return the edge itself, its middle and, of an arc, its centre."""
    a, b = surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]
    edge, title = surface.edge(at), edge_title(surface, at)
    if edge.through is None:
        return _straight(a, b, title)
    arc = arc_through(a, edge.through, b)
    points = [(float(x), float(y)) for x, y in arc.points()]
    x, y = arc.centre
    centre = SnapPoint(SnapKind.CENTRE, (float(x), float(y)), f"centre of {title}")
    return Scene((centre,), tuple(_chord(a, b, title) for a, b in pairwise(points)))


def unit(a: Point, b: Point) -> Direction:
    """Return the unit vector from `a` to another point `b`."""
    length = math.dist(a, b)
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length)


def middle(a: Point, b: Point) -> Point:
    """Return the point halfway between two."""
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)


def joined(scenes: Iterable[Scene]) -> Scene:
    """Return one scene with what is in all of them."""
    points: list[SnapPoint] = []
    lines: list[SnapLine] = []
    for scene in scenes:
        points += scene.points
        lines += scene.lines
    return Scene(tuple(points), tuple(lines))


def _corner_scene(corner: Point, name: str) -> Scene:
    spot = SnapPoint(SnapKind.END, corner, name)
    return Scene((spot,), alignments(corner, name).lines)


def _straight(a: Point, b: Point, title: str) -> Scene:
    spot = SnapPoint(SnapKind.MIDDLE, middle(a, b), f"middle of {title}")
    return Scene((spot,), (_chord(a, b, title),) if math.dist(a, b) > SAME_PLACE else ())


def _chord(a: Point, b: Point, title: str) -> SnapLine:
    length = math.dist(a, b)
    zeros = (0.0, length)
    return SnapLine(SnapKind.ON_LINE, a, unit(a, b), f"on {title}", 0.0, length, zeros, source=title)


def _cutout_scene(cutout: Cutout, title: str) -> Scene:
    centre = cutout_centre(cutout)
    scenes = [Scene((SnapPoint(SnapKind.CENTRE, centre, f"centre of {title}"),)), alignments(centre, title)]
    if cutout.circle is not None:
        ring = [(float(x), float(y)) for x, y in circle_points(centre, cutout.circle.diameter / 2)]
        sides = zip(ring, ring[1:] + ring[:1], strict=True)
        return joined([*scenes, Scene(lines=tuple(_chord(a, b, title) for a, b in sides))])
    corners = cutout.polygon or ()
    scenes += [_corner_scene(corner, f"a corner of {title}") for corner in corners]
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        side = _straight(a, b, title)
        scenes.append(replace(side, lines=tuple(replace(line, source="") for line in side.lines)))
    return joined(scenes)


def cutout_centre(cutout: Cutout) -> Point:
    """Return a circle's centre, or the middle of a polygon's bounding box."""
    if cutout.circle is not None:
        return cutout.circle.centre
    xs, ys = zip(*(cutout.polygon or ((0.0, 0.0),)), strict=True)
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
