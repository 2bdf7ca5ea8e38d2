"""Strips sawn from the tile itself for bases, caps, thresholds and returns: which, and how many a tile gives.

A strip is as long as the tile at the most, so a run is a row of strips with joints between them. Ends at a
joint are factory ends; so only the first and the last strip of a run are sawn to length, at its two ends, and
are equal where one would otherwise be short.

A tile gives floor((W + k) / (h + k)) strips of height h across its width W with kerf k if any edge may be
sawn. If each strip shows a factory edge along its length the tile has only two such edges to give: two strips
at the most, one if its face has a direction and cannot be turned.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, radians, tan

import numpy as np

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.ground import Trim
from tilelayout.job.kinds import TrimCorners, TrimKind
from tilelayout.job.values import RectangleTile, Surface, SurfaceKind, Tile
from tilelayout.layout.trim_runs import Run, runs_of
from tilelayout.layout.values import Points

BOTTOM, RIGHT, TOP, LEFT = range(4)
"""The sides of a strip: side k of its outline leads from corner k to corner k + 1."""

_SHORTEST_SHARE = 1 / 3
"""A last strip shorter than this share of the tile is evened out with the first. Common practice."""


@dataclass(frozen=True, eq=False)
class Strip:
    """One strip to saw from a tile, face up, its length along x from the lower left corner (0, 0).

    `outline` (4, 2) runs counter-clockwise from there; of its sides those in `factory_sides` must be factory
    edges. It stands along `edges` of the surface. `bevels` are the degrees by which its left and right end
    are mitred through the thickness, 0 for a square end: positive where the back is the longer side.
    """

    edges: tuple[int, ...]
    outline: Points
    factory_sides: frozenset[int]
    bevels: tuple[float, float] = (0.0, 0.0)

    @property
    def length(self) -> float:
        """The length of tile that the strip takes."""
        return float(np.ptp(self.outline[:, 0]))


@dataclass(frozen=True)
class StripsOfATile:
    """How many strips of a height one tile gives, and whether that is so for want of factory edges.

    `if_all_sawn` would come out of it if any edge might be sawn.
    """

    count: int
    if_all_sawn: int

    @property
    def wants_factory_edges(self) -> bool:
        """Whether more would come out of the tile but for the factory edge that each strip must show."""
        return self.count < self.if_all_sawn


def strips_of_a_tile(tile: Tile, trim: Trim, kerf: float) -> StripsOfATile:
    """Return how many strips one tile gives. LayoutError if the tile gives none."""
    _, width = strip_sizes(tile)
    fit = floor((width + kerf + SAME_PLACE) / (trim.height + kerf))
    if fit == 0:
        what = f"No strip of {trim.height:g} mm can be sawn from a tile {width:g} mm wide."
        raise LayoutError(what, "Make the trim lower or choose another tile.")
    edges_to_show = 1 if tile.directional else 2
    return StripsOfATile(min(fit, edges_to_show) if trim.factory_edge_up else fit, fit)


def strip_sizes(tile: Tile) -> tuple[float, float]:
    """Return how long a strip of the tile can be, and the width across. LayoutError if no rectangle."""
    if not isinstance(tile, RectangleTile):
        raise LayoutError(
            f"Strips are not sawn from a tile of this shape (“{tile.title}”).", "Choose a rectangle."
        )
    return max(tile.length, tile.width), min(tile.length, tile.width)


def strips_of(surface: Surface, trim: Trim, tile: Tile, joint: float) -> tuple[Strip, ...]:
    """Return all strips that a trim wants, run by run. LayoutError if the tile gives no strip."""
    strip_sizes(tile)
    runs = runs_of(surface, trim)
    return tuple(strip for run in runs for strip in _strips_of_run(run, surface, trim, tile, joint))


def stands(surface: Surface, trim: Trim) -> bool:
    """Tell whether the strips stand up against the walls of a floor; all others lie flat on the surface."""
    return trim.kind is TrimKind.BASE and surface.kind is SurfaceKind.FLOOR


def run_length(run: Run, surface: Surface, trim: Trim, tile: Tile, joint: float) -> float:
    """Return how far the strips of a run reach, once its corners have given and taken.

    With butts a run is behind the one before it: at an inside corner it loses that one's depth and a joint.
    At an outside corner it is the run before that reaches past the corner, by its depth.
    """
    deep = tile.thickness if stands(surface, trim) else trim.height
    before, behind = run.turns
    if trim.corners is TrimCorners.MITRE:
        past = sum(deep * tan(radians(-turn / 2)) for turn in run.turns if turn < 0)
        return run.length + past
    lost = deep + joint if before > 0 else 0.0
    return run.length - lost + (deep if behind < 0 else 0.0)


def run_begins(run: Run, surface: Surface, trim: Trim, tile: Tile, joint: float) -> float:
    """Return where the strips of a run begin, in mm along it: below 0 where they reach past a corner."""
    deep = tile.thickness if stands(surface, trim) else trim.height
    before = run.turns[0]
    if trim.corners is TrimCorners.MITRE:
        return deep * tan(radians(before / 2)) if before < 0 else 0.0
    return deep + joint if before > 0 else 0.0


def lengths_along(reach: float, longest: float, joint: float) -> tuple[float, ...]:
    """Return the lengths of the strips of a run, from one end to the other, joints between them.

    >>> lengths_along(1000.0, 298.0, 2.0)
    (298.0, 298.0, 298.0, 100.0)
    >>> lengths_along(920.0, 298.0, 2.0)
    (159.0, 298.0, 298.0, 159.0)
    """
    number = max(1, ceil((reach + joint - SAME_PLACE) / (longest + joint)))
    last = reach - (number - 1) * (longest + joint)
    if number == 1 or last >= longest * _SHORTEST_SHARE:
        return (*[longest] * (number - 1), last)
    end = (longest + last) / 2
    return (end, *[longest] * (number - 2), end)


def _strips_of_run(run: Run, surface: Surface, trim: Trim, tile: Tile, joint: float) -> tuple[Strip, ...]:
    longest, _ = strip_sizes(tile)
    reach = run_length(run, surface, trim, tile, joint)
    lengths = lengths_along(reach, longest, joint) if reach > SAME_PLACE else ()
    last, angles = len(lengths) - 1, _mitres(run, trim)
    made = []
    for at, length in enumerate(lengths):
        ends = (angles[0] if at == 0 else 0.0, angles[1] if at == last else 0.0)
        sides = {TOP} if trim.factory_edge_up else set()
        sides |= ({LEFT} if at > 0 else set()) | ({RIGHT} if at < last else set())
        made.append(_strip(run, length, trim.height, ends, frozenset(sides), stands(surface, trim)))
    return tuple(made)


def _mitres(run: Run, trim: Trim) -> tuple[float, float]:
    """Return half the turn at either end if the corners are mitred."""
    if trim.corners is TrimCorners.BUTT:
        return 0.0, 0.0
    return run.turns[0] / 2, run.turns[1] / 2


def _strip(
    run: Run, length: float, height: float, ends: tuple[float, float], sides: frozenset[int], is_up: bool
) -> Strip:
    """Return a strip: mitred through the thickness if it stands up, across its face if it lies flat.

    The outer edge of a flat strip, along the surface's edge, is its lower one.
    """
    if is_up:
        outline = np.array([(0.0, 0.0), (length, 0.0), (length, height), (0.0, height)])
        return Strip(run.edges, outline, sides, ends)
    left, right = (height * tan(radians(angle)) for angle in ends)
    low, high = (max(0.0, -left), length - max(0.0, -right)), (max(0.0, left), length - max(0.0, right))
    outline = np.array([(low[0], 0.0), (low[1], 0.0), (high[1], height), (high[0], height)])
    return Strip(run.edges, outline, sides)


@dataclass
class _Row:
    """A strip's height of one tile: the length still to be had, and the factory ends not yet given."""

    room: float
    ends: set[int]

    def takes(self, strip: Strip, kerf: float) -> bool:
        """Take the strip out of the row if it can be had there; tell whether it could."""
        wanted = strip.factory_sides & {LEFT, RIGHT}
        if TOP not in strip.factory_sides and len(wanted) == 1 and not wanted <= self.ends:
            wanted = frozenset({LEFT, RIGHT}) - wanted
        if strip.length > self.room + SAME_PLACE or not wanted <= self.ends:
            return False
        self.room -= strip.length + kerf
        self.ends -= wanted
        return True


def tiles_for(strips: tuple[Strip, ...], tile: Tile, trim: Trim, kerf: float) -> int:
    """Return how many tiles give these strips, each strip in the first row of a tile that can give it.

    Longest first; a row has one left and one right factory end to give. LayoutError if the tile gives none.
    """
    longest, _ = strip_sizes(tile)
    rows: list[_Row] = []
    for strip in sorted(strips, key=lambda strip: -strip.length):
        if not any(row.takes(strip, kerf) for row in rows):
            rows.append(_Row(longest, {LEFT, RIGHT}))
            rows[-1].takes(strip, kerf)
    return ceil(len(rows) / strips_of_a_tile(tile, trim, kerf).count)
