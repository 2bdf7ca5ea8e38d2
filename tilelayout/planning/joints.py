"""Where the joints run: the marks of a story pole and the two lines to snap before the first tile.

A joint runs straight across a surface exactly where no face of the pattern is in its way. Seen along one
axis, the faces of the whole lattice are a few intervals that repeat by one period; what they leave free is
joint. That holds for a plain grid both ways, for any running bond one way, for a pattern turned by 90
degrees, and for no herringbone, without naming any pattern here.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE, SAME_PLACE
from tilelayout.geometry.overlays import stretches_in
from tilelayout.layout.laying import Laid
from tilelayout.layout.values import Points
from tilelayout.planning.fixed_walls import Axis, FixedWall, fixed_wall
from tilelayout.planning.plan import Plan


@dataclass(frozen=True)
class RunningMarks:
    """The marks of a story pole held along `axis` with its end at the fixed wall.

    `marks` are the distances of the middles of the joints from the wall, each measured from the wall and
    never from the last mark, so that roundings do not add up. `zero` is the surface coordinate of the
    wall where the start line meets it, so a mark stands at zero + mark; `wall` is None if nothing straight
    stands there and the pole starts at the outermost point. `end` is the distance at which the tiles end.
    """

    axis: Axis
    wall: FixedWall | None
    zero: float
    marks: tuple[float, ...]
    end: float
    joint: float


@dataclass(frozen=True)
class LineMark:
    """How to find one end of a line: `distance` square from the wall, with the tape hooked at `foot`."""

    wall: FixedWall
    distance: float
    foot: tuple[float, float]


@dataclass(frozen=True)
class StartLine:
    """A line to snap: from `start` to `end`, and for each of the two the distances that find it."""

    start: tuple[float, float]
    end: tuple[float, float]
    at_start: tuple[LineMark, ...]
    at_end: tuple[LineMark, ...]


def running_marks(plan: Plan, axis: Axis) -> RunningMarks | None:
    """Return the marks of the joints met along x or y; None if no joint runs straight across that axis."""
    of = 0 if axis == "x" else 1
    joints = _joint_middles(plan.laid, of)
    if joints is None:
        return None
    middles, period = joints
    low, high = _extent(plan.laid, of)
    wall = fixed_wall(plan.surface, axis)
    zero = wall.crossing(plan.layout.start, axis) if wall else low
    low = max(low, zero)  # beside a wall that leans away, joints lie before the end of the pole
    first, last = np.floor((low - middles.max()) / period), np.ceil((high - middles.min()) / period)
    places = np.sort((np.arange(first, last + 1)[:, None] * period + middles).ravel())
    inside = places[(places > low + SAME_PLACE) & (places < high - SAME_PLACE)] - zero
    return RunningMarks(axis, wall, zero, tuple(map(float, inside)), high - zero, plan.layout.joint)


def _extent(laid: Laid, of: int) -> tuple[float, float]:
    bounds = laid.region.shape.bounds
    return bounds[of], bounds[of + 2]


def _joint_middles(laid: Laid, of: int) -> tuple[Points, float] | None:
    """Return the coordinates of the straight joints' middles in one period, and the period."""
    spans = np.array([(face[:, of].min(), face[:, of].max()) for face in laid.placed_faces])
    shortest = float((spans[:, 1] - spans[:, 0]).min())
    first, second = map(float, np.abs(laid.placed_vectors[:, of]))
    period = _common_step(first, second, shortest)
    if period is None:
        return None
    starts = spans[:, 0] % period
    order = np.argsort(starts)
    starts, ends = starts[order], (starts + spans[:, 1] - spans[:, 0])[order]
    covered = np.maximum.accumulate(np.concatenate([[ends.max() - period], ends[:-1]]))
    free = starts - covered
    is_joint = free > ON_EDGE
    return (starts[is_joint] - free[is_joint] / 2, period) if is_joint.any() else None


def _common_step(first: float, second: float, shortest: float) -> float | None:
    """Return the largest step of which both are whole multiples, if it is longer than the shortest face."""
    while second > ON_EDGE:
        first, second = second, min(first % second, second - first % second)
    return first if first > shortest else None


def start_lines(plan: Plan) -> tuple[StartLine, ...]:
    """Return the lines to snap before the first tile: along and across the pattern, through the start.

    A start outside the region is moved by whole repeats of the pattern to the one nearest the middle of
    it, so the lines can always be snapped. A line that runs along a fixed wall is found by its distance
    from that wall alone, any other by its distances from both.
    """
    through = _start_inside(plan.laid)
    angles = np.radians([plan.layout.angle, plan.layout.angle + 90.0])
    walls = [wall for wall in (fixed_wall(plan.surface, "x"), fixed_wall(plan.surface, "y")) if wall]
    lines = (_line(plan.laid, through, np.array([np.cos(a), np.sin(a)]), walls) for a in angles)
    return tuple(line for line in lines if line is not None)


def _start_inside(laid: Laid) -> Points:
    start = np.array(laid.layout.start, dtype=float)
    if laid.region.shape.contains_properly(shapely.Point(start)):
        return start
    middle = laid.region.shape.representative_point()
    steps = np.round(np.linalg.solve(laid.placed_vectors.T, np.array([middle.x, middle.y]) - start))
    return np.asarray(start + steps @ laid.placed_vectors)


def _line(laid: Laid, through: Points, along: Points, walls: list[FixedWall]) -> StartLine | None:
    x0, y0, x1, y1 = laid.region.shape.bounds
    reach = np.hypot(x1 - x0, y1 - y0) * along
    chord = shapely.LineString([through - reach, through + reach])
    parts = [part for part in stretches_in([chord], laid.region.shape) if part.length > SAME_PLACE]
    if not parts:
        return None
    nearest = min(parts, key=lambda part: float(part.distance(shapely.Point(through))))
    start, end = ((float(x), float(y)) for x, y in (nearest.coords[0], nearest.coords[-1]))
    beside = [wall for wall in walls if abs(wall.distance(start) - wall.distance(end)) < ON_EDGE]
    return StartLine(start, end, _marks(start, beside or walls), _marks(end, beside or walls))


def _marks(point: tuple[float, float], walls: list[FixedWall]) -> tuple[LineMark, ...]:
    return tuple(LineMark(wall, wall.distance(point), wall.foot(point)) for wall in walls)
