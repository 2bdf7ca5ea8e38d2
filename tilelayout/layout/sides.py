"""The sides of a room as a border sees them: straight runs of edges, and where lines beside them meet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.geometry.rings import cross
from tilelayout.job.values import Surface
from tilelayout.layout.outlines import edge_source, outline_of
from tilelayout.layout.values import Points


@dataclass(frozen=True, eq=False)
class Side:
    """A straight run of edges, the surface on its left.

    It begins at `start` (2,) and runs along the unit vector `way` (2,); `corners` are the places along it
    where its edges begin, and its length last.
    """

    edges: tuple[int, ...]
    start: Points
    way: Points
    corners: tuple[float, ...]
    is_followed: bool

    @property
    def length(self) -> float:
        """Length in mm."""
        return self.corners[-1]

    def point(self, along: float, depth: float) -> Points:
        """Return the point (2,) at a place along the side, so far inside of it."""
        inward = np.array([-self.way[1], self.way[0]])
        return np.asarray(self.start + along * self.way + depth * inward)

    def along(self, point: Points) -> float:
        """Return the place of a point along the side."""
        return float((point - self.start) @ self.way)


def sides_of(surface: Surface, left_out: frozenset[int]) -> tuple[Side, ...]:
    """Return the sides of a surface in their order; the edges `left_out` are not followed.

    LayoutError if that is every edge, names one that is not there, or leaves an arc to be followed.
    """
    _check(surface, left_out)
    sides = _single_sides(surface, left_out)
    first = next((at for at in range(len(sides)) if not _runs_on(sides[at - 1], sides[at])), 0)
    joined: list[Side] = []
    for side in (*sides[first:], *sides[:first]):
        if joined and _runs_on(joined[-1], side):
            joined[-1] = _one(joined[-1], side)
        else:
            joined.append(side)
    return tuple(joined)


def meeting(one: Side, one_depth: float, other: Side, other_depth: float) -> Points:
    """Return the point (2,) where lines so far inside of two sides meet, which are not parallel."""
    begin, there = one.point(0.0, one_depth), other.point(0.0, other_depth)
    along = float(cross(there - begin, other.way)) / float(cross(one.way, other.way))
    return np.asarray(begin + along * one.way)


def corner_between(side: Side, after: Side, depths: tuple[float, float]) -> tuple[Points, Points]:
    """Return where the two lines at `depths` turn from one side into the next."""
    outer, inner = (meeting(side, depth, after, depth) for depth in depths)
    return outer, inner


def is_inward_corner(side: Side, after: Side) -> bool:
    """Claim that the outline turns right from a side to the next, so that the corner points into the room."""
    return bool(cross(side.way, after.way) < 0.0)


def _check(surface: Surface, left_out: frozenset[int]) -> None:
    count = len(surface.outline)
    unknown = sorted(edge for edge in left_out if not 0 <= edge < count)
    if unknown:
        raise LayoutError(
            f"The border leaves out edge {unknown[0]}, which {surface.title} does not have.",
            f"Its edges are 0 to {count - 1} in the job file.",
        )
    if len(left_out) == count:
        raise LayoutError("The border follows no edge.", "Let it follow one, or do without a border.")


def _single_sides(surface: Surface, left_out: frozenset[int]) -> list[Side]:
    outline, number = outline_of(surface), {edge_source(at): at for at in range(len(surface.outline))}
    sides = []
    for at, border in enumerate(outline.borders):
        edge, start = number[border.source], outline.corners[at]
        along = outline.corners[(at + 1) % len(outline.corners)] - start
        length = float(np.hypot(*along))
        if border.centre is not None and edge not in left_out:
            raise LayoutError(
                f"The border cannot follow {surface.edge(edge).name or f'edge {edge + 1}'}, which is curved.",
                f"Leave edge {edge + 1} out of the border.",
            )
        sides.append(Side((edge,), start, along / length, (0.0, length), edge not in left_out))
    return sides


def _runs_on(side: Side, after: Side) -> bool:
    """Claim that a border goes straight on from a side to the next."""
    both = side.is_followed and after.is_followed
    return both and abs(float(cross(side.way, after.way))) < SAME_PLACE and float(side.way @ after.way) > 0.0


def _one(side: Side, after: Side) -> Side:
    corners = (*side.corners, side.length + after.length)
    return Side((*side.edges, *after.edges), side.start, side.way, corners, is_followed=True)
