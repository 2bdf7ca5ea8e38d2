"""Where a layout's start snaps to: a full tile at a wall, a tile or joint centred, a joint on a wall's line.

Seen square to a wall, the faces of a pattern repeat at a fixed distance, so each wish fixes the start's place
in that direction up to a whole number of repeats. Two wishes in different directions fix the start.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.drawing.bends import outward
from tilelayout.drawing.context import PlacedPattern
from tilelayout.drawing.moves import ends_of
from tilelayout.drawing.naming import edge_title
from tilelayout.drawing.placing import Direction
from tilelayout.drawing.preview import SnapKind, SnapMarker
from tilelayout.drawing.reach import Reach
from tilelayout.drawing.wish import Wish
from tilelayout.job.values import EdgeRole, Layout, Point, Surface

_LEAST_REPEAT = 5.0
"""A pattern that repeats more finely than this (mm) square to a wall would snap everywhere."""

_NOTHING = 1e-3
"""A remainder below this (mm) is rounding."""


def wishes(surface: Surface, layout: Layout, pattern: PlacedPattern) -> tuple[Wish, ...]:
    """Return all wishes for a layout whose faces lie as in `pattern` while its start is `layout.start`.

    Its own reference lines come first, so that of equally near ones they win.
    """
    walls = [at for at in range(len(surface.outline)) if surface.edge(at).through is None]
    found = chain.from_iterable(_wishes_at(surface, layout, pattern, at) for at in walls)
    return (*pattern.wishes, *found)


def snapped_start(start: Point, wanted: tuple[Wish, ...], reach: Reach) -> tuple[Point, SnapMarker | None]:
    """Return the start moved to the nearest wish within reach, and to a second one across the first."""
    near = sorted(wanted, key=lambda wish: abs(wish.shift(start)))
    near = [wish for wish in near if abs(wish.shift(start)) <= reach.tolerance] if reach.snaps else []
    if not near:
        return start, None
    first = near[0]
    second = next((wish for wish in near if abs(_cross(first.direction, wish.direction)) > 0.1), None)
    point = _fulfilled(start, first, second)
    chosen = (first, second) if second else (first,)
    words = " and ".join(dict.fromkeys(wish.words for wish in chosen))
    return point, SnapMarker(SnapKind.TILE, point, words, tuple(wish.line for wish in chosen))


def _fulfilled(start: Point, first: Wish, second: Wish | None) -> Point:
    """Return the start moved along the first direction, or to where both wishes hold."""
    a, (ux, uy) = first.shift(start), first.direction
    if second is None:
        return (start[0] + ux * a, start[1] + uy * a)
    b, (vx, vy) = second.shift(start), second.direction
    cross = ux * vy - uy * vx
    return (start[0] + (a * vy - b * uy) / cross, start[1] + (b * ux - a * vx) / cross)


def _wishes_at(surface: Surface, layout: Layout, pattern: PlacedPattern, at: int) -> Iterator[Wish]:
    inward = _inward(surface, at)
    repeat = _repeat(pattern, inward)
    if repeat < _LEAST_REPEAT:
        return
    here = _dot(layout.start, inward)
    for face in pattern.faces:
        places = face @ np.array(inward)
        low, high = float(places.min()), float(places.max())
        yield from _centred(surface, layout, at, Profile(inward, here, repeat, low, high))
        if _has_side_at(places, low) and _has_side_at(places, high):
            yield from _flush(surface, layout, at, Profile(inward, here, repeat, low, high))


@dataclass(frozen=True)
class Profile:
    """A face seen square to a wall: it reaches from `low` to `high` while the start stands at `here`."""

    inward: Direction
    here: float
    repeat: float
    low: float
    high: float

    def wish(self, move: float, words: str, line: tuple[Point, Point]) -> Wish:
        """Return the wish for the pattern to go inward by `move`."""
        return Wish(self.inward, self.here + move, self.repeat, words, line)


def _flush(surface: Surface, layout: Layout, at: int, profile: Profile) -> Iterator[Wish]:
    line, title = ends_of(surface, at), edge_title(surface, at)
    wall = _dot(line[0], profile.inward)
    border = wall + _gap(surface, layout, at)
    yield profile.wish(border - profile.low, f"full tile at {title}", line)
    if _runs_on_inside(surface, at):
        to_joint = wall - profile.high - layout.joint / 2
        yield profile.wish(to_joint, f"joint on the line of {title}", line)


def _centred(surface: Surface, layout: Layout, at: int, profile: Profile) -> Iterator[Wish]:
    wall = _dot(surface.outline[at], profile.inward)
    far, title = _far_side(surface, layout, profile.inward, f"from {edge_title(surface, at)}")
    middle = (wall + _gap(surface, layout, at) + far) / 2
    between = f"{title.replace('from', 'between', 1)}, balanced" if " and " in title else title
    line = _across(surface, profile.inward, middle)
    yield profile.wish(middle - (profile.low + profile.high) / 2, f"tile centred {between}", line)
    yield profile.wish(middle - profile.high - layout.joint / 2, f"joint centred {between}", line)


def _far_side(surface: Surface, layout: Layout, inward: Direction, near: str) -> tuple[float, str]:
    """Return how far the tiles can reach inward, and the words for the span from the near wall."""
    far = max(_dot(corner, inward) for corner in surface.outline)
    for at, corner in enumerate(surface.outline):
        faces_back = surface.edge(at).through is None and _dot(_inward(surface, at), inward) < -1 + 1e-9
        if faces_back and far - _dot(corner, inward) <= SAME_PLACE:
            return far - _gap(surface, layout, at), f"{near} and {edge_title(surface, at)}"
    return far, near


def _gap(surface: Surface, layout: Layout, at: int) -> float:
    """The gap is left along plain walls only."""
    return layout.gap if surface.edge(at).role is EdgeRole.WALL else 0.0


def _has_side_at(places: NDArray[np.float64], place: float) -> bool:
    """Whether a face has a whole side, not only a corner, at a place square to the wall."""
    return int((np.abs(places - place) <= SAME_PLACE).sum()) >= 2


def _repeat(pattern: PlacedPattern, inward: Direction) -> float:
    """Return the distance at which the pattern repeats in a direction: what both vectors are multiples of.

    It is 0 if there is none, as for a pattern turned by an odd angle.
    """
    a, b = sorted(abs(float(step)) for step in pattern.vectors @ np.array(inward))
    while a > _NOTHING:
        a, b = sorted((a, math.remainder(b, a) if b % a else 0.0), key=abs)
        a, b = abs(a), abs(b)
    return b


def _runs_on_inside(surface: Surface, at: int) -> bool:
    """Whether the line of an edge runs on into the surface: one of its ends is an inside-out corner."""
    count = len(surface.outline)
    inward = _inward(surface, at)
    beyond = (surface.outline[(at - 1) % count], surface.outline[(at + 2) % count])
    wall = _dot(surface.outline[at], inward)
    return any(_dot(corner, inward) < wall - SAME_PLACE for corner in beyond)


def _across(surface: Surface, inward: Direction, middle: float) -> tuple[Point, Point]:
    """Return the line at `middle`, square to `inward`, as long as the surface."""
    along = (-inward[1], inward[0])
    reach = [_dot(corner, along) for corner in surface.outline]
    x, y = inward[0] * middle, inward[1] * middle
    ends = [(x + along[0] * t, y + along[1] * t) for t in (min(reach), max(reach))]
    return ends[0], ends[1]


def _inward(surface: Surface, at: int) -> Direction:
    x, y = outward(surface, at)
    return (-x, -y)


def _dot(point: Point, direction: Direction) -> float:
    return point[0] * direction[0] + point[1] * direction[1]


def _cross(one: Direction, other: Direction) -> float:
    return one[0] * other[1] - one[1] * other[0]
