"""What a person calls the edges of a surface: by the name given, by role, by side, or by number.

"left wall" is the longest line of wall that looks left, so the name never leaves open which wall is meant; a
wall broken by a doorway is still one wall. The short walls of a doorway's recess are its jambs.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tilelayout.geometry.rings import signed_area
from tilelayout.job.values import EdgeRole, Surface, SurfaceKind

_NOUNS = {
    EdgeRole.WALL: "wall",
    EdgeRole.DOORWAY: "doorway",
    EdgeRole.OPEN: "open edge",
    EdgeRole.OUTSIDE_CORNER: "outside corner",
    EdgeRole.TUB: "tub",
}
_BESIDE_AN_EDGE = {"edge": "", "border": " border", "rim": " border", "mitre": " mitre"}
"""What is added to the name of an edge for the border of tiles there, on either side, and its mitre."""
_SIDES = ("right", "top", "left", "bottom")
_PARTS: dict[int, tuple[tuple[str, ...], tuple[str, ...]]] = {
    2: (("left", "right"), ("lower", "upper")),
    3: (("left", "middle", "right"), ("lower", "middle", "upper")),
}
"""What the parts of a wall are called, along x and along y."""
_LEAN = 20.0
"""How many degrees an edge may lean and still be called by a side."""
_DEEPEST_JAMB = 300.0
"""A wall beside a doorway that is longer than this is a wall and no jamb."""
_IN_LINE = 1.0
"""Edges whose lines lie nearer than this are one wall."""


def wall_name(surface: Surface, source: str) -> str:
    """Return what to call the border `source`: "edge 3", "border 3" of tiles there, or a cutout's name."""
    word, _, number = source.partition(" ")
    if word not in _BESIDE_AN_EDGE or not number.isdigit():
        return source
    return f"{edge_name(surface, int(number))}{_BESIDE_AN_EDGE[word]}"


@lru_cache(maxsize=512)
def edge_name(surface: Surface, at: int) -> str:
    """Return a name for edge `at`: its own, else role and side if that is clear, else its number."""
    edge = surface.edge(at)
    if edge.name:
        return edge.name
    if edge.role is not EdgeRole.WALL and _is_the_only_one(surface, edge.role):
        return _NOUNS[edge.role]
    doorway = _doorway_beside(surface, at)
    if doorway is not None:
        return f"{edge_name(surface, doorway)} jamb"
    if at in _longest_line(surface, side_of(surface, at), edge.role):
        return f"{side_of(surface, at)} {_noun(surface, edge.role)}"
    return f"edge {at + 1}"


def stretch_name(surface: Surface, at: int) -> str:
    """Return a name for edge `at` that no other edge has: "bottom wall, left part" if a doorway parts it."""
    name = edge_name(surface, at)
    alike = [edge for edge in range(len(surface.outline)) if edge_name(surface, edge) == name]
    if len(alike) == 1:
        return name
    middles = np.array([np.add(surface.outline[edge], _end(surface, edge)) / 2.0 for edge in alike])
    axis = int(np.argmax(np.ptp(middles, axis=0)))
    place = [alike[row] for row in np.argsort(middles[:, axis], kind="stable")].index(at)
    words = _PARTS.get(len(alike), ((), ()))[axis]
    return f"{name}, {words[place]} part" if words else f"{name}, {place + 1} of {len(alike)}"


def side_of(surface: Surface, at: int) -> str:
    """Return the side an edge looks at ("left", "right", "top", "bottom"); "" for an arc or a slope."""
    if surface.edge(at).through is not None:
        return ""
    outward = _outward(surface, at)
    angle = float(np.degrees(np.arctan2(outward[1], outward[0])))
    quarter = round(angle / 90)
    return _SIDES[quarter % 4] if abs(angle - 90 * quarter) <= _LEAN else ""


def _noun(surface: Surface, role: EdgeRole) -> str:
    return "side" if role is EdgeRole.WALL and surface.kind is SurfaceKind.WALL else _NOUNS[role]


def _is_the_only_one(surface: Surface, role: EdgeRole) -> bool:
    return sum(edge.role is role for edge in surface.edges) == 1


def _doorway_beside(surface: Surface, at: int) -> int | None:
    """Return the doorway next to a short wall, None if the edge is no jamb."""
    if surface.edge(at).role is not EdgeRole.WALL or float(np.hypot(*_along(surface, at))) > _DEEPEST_JAMB:
        return None
    count = len(surface.outline)
    beside = ((at - 1) % count, (at + 1) % count)
    return next((edge for edge in beside if surface.edge(edge).role is EdgeRole.DOORWAY), None)


def _longest_line(surface: Surface, side: str, role: EdgeRole) -> tuple[int, ...]:
    """Return the edges of one role that make up the longest straight line at one side."""
    alike = [
        at
        for at in range(len(surface.outline))
        if side and side_of(surface, at) == side and surface.edge(at).role is role
    ]
    lines = [tuple(other for other in alike if _is_in_line(surface, at, other)) for at in alike]
    return max(lines, key=lambda line: _length(surface, line), default=())


def _is_in_line(surface: Surface, at: int, other: int) -> bool:
    outward = _outward(surface, at)
    away = np.subtract([surface.outline[other], _end(surface, other)], surface.outline[at])
    return bool((np.abs(away @ outward) < _IN_LINE).all())


def _length(surface: Surface, line: tuple[int, ...]) -> float:
    return sum(float(np.hypot(*_along(surface, at))) for at in line)


def _along(surface: Surface, at: int) -> NDArray[np.float64]:
    return np.subtract(_end(surface, at), surface.outline[at])


def _end(surface: Surface, at: int) -> tuple[float, float]:
    return surface.outline[(at + 1) % len(surface.outline)]


def _outward(surface: Surface, at: int) -> NDArray[np.float64]:
    """Return the direction out of the surface, square to an edge (2,)."""
    along = _along(surface, at)
    turned = np.array([along[1], -along[0]]) / np.hypot(*along)
    return np.asarray(turned * np.sign(signed_area(np.array(surface.outline, dtype=float))))
