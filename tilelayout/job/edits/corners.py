"""What becomes of edges when corners come, go and move.

An edge is known by the number of its first corner, so a new corner raises the numbers behind it. An arc
keeps its form when an end moves: its through-point turns and grows with the chord.
"""

from __future__ import annotations

from cmath import phase, rect
from collections.abc import Iterable, Iterator
from math import tau

from msgspec.structs import replace

from tilelayout.geometry.arcs import arc_through
from tilelayout.job.values import Edge, Point

Outline = tuple[Point, ...]


def is_plain(edge: Edge) -> bool:
    """Whether there is nothing special about the edge, so that it need not be named."""
    return edge == Edge(at=edge.at)


def in_order(edges: Iterable[Edge]) -> tuple[Edge, ...]:
    """Return the edges worth naming, by number."""
    return tuple(sorted((edge for edge in edges if not is_plain(edge)), key=lambda edge: edge.at))


def with_edge(edges: Iterable[Edge], new: Edge) -> tuple[Edge, ...]:
    """Return the edges with `new` for the one of its number."""
    return in_order((*(edge for edge in edges if edge.at != new.at), new))


def split(
    edges: Iterable[Edge], old: Edge, outline: Outline, point: Point
) -> tuple[Outline, tuple[Edge, ...]]:
    """Return outline and edges with a corner at `point` on edge `old`; both halves are what it was.

    On an arc the corner goes to the nearest point of the arc, and both halves run along it.
    """
    halves = (old, old)
    if old.through is not None:
        start, end = outline[old.at], outline[(old.at + 1) % len(outline)]
        first, point, second = _along_arc(start, old.through, end, point)
        halves = (replace(old, through=first), replace(old, through=second))
    raised = (
        replace(edge, at=edge.at + 1) if edge.at > old.at else edge for edge in edges if edge.at != old.at
    )
    longer = (*outline[: old.at + 1], point, *outline[old.at + 1 :])
    return longer, in_order((*raised, halves[0], replace(halves[1], at=old.at + 1)))


def _along_arc(start: Point, through: Point, end: Point, point: Point) -> tuple[Point, Point, Point]:
    """Return the point of the arc nearest to `point`, between the middles of the two arcs it parts.

    A point beyond the ends stands for the middle of the arc.
    """
    arc = arc_through(start, through, end)
    middle = complex(*arc.centre)
    radius = complex(*start) - middle
    turned = [phase((complex(*other) - middle) / radius) % tau for other in (through, point, end)]
    if turned[0] > turned[2]:
        turned = [angle - tau for angle in turned]
    at, sweep = turned[1], turned[2]
    if not 0 < at / sweep < 1:
        at = sweep / 2
    first, here, second = (middle + rect(1.0, angle) * radius for angle in (at / 2, at, (at + sweep) / 2))
    return (first.real, first.imag), (here.real, here.imag), (second.real, second.imag)


def joined(edges: Iterable[Edge], at: int, count: int) -> tuple[Edge, ...]:
    """Return the edges once corner `at` of `count` is gone: the edge before it runs on, straight."""
    before = (at - 1) % count
    return in_order(_renumbered(edge, at, before) for edge in edges if edge.at != at)


def _renumbered(edge: Edge, gone: int, before: int) -> Edge:
    straight = replace(edge, through=None) if edge.at == before else edge
    return replace(straight, at=edge.at - 1) if edge.at > gone else straight


def bent_along(edges: Iterable[Edge], old: Outline, new: Outline) -> Iterator[Edge]:
    """Return the edges with each arc carried from the chord it had to the chord it has."""
    for edge in edges:
        following = (edge.at + 1) % len(old)
        was, now = (old[edge.at], old[following]), (new[edge.at], new[following])
        if edge.through is None or was == now:
            yield edge
        else:
            yield replace(edge, through=_carried(edge.through, was, now))


def _carried(point: Point, was: tuple[Point, Point], now: tuple[Point, Point]) -> Point:
    """Return the point turned, moved and scaled as the chord was (points as complex numbers)."""
    (a, b), (c, d) = ([complex(*end) for end in chord] for chord in (was, now))
    moved = c + (complex(*point) - a) * (d - c) / (b - a)
    return (moved.real, moved.imag)
