"""Where trim runs along a surface: stretches between doorways and corners, and what ends each of them.

A run goes straight along one edge, or along several in one line, and is measured along them. Where it meets
another run at a corner the two join, butt or mitred: the first run reaches the corner, and a butt takes the
depth of the first and a joint off the second. At a corner that stands out into the room it is the first that
reaches past it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import atan2, degrees, hypot

import numpy as np

from tilelayout.geometry.arcs import arc_through
from tilelayout.geometry.rings import signed_area
from tilelayout.job.ground import Trim
from tilelayout.job.values import EdgeRole, Surface

_STRAIGHT_ON = 0.05
"""Edges that turn by less than this (degrees) are one line."""


@dataclass(frozen=True)
class Run:
    """A stretch of trim along `edges` of the surface, `length` long.

    `turns` are the degrees by which the edges turn to the run before and to the one behind: positive into
    the surface (an inside corner), 0 if no run meets this one there.
    """

    edges: tuple[int, ...]
    length: float
    turns: tuple[float, float] = (0.0, 0.0)
    is_curved: bool = False


def runs_of(surface: Surface, trim: Trim) -> tuple[Run, ...]:
    """Return the runs of a trim in the order of the edges, counter-clockwise."""
    chosen = _counter_clockwise(surface, trim.edges or _walls(surface))
    straight = [Run((at,), _length(surface, at), is_curved=_is_arc(surface, at)) for at in chosen]
    joined: list[Run] = []
    for run in straight:
        if joined and _runs_on(surface, joined[-1], run):
            joined[-1] = _together(joined[-1], run)
        else:
            joined.append(run)
    if len(joined) > 1 and _runs_on(surface, joined[-1], joined[0]):
        joined = [_together(joined.pop(), joined[0]), *joined[1:]]
    return tuple(_with_turns(surface, run, joined) for run in joined)


def _walls(surface: Surface) -> tuple[int, ...]:
    edges = range(len(surface.outline))
    return tuple(at for at in edges if surface.edge(at).role is EdgeRole.WALL)


def _counter_clockwise(surface: Surface, edges: tuple[int, ...]) -> list[int]:
    return sorted(edges, reverse=_way_round(surface) < 0)


def _way_round(surface: Surface) -> float:
    return float(np.sign(signed_area(np.array(surface.outline, dtype=float))))


def _ends(surface: Surface, at: int) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the ends of an edge in counter-clockwise order."""
    ends = (surface.outline[at], surface.outline[(at + 1) % len(surface.outline)])
    return ends if _way_round(surface) > 0 else ends[::-1]


def _is_arc(surface: Surface, at: int) -> bool:
    return surface.edge(at).through is not None


def _length(surface: Surface, at: int) -> float:
    start, end = _ends(surface, at)
    through = surface.edge(at).through
    if through is None:
        return hypot(end[0] - start[0], end[1] - start[1])
    steps = np.diff(arc_through(start, through, end).points(), axis=0)
    return float(np.hypot(*steps.T).sum())


def _meet(surface: Surface, first: Run, second: Run) -> bool:
    return _ends(surface, first.edges[-1])[1] == _ends(surface, second.edges[0])[0]


def _runs_on(surface: Surface, first: Run, second: Run) -> bool:
    is_curved = first.is_curved or second.is_curved
    meets = first != second and _meet(surface, first, second) and not is_curved
    return meets and abs(_turn(surface, first, second)) < _STRAIGHT_ON


def _together(first: Run, second: Run) -> Run:
    return Run(first.edges + second.edges, first.length + second.length)


def _turn(surface: Surface, first: Run, second: Run) -> float:
    """Return by how many degrees the way along turns at the corner, positive to the left."""
    before, after = (_way(surface, run) for run in (first.edges[-1], second.edges[0]))
    cross = before[0] * after[1] - before[1] * after[0]
    return degrees(atan2(cross, before[0] * after[0] + before[1] * after[1]))


def _way(surface: Surface, at: int) -> tuple[float, float]:
    start, end = _ends(surface, at)
    return end[0] - start[0], end[1] - start[1]


def _with_turns(surface: Surface, run: Run, runs: list[Run]) -> Run:
    before = next((other for other in runs if other != run and _meet(surface, other, run)), None)
    behind = next((other for other in runs if other != run and _meet(surface, run, other)), None)
    turns = (
        0.0 if before is None else _turn(surface, before, run),
        0.0 if behind is None else _turn(surface, run, behind),
    )
    return replace(run, turns=turns)
