"""Lays a room a second time, by other means: plain shapely polygons, straight from the job file.

Knows nothing of the program: it reads the JSON of a job with all lengths in mm and computes the region,
the narrowest place of a piece and the faces of every pattern, slowly and plainly.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import shapely
from shapely import LineString, Point, Polygon, affinity
from shapely.geometry.base import BaseGeometry

Json = dict[str, Any]

PATTERNS = ("rows", "herringbone", "hexagon")
"""The patterns whose faces are drawn here."""


def chords(start: Any, through: Any, end: Any, count: int = 2000) -> list[tuple[float, float]]:
    """Return points of the arc from `start` through `through` to `end`, the last one left out."""
    (ax, ay), (bx, by), (cx, cy) = start, through, end
    d = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    a2, b2, c2 = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    x = (a2 * (by - cy) + b2 * (cy - ay) + c2 * (ay - by)) / d
    y = (a2 * (cx - bx) + b2 * (ax - cx) + c2 * (bx - ax)) / d
    radius = math.hypot(ax - x, ay - y)
    first, middle, last = (math.atan2(q - y, p - x) for p, q in (start, through, end))
    sweep = (last - first) % math.tau
    if (middle - first) % math.tau > sweep:
        sweep -= math.tau
    angles = [first + sweep * k / count for k in range(count)]
    return [(x + radius * math.cos(t), y + radius * math.sin(t)) for t in angles]


def edges(surface: Json) -> list[tuple[list[tuple[float, float]], str]]:
    """Return (points, role) of each edge."""
    corners = [tuple(corner) for corner in surface["outline"]]
    special = {edge["at"]: edge for edge in surface.get("edges", ())}
    found = []
    for at, (start, end) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True)):
        edge = special.get(at, {})
        line = chords(start, edge["through"], end) if "through" in edge else [start]
        found.append(([*line, end], edge.get("is", "wall")))
    return found


def room(surface: Json) -> Polygon:
    """Return the outline as a polygon."""
    return Polygon([point for line, _ in edges(surface) for point in line[:-1]])


def region(surface: Json, gap: float) -> BaseGeometry:
    """Return the outline less the gap along walls and less the cutouts grown by their clearance."""
    left: BaseGeometry = room(surface)
    for line in wall_runs(surface):
        left -= LineString(line).buffer(gap, cap_style="flat", join_style="mitre", mitre_limit=1e3)
    for cutout in surface.get("cutouts", ()):
        left -= grown(cutout)
    return left


def wall_runs(surface: Json) -> Iterator[list[tuple[float, float]]]:
    """Yield the lines of walls that follow one another; if all do, with the first corner mitred too."""
    found = edges(surface)
    at = next((i for i, (_, role) in enumerate(found) if role != "wall"), None)
    if at is None:
        ring = [point for line, _ in found for point in line[:-1]]
        yield [*ring, ring[0], ring[1]]
        return
    run: list[tuple[float, float]] = []
    for line, role in found[at:] + found[:at]:
        if role == "wall":
            run += line if not run else line[1:]
        elif run:
            yield run
            run = []
    if run:
        yield run


def grown(cutout: Json) -> BaseGeometry:
    """Return a cutout with its clearance."""
    clearance = cutout.get("clearance", 0.0)
    if "circle" in cutout:
        circle = cutout["circle"]
        return Point(circle["centre"]).buffer(circle["diameter"] / 2 + clearance, quad_segs=64)
    return Polygon(cutout["polygon"]).buffer(clearance, join_style="mitre", mitre_limit=1e3)


def faces(tile: Json, layout: Json, over: BaseGeometry) -> list[Polygon]:
    """Return every face of the layout that can touch `over`."""
    found = []
    x0, y0 = layout.get("start", (0.0, 0.0))
    reach = max(math.hypot(x - x0, y - y0) for x, y in shapely.get_coordinates(over))
    for face in _about_start(tile, layout, reach):
        turned = affinity.rotate(face, layout.get("angle", 0.0), origin=(0, 0))
        placed = affinity.translate(turned, x0, y0)
        if placed.intersects(over):
            found.append(placed)
    return found


def _about_start(tile: Json, layout: Json, reach: float) -> Iterator[Polygon]:
    joint, pattern = layout["joint"], layout["pattern"]
    if pattern == "hexagon":
        yield from _hexagons(tile["across_flats"], joint, layout.get("up", "point"), reach)
        return
    length, width = tile["length"], tile["width"]
    a, b = length + joint, width + joint
    steps = range(-int(2 * reach / min(a, b)) - 4, int(2 * reach / min(a, b)) + 5)
    if pattern == "rows":
        offsets = layout.get("row_offsets", [0])
        for k in steps:
            for i in steps:
                x = (i + offsets[k % len(offsets)]) * a
                yield from _near([shapely.box(x, k * b, x + length, k * b + width)], reach + a)
    else:
        for m in steps:
            for n in steps:
                x, y = m * b + n * a, m * b - n * a
                pair = [
                    shapely.box(x, y, x + length, y + width),
                    shapely.box(x, y + b, x + width, y + b + length),
                ]
                yield from _near(pair, reach + a)


def _near(candidates: list[Polygon], reach: float) -> Iterator[Polygon]:
    return (face for face in candidates if face.centroid.distance(Point(0, 0)) < reach)


def _hexagons(across: float, joint: float, up: str, reach: float) -> Iterator[Polygon]:
    pitch = across + joint
    radius = across / math.sqrt(3)
    first = 30 if up == "point" else 0
    corners = [
        (radius * math.cos(math.radians(first + 60 * k)), radius * math.sin(math.radians(first + 60 * k)))
        for k in range(6)
    ]
    along, up_along = (0, 60) if up == "point" else (30, 90)
    steps = range(-int(2 * reach / pitch) - 4, int(2 * reach / pitch) + 5)
    for m in steps:
        for n in steps:
            x = pitch * (m * math.cos(math.radians(along)) + n * math.cos(math.radians(up_along)))
            y = pitch * (m * math.sin(math.radians(along)) + n * math.sin(math.radians(up_along)))
            if math.hypot(x, y) < reach + pitch:
                yield Polygon([(x + p, y + q) for p, q in corners])


def narrowest(piece: Polygon, lost: float = 1e-3) -> float:
    """Return the first w from below at which opening with mitred corners by w / 2 loses a part of the piece.

    `lost` is the area in mm2 that may be missing; a curve, as chords, never comes back quite whole.
    """
    widest = 2 * math.sqrt(piece.area / math.pi) * 1.2
    steps = np.linspace(0, widest, 150)
    at = next(i for i, w in enumerate(steps[1:], start=1) if not _survives(piece, w / 2, lost))
    low, high = float(steps[at - 1]), float(steps[at])
    for _ in range(30):
        middle = (low + high) / 2
        low, high = (middle, high) if _survives(piece, middle / 2, lost) else (low, middle)
    return low


def _survives(piece: Polygon, by: float, lost: float) -> bool:
    opened = piece.buffer(-by, join_style="mitre", mitre_limit=1e3).buffer(
        by, join_style="mitre", mitre_limit=1e3
    )
    return (piece - opened).area < lost + 1e-6 * piece.area


def is_straight(piece: Polygon) -> bool:
    """Claim that no corner turns by so little that it must be one of a curve's."""
    ring = shapely.get_coordinates(piece.exterior)[:-1]
    steps = np.roll(ring, -1, axis=0) - ring
    ways = np.arctan2(steps[:, 1], steps[:, 0])
    turns = np.abs((np.diff(ways, append=ways[0]) + math.pi) % math.tau - math.pi)
    return not piece.interiors and bool((turns > math.radians(10)).all())


def pieces(tile: Json, layout: Json, over: BaseGeometry) -> list[tuple[Polygon, Polygon]]:
    """Return (piece, face) for every connected part of a face inside the region."""
    found = []
    for face in faces(tile, layout, over):
        for part in shapely.get_parts(face & over):
            if part.geom_type == "Polygon" and part.area > 1e-3:
                found.append((part, face))
    return found
