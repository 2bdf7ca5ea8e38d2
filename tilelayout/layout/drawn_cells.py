"""Between a draft and what a job file says of drawn tiles: their outlines, and the settings of the layout.

An outline that is another one turned is the same tile laid there again; mirrored it is another tile. So a
cell of an arrow and its half-turned copy is one tile in two places.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees
from typing import Any

import numpy as np

from tilelayout.geometry.turns import turning
from tilelayout.job.values import Layout, Point, Tile
from tilelayout.layout.drafts import Draft, completed, fit_of
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.patterns import settings_of
from tilelayout.layout.patterns.drawn import Settings, faces_of
from tilelayout.layout.roles import MoreTiles
from tilelayout.layout.values import Points

NAME_IN_FILE = "drawn"
"""The pattern of drawn cells as the job file names it."""

_SAME = 1e-3
"""Outlines whose corners differ by less, in mm, are one tile; a saw or a kiln is not as true."""

_DECIMALS = 6


@dataclass(frozen=True)
class DrawnCell:
    """The different `outlines` of a cell, the layout's own tile first, and the settings that lay them.

    The second outline plays the role "tile-2", and so on.
    """

    outlines: tuple[tuple[Point, ...], ...]
    settings: dict[str, Any]

    @property
    def roles(self) -> tuple[str, ...]:
        """The roles of the outlines after the first."""
        return tuple(_role(number) for number in range(1, len(self.outlines)))


def drawn_cell(draft: Draft) -> DrawnCell:
    """Return the draft as the job file says it; the first outline stands at (0, 0)."""
    kinds: list[Points] = []
    places: list[dict[str, Any]] = []
    foot = draft.rings[0].min(axis=0)
    for ring in draft.rings:
        number, turned = _kind_of(ring - foot, kinds)
        role = {"tile": _role(number)} if number else {}
        places.append({**role, "turn": turned.turn, "at": turned.at})
    is_plain = places == [{"turn": 0.0, "at": (0.0, 0.0)}]
    faces = {} if is_plain else {"faces": tuple(places)}
    return DrawnCell(tuple(map(_as_points, kinds)), {"vectors": draft.vectors, **faces})


def draft_of(tile: Tile, layout: Layout, more: MoreTiles) -> Draft:
    """Return what a person goes on drawing from: the cell of a drawn layout, else the tile by itself."""
    if layout.pattern == NAME_IN_FILE:
        settings = settings_of(layout)
        assert isinstance(settings, Settings)
        if settings.vectors is not None:
            faces = faces_of(tile, settings, more)
            return Draft(tuple(_as_points(face.outline) for face in faces), settings.vectors, layout.joint)
    return draft_of_one(_as_points(tile_outline(tile)), layout.joint)


def draft_of_one(outline: tuple[Point, ...], joint: float) -> Draft:
    """Return an outline by itself with vectors that are found for it; side by side in its box if none are."""
    (left, bottom), (right, top) = np.min(outline, axis=0), np.max(outline, axis=0)
    boxed = Draft((outline,), ((float(right - left) + joint, 0.0), (0.0, float(top - bottom) + joint)), joint)
    return boxed if fit_of(boxed).fills else completed(boxed) or boxed


@dataclass(frozen=True)
class Turned:
    """How a ring becomes another: turned by `turn` degrees about (0, 0), which then stands `at`."""

    turn: float
    at: Point


def turned_onto(ring: Points, other: Points) -> Turned | None:
    """Return how a ring (n, 2) becomes another by turning and moving alone; None if it cannot.

    Of several ways the one of the least turn is returned, from 0 up to 360 degrees.
    """
    ways = (_way(ring, np.roll(other, -shift, axis=0)) for shift in range(len(other)))
    fitting = [way for way in ways if way is not None] if len(ring) == len(other) else []
    return min(fitting, key=lambda way: way.turn, default=None)


def _way(ring: Points, other: Points) -> Turned | None:
    """Return how a ring becomes another, its first corner the first of the other."""
    turn = round(degrees(_angle(other) - _angle(ring)) % 360.0, 6) % 360.0
    turned = ring @ turning(turn)
    x, y = (other - turned).mean(axis=0).round(_DECIMALS).tolist()
    is_there = np.abs(turned + np.array([x, y]) - other).max() < _SAME
    return Turned(turn, (x + 0.0, y + 0.0)) if is_there else None


def _kind_of(ring: Points, kinds: list[Points]) -> tuple[int, Turned]:
    """Return which kind a ring is and how it lies; a new kind is added to those there are."""
    for number, kind in enumerate(kinds):
        turned = turned_onto(kind, ring)
        if turned is not None:
            return number, turned
    x, y = ring.min(axis=0).round(_DECIMALS).tolist()
    kinds.append(ring - ring.min(axis=0))
    return len(kinds) - 1, Turned(0.0, (x + 0.0, y + 0.0))


def _as_points(ring: Points) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in ring.round(_DECIMALS) + 0.0)


def _angle(ring: Points) -> float:
    x, y = ring[1] - ring[0]
    return atan2(float(y), float(x))


def _role(number: int) -> str:
    return f"tile-{number + 1}"
