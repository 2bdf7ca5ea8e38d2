"""Readings joined to a surface of flat triangles: the linear interpolation that everything is measured on.

The triangles are Delaunay's. Where more than three readings lie on one circle (the four corners of every
cell of a grid do) Delaunay leaves the choice of diagonal open, and any choice would favour a direction or
make a ridge of what might be a valley. Such a cell is parted towards its middle instead, whose height is the
mean of its readings. So a survey that is turned, mirrored or upside down gives the turned, mirrored or
upside-down surface, and a plane stays a plane.

Triangles of which less than half lies in the outline are left out: an inside corner of a room parts the
readings on its two sides.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.base.errors import TileLayoutError
from tilelayout.flatness.locating import Locator
from tilelayout.geometry.often_asked import OftenAsked
from tilelayout.geometry.overlays import shared_by_each
from tilelayout.geometry.rings import is_convex

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Places = NDArray[np.intp]
Flags = NDArray[np.bool_]

_SAME_CIRCLE = 1e-3
"""Circles whose centres differ by this share of the radius are one: typed places are rounded."""

_FLAT = 1e-6
"""A triangle less high than this share of its longest side is a straight line of readings."""

_LEAST_INSIDE = 0.5

_ROUNDED_TO = 4
"""Decimals of a mm that count when triangles are looked for."""


class SurveyError(TileLayoutError):
    """Readings that make no surface, or none that can be brought within the limits."""


@dataclass(frozen=True, eq=False)
class Mesh:
    """The v corners of the triangles: the n readings, in order, and after them the middles of cells.

    `places` (v, 2); `triangles` (f, 3) and `edges` (m, 2) are numbers of corners. The height of a corner is
    the sum of `shares` (v, k) of the heights of the readings `parents` (v, k).
    """

    places: Points
    parents: Places
    shares: Numbers
    triangles: Places

    @cached_property
    def edges(self) -> Places:
        """The sides of the triangles, each once."""
        sides = self.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
        return np.asarray(np.unique(np.sort(sides, axis=1), axis=0))

    @cached_property
    def longest(self) -> float:
        """The longest side of a triangle, mm."""
        along = self.places[self.edges[:, 1]] - self.places[self.edges[:, 0]]
        return float(np.hypot(along[:, 0], along[:, 1]).max())

    @cached_property
    def shapes(self) -> NDArray[np.object_]:
        """The triangles as shapes (f,)."""
        return np.asarray(shapely.polygons(self.places[self.triangles]))

    @cached_property
    def domain(self) -> shapely.Geometry:
        """The ground that the triangles cover, a hair larger so that a line along its rim lies in it."""
        return shapely.buffer(shapely.union_all(self.shapes, grid_size=1e-6), 1e-4, join_style="mitre")

    def covers(self, shapes: NDArray[np.object_]) -> NDArray[np.bool_]:
        """Tell which shapes (n,) lie on the ground that the triangles cover."""
        return self._asked.covers(shapes)

    @cached_property
    def _asked(self) -> OftenAsked:
        return OftenAsked(self.domain)

    @cached_property
    def rim(self) -> Points:
        """The straight stretches (k, 2, 2) of the ground's rim, holes included."""
        rings = shapely.get_rings(shapely.get_parts(shapely.simplify(self.domain, 1e-5)))
        corners = [shapely.get_coordinates(ring) for ring in rings]
        return np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in corners])

    @cached_property
    def is_convex(self) -> bool:
        """Whether every straight line between two points of the ground stays on it."""
        area = float(shapely.area(self.domain))
        return float(shapely.area(shapely.convex_hull(self.domain))) - area < 1e-6 * area

    @cached_property
    def _locator(self) -> Locator:
        return Locator(self.places[self.triangles])

    def heights(self, readings: Numbers) -> Numbers:
        """Return the heights (v,) of the corners for heights (n,) of the readings."""
        return np.asarray(np.sum(readings[self.parents] * self.shares, axis=1))

    def triangle_at(self, points: Points) -> Places:
        """Return the triangle (p,) under each point, -1 where there is none."""
        return self._locator.under(points)

    def corner_shares(self, points: Points, triangle: Places) -> Numbers:
        """Return the shares (p, 3) that the corners of its triangle have in each point."""
        return self._locator.shares(points, triangle)

    def heights_at(self, points: Points, heights: Numbers) -> Numbers:
        """Return the height (p,) of the surface at points (p, 2), nan beside it; `heights` (v,)."""
        triangle = self.triangle_at(points)
        shares = self.corner_shares(points, triangle)
        found = np.sum(heights[self.triangles[triangle]] * shares, axis=1)
        return np.asarray(np.where(triangle < 0, np.nan, found))

    def plane_under(self, points: Points, heights: Numbers) -> tuple[float, float, float]:
        """Return (a, b, c) of the plane a x + b y + c nearest by least squares to the surface at points."""
        known = self.heights_at(points, heights)
        on = ~np.isnan(known)
        if on.sum() < 3:
            raise SurveyError("There are too few readings under this place.", "Measure there too.")
        level = np.column_stack([points[on], np.ones(on.sum())])
        a, b, c = np.linalg.lstsq(level, known[on], rcond=None)[0]
        return float(a), float(b), float(c)


def lie_in_one_line(places: Points) -> bool:
    """Claim that the readings lie in one straight line, or are fewer than three."""
    if len(places) < 3:
        return True
    spread = np.linalg.svd(places - places.mean(axis=0), compute_uv=False)
    return bool(spread[1] <= _FLAT * max(spread[0], 1.0))


