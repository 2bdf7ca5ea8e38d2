"""Where the next corner can still be, once some of length, angle, across and up are fixed.

Each fixed value takes one freedom away: with none the corner may be anywhere, with one it lies on a ray, a
line or a ring about the last corner, with two it has one place, or the two where a ring and a line meet.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.events import Field
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Point

Direction = tuple[float, float]


@dataclass(frozen=True)
class Anywhere:
    """Nothing is fixed."""


@dataclass(frozen=True)
class AlongLine:
    """On the line through `origin` along the unit `direction`; a ray runs only forward."""

    origin: Point
    direction: Direction
    is_ray: bool = False


@dataclass(frozen=True)
class OnRing:
    """On the circle about `centre`."""

    centre: Point
    radius: float


@dataclass(frozen=True)
class AtSpots:
    """At one of a few points."""

    points: tuple[Point, ...]


@dataclass(frozen=True)
class Nowhere:
    """The fixed values contradict each other; `words` say how, and what to do."""

    words: str


Locus = Anywhere | AlongLine | OnRing | AtSpots | Nowhere


def next_corner(last: Point, fixed: Mapping[Field, float]) -> Locus:
    """Return where a corner can be whose length, angle, dx and dy from `last` are as `fixed`.

    >>> next_corner((0.0, 0.0), {Field.LENGTH: 3657.6, Field.ANGLE: 90.0})
    AtSpots(points=((0.0, 3657.6),))
    """
    known = {which: fixed[which] for which in _POLAR_AND_STEPS if which in fixed}
    if len(known) > 2:
        return Nowhere("Two of the four boxes fix the corner: empty the others.")
    return _one_value(last, known) if len(known) < 2 else _two_values(last, known)


def place(fixed: Mapping[Field, float], origin: Point = (0.0, 0.0)) -> Locus:
    """Return where a point can be whose distances right of and above `origin` are as `fixed`."""
    x, y = origin[0] + fixed.get(Field.X, 0.0), origin[1] + fixed.get(Field.Y, 0.0)
    if Field.X in fixed and Field.Y in fixed:
        return AtSpots(((x, y),))
    if Field.X in fixed:
        return AlongLine((x, origin[1]), (0.0, 1.0))
    if Field.Y in fixed:
        return AlongLine((origin[0], y), (1.0, 0.0))
    return Anywhere()


def direction_at(degrees: float) -> Direction:
    """Return the unit vector at an angle from the x axis, exact at quarter turns."""
    c, s = turning(degrees)[0]
    return (float(c), float(s))


def angle_of(a: Point, b: Point) -> float:
    """Return the angle in degrees, 0 up to 360, of the way from `a` to `b`."""
    return math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) % 360.0


_POLAR_AND_STEPS = (Field.LENGTH, Field.ANGLE, Field.DX, Field.DY)


def _one_value(last: Point, known: Mapping[Field, float]) -> Locus:
    match known:
        case {Field.LENGTH: length}:
            return OnRing(last, length)
        case {Field.ANGLE: angle}:
            return AlongLine(last, direction_at(angle), is_ray=True)
        case {Field.DX: dx}:
            return AlongLine((last[0] + dx, last[1]), (0.0, 1.0))
        case {Field.DY: dy}:
            return AlongLine((last[0], last[1] + dy), (1.0, 0.0))
    return Anywhere()


def _two_values(last: Point, known: Mapping[Field, float]) -> Locus:
    match known:
        case {Field.LENGTH: length, Field.ANGLE: angle}:
            return AtSpots((_moved(last, direction_at(angle), length),))
        case {Field.DX: dx, Field.DY: dy}:
            return AtSpots(((last[0] + dx, last[1] + dy),))
    axis, step = (0, known[Field.DX]) if Field.DX in known else (1, known[Field.DY])
    if Field.LENGTH in known:
        return _step_and_length(last, step, known[Field.LENGTH], axis)
    return _step_and_angle(last, step, known[Field.ANGLE], axis)


def _step_and_length(last: Point, step: float, length: float, axis: int) -> Locus:
    """A step along one axis and the whole length leave two places, one on each side."""
    if length < abs(step):
        return Nowhere("The length is shorter than the step across or up: make it at least as long.")
    other = math.sqrt(max(length * length - step * step, 0.0))
    spots = tuple(_stepped(last, axis, step, side * other) for side in (1.0, -1.0))
    return AtSpots(spots if other > SAME_PLACE else spots[:1])


def _step_and_angle(last: Point, step: float, angle: float, axis: int) -> Locus:
    along = direction_at(angle)[axis]
    if abs(along) < 1e-9 or step * along < 0:
        return Nowhere("That angle never makes that step across or up: change one of the two.")
    return AtSpots((_stepped(last, axis, step, step / along * direction_at(angle)[1 - axis]),))


def _stepped(last: Point, axis: int, step: float, other: float) -> Point:
    return (last[0] + step, last[1] + other) if axis == 0 else (last[0] + other, last[1] + step)


def _moved(point: Point, direction: Direction, length: float) -> Point:
    return (point[0] + direction[0] * length, point[1] + direction[1] * length)