def mesh_of(places: Points, outline: shapely.Geometry | None = None) -> Mesh:
    """Join readings at `places` (n, 2) to a mesh, within `outline` if one is given.

    SurveyError if they lie in one line, or none of the surface between them is in the outline.
    """
    if lie_in_one_line(places):
        raise SurveyError("The readings lie in one line.", "Measure two more lines beside it.")
    triangles = _within(_delaunay(places), places, outline)
    if not len(triangles):
        raise SurveyError("The readings lie outside the outline.", "Check where they were taken.")
    return _parted(places, list(_cells(places, triangles)))


def _delaunay(places: Points) -> Places:
    """Return Delaunay's triangles (f, 3), counter-clockwise, straight ones left out."""
    lined_up = _lined_up(places)
    found = shapely.get_coordinates(shapely.delaunay_triangles(shapely.multipoints(lined_up)))
    number = {tuple(place): at for at, place in reversed(list(enumerate(lined_up.tolist())))}
    corners = np.array([number[tuple(place)] for place in found.tolist()]).reshape(-1, 4)[:, :3]
    a, b, c = (places[corners[:, k]] for k in range(3))
    twice = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    longest = np.max([np.sum((q - p) ** 2, axis=1) for p, q in ((a, b), (b, c), (c, a))], axis=0)
    corners[twice < 0] = corners[twice < 0][:, ::-1]
    return np.asarray(corners[np.abs(twice) > _FLAT * longest])


def _lined_up(places: Points) -> Points:
    """Return the places turned so that their longest rim lies level, and rounded.

    Readings along a slanted wall then lie in one line exactly, and not but for the last digit, which is
    where finding Delaunay's triangles goes wrong.
    """
    rim = shapely.get_coordinates(shapely.convex_hull(shapely.multipoints(places)))
    along = np.diff(rim, axis=0)
    x, y = along[np.argmax(np.hypot(along[:, 0], along[:, 1]))]
    turn = np.array([[x, -y], [y, x]]) / np.hypot(x, y)
    return np.asarray(np.round((places - places[0]) @ turn, _ROUNDED_TO) + 0.0)


def _within(triangles: Places, places: Points, outline: shapely.Geometry | None) -> Places:
    if outline is None:
        return triangles
    shapes = np.asarray(shapely.polygons(places[triangles]))
    inside = shapely.area(shared_by_each(shapes, outline))
    return np.asarray(triangles[inside >= _LEAST_INSIDE * shapely.area(shapes)])


def _cells(places: Points, triangles: Places) -> Iterator[Places]:
    """Yield the cells as rings of readings: triangles, or several joined that have one circle."""
    group = _joined(triangles, *_circles(places, triangles))
    order = np.argsort(group, kind="stable")
    for members in np.split(order, np.flatnonzero(np.diff(group[order])) + 1):
        ring = np.unique(triangles[members])
        around = places[ring] - places[ring].mean(axis=0)
        ring = ring[np.argsort(np.arctan2(around[:, 1], around[:, 0]), kind="stable")]
        if len(members) == 1 or len(ring) != len(members) + 2 or not is_convex(places[ring]):
            yield from triangles[members]
        else:
            yield ring


def _circles(places: Points, triangles: Places) -> tuple[Points, Numbers]:
    """Return centres (f, 2) and radii (f,) of the circles through the corners of triangles."""
    a, b, c = (places[triangles[:, k]] for k in range(3))
    u, v = b - a, c - a
    whole = 2.0 * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    uu, vv = np.sum(u * u, axis=1), np.sum(v * v, axis=1)
    x = (v[:, 1] * uu - u[:, 1] * vv) / whole
    y = (u[:, 0] * vv - v[:, 0] * uu) / whole
    return a + np.column_stack([x, y]), np.hypot(x, y)


def _joined(triangles: Places, centres: Points, radii: Numbers) -> Places:
    """Return a group number (f,) for each triangle: neighbours with one circle are of one group."""
    sides = np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    owner = np.repeat(np.arange(len(triangles)), 3)
    order = np.lexsort((sides[:, 1], sides[:, 0]))
    is_twin = np.all(sides[order[1:]] == sides[order[:-1]], axis=1)
    one, other = owner[order[:-1]][is_twin], owner[order[1:]][is_twin]
    apart = np.hypot(*(centres[one] - centres[other]).T)
    same = apart <= _SAME_CIRCLE * np.minimum(radii[one], radii[other])
    group = np.arange(len(triangles))
    while True:
        least = group.copy()
        np.minimum.at(least, one[same], group[other[same]])
        np.minimum.at(least, other[same], group[one[same]])
        if np.array_equal(least, group):
            return group
        group = least


def _parted(places: Points, cells: list[Places]) -> Mesh:
    """Return the mesh: triangles as they are, every larger cell parted towards its middle."""
    count, most = len(places), max(len(cell) for cell in cells)
    parents = np.zeros((count, most), dtype=np.intp)
    parents[:, 0] = np.arange(count)
    shares = np.zeros((count, most))
    shares[:, 0] = 1.0
    large = [cell for cell in cells if len(cell) > 3]
    triangles = [cell for cell in cells if len(cell) == 3]
    for at, cell in enumerate(large, start=count):
        triangles += [np.array([p, q, at]) for p, q in zip(cell, np.roll(cell, -1), strict=True)]
    own = np.array([np.pad(cell, (0, most - len(cell))) for cell in large], dtype=np.intp).reshape(-1, most)
    each = [np.pad(np.full(len(cell), 1.0 / len(cell)), (0, most - len(cell))) for cell in large]
    middles = np.array([places[cell].mean(axis=0) for cell in large]).reshape(-1, 2)
    return Mesh(
        np.concatenate([places, middles]),
        np.concatenate([parents, own]),
        np.concatenate([shares, np.array(each).reshape(-1, most)]),
        np.array(triangles, dtype=np.intp),
    )
