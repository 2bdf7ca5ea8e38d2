"""The frame that a border of tiles makes: the strips along the edges of a surface, and the field inside.

Edges that run straight on into each other, as wall, doorway and wall do, are one side, and so the border
runs past a doorway at the same distance. A strip is the band between two lines that keep their distance from
a side. Where two sides meet, their lines meet in two points; the line through these is where mitred strips
meet, and what the band is bounded by when the field is worked out, however the corner is made.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import NO_AREA, ON_EDGE, SAME_PLACE
from tilelayout.geometry.rings import cross
from tilelayout.job.kinds import BorderBegin, BorderCorners
from tilelayout.job.values import Border, EdgeRole, RectangleTile, Surface, Visibility
from tilelayout.layout.bordering import stretches_of
from tilelayout.layout.outlines import border_source, edge_source, mitre_source, rim_source
from tilelayout.layout.region import region_from
from tilelayout.layout.sides import Side, corner_between, is_inward_corner, meeting, sides_of
from tilelayout.layout.sources import Stretches, together
from tilelayout.layout.values import BorderEdge, Points, Region

Ends = tuple[Points, Points]
"""Where the outer and the inner line of a strip begin, or where they end."""

_SLIGHT = 0.1
"""The sine of a corner so slight that a strip which stops there ends square, as at an inward corner."""


@dataclass(frozen=True, eq=False)
class Strip:
    """One strip: the region it covers, the angle its tiles are laid at and the start of their rows."""

    region: Region
    angle: float
    start: tuple[float, float]


@dataclass(frozen=True, eq=False)
class Frame:
    """The strips of a border in their order round the room, and the field that they leave."""

    strips: tuple[Strip, ...]
    field: Region


@dataclass(frozen=True)
class Measures:
    """The sizes of a border: its tile, `joint`, and how far its `outer` and `inner` line lie from an edge."""

    tile: RectangleTile
    joint: float
    outer: float
    inner: float


def frame_of(surface: Surface, region: Region, border: Border, measures: Measures) -> Frame:
    """Return the frame of a border in a surface whose `region` takes tile.

    LayoutError, naming the edge, if the border cannot follow one: an arc, or a wall too short for it.
    """
    sides = sides_of(surface, frozenset(border.left_out))
    bands = [_band(sides, at, measures.outer, measures.inner) for at in _followed(sides)]
    strips = [_strip_ends(sides, at, border, measures) for at in _followed(sides)]
    _check_lengths(surface, sides, strips)
    _check_room(surface, sides, bands, measures.joint)
    made = [
        _strip(sides, at, ends, region, border, measures)
        for at, ends in zip(_followed(sides), strips, strict=True)
    ]
    return Frame(tuple(made), _field(sides, region, border, measures))


def _followed(sides: Sequence[Side]) -> list[int]:
    return [at for at, side in enumerate(sides) if side.is_followed]


def _band(sides: Sequence[Side], at: int, outer: float, inner: float) -> tuple[Ends, Ends]:
    """Return where the band between two lines begins and ends, up to the line where it meets the next."""
    side, before, after = sides[at], sides[at - 1], sides[(at + 1) % len(sides)]
    depths = (outer, inner)
    begins = (
        corner_between(before, side, depths)
        if before.is_followed
        else _free(side, before, depths, is_end=False)
    )
    ends = (
        corner_between(side, after, depths) if after.is_followed else _free(side, after, depths, is_end=True)
    )
    return begins, ends


def _free(side: Side, beside: Side, depths: tuple[float, float], *, is_end: bool) -> Ends:
    """Return the end of a strip beside an edge that the border does not follow.

    At an outward corner the strip runs on until its inner line meets that edge, and is cut along it; where
    the room goes on it ends square.
    """
    pair = (side, beside) if is_end else (beside, side)
    turn, ahead = float(cross(pair[0].way, pair[1].way)), float(pair[0].way @ pair[1].way)
    runs_on = max(ahead, 0.0) / turn * depths[1] if turn > _SLIGHT else 0.0
    along = side.length + runs_on if is_end else -runs_on
    return side.point(along, depths[0]), side.point(along, depths[1])


def _strip_ends(sides: Sequence[Side], at: int, border: Border, measures: Measures) -> tuple[Ends, Ends]:
    """Return where a strip begins and ends: as its band does, less what the corners take."""
    side, before, after = sides[at], sides[at - 1], sides[(at + 1) % len(sides)]
    begins, ends = _band(sides, at, measures.outer, measures.inner)
    if before.is_followed:
        begins = _turned(side, before, begins, border, measures, is_end=False)
    if after.is_followed:
        ends = _turned(side, after, ends, border, measures, is_end=True)
    return begins, ends


def _turned(
    side: Side, beside: Side, band: Ends, border: Border, measures: Measures, *, is_end: bool
) -> Ends:
    if border.corners is BorderCorners.MITRED:
        return _mitred(side, band, measures.joint, is_end=is_end)
    is_inward = is_inward_corner(side, beside) if is_end else is_inward_corner(beside, side)
    depths = measures.outer, measures.inner
    if _runs_through(side, beside, is_end=is_end):
        stop = measures.inner if is_inward else measures.outer
    else:
        stop = measures.outer - measures.joint if is_inward else measures.inner + measures.joint
    outer, inner = (meeting(side, depth, beside, stop) for depth in depths)
    return outer, inner


def _mitred(side: Side, band: Ends, joint: float, *, is_end: bool) -> Ends:
    """Return the end of a strip half a joint short of the line where two strips meet."""
    mitre = (band[1] - band[0]) / np.hypot(*(band[1] - band[0]))
    back = side.way * (joint / 2 / abs(float(cross(mitre, side.way))))
    by = -back if is_end else back
    return band[0] + by, band[1] + by


def _runs_through(side: Side, beside: Side, *, is_end: bool) -> bool:
    """Claim that of two sides that meet this one runs through: the longer, of equal ones the first."""
    longer = side.length - beside.length
    return longer > ON_EDGE or (abs(longer) <= ON_EDGE and is_end)


def _check_lengths(surface: Surface, sides: Sequence[Side], strips: list[tuple[Ends, Ends]]) -> None:
    for at, (begins, ends) in zip(_followed(sides), strips, strict=True):
        if any(
            float((end - begin) @ sides[at].way) < SAME_PLACE for begin, end in zip(begins, ends, strict=True)
        ):
            raise LayoutError(
                f"{called(surface, sides[at].edges[0])} of {surface.title} is too short for the border.",
                f"Leave edge {sides[at].edges[0] + 1} out of the border, or make the border narrower.",
            )


def _check_room(
    surface: Surface, sides: Sequence[Side], bands: list[tuple[Ends, Ends]], joint: float
) -> None:
    """Raise LayoutError if two strips meet anywhere but where their sides do."""
    followed, shapes = _followed(sides), [shapely.Polygon(_around(band)) for band in bands]
    for (one, first), (two, second) in combinations(zip(followed, shapes, strict=True), 2):
        are_neighbours = two - one == 1 or (one == 0 and two == len(sides) - 1)
        too_near = (
            first.intersection(second).area > NO_AREA
            if are_neighbours
            else first.dwithin(second, joint - SAME_PLACE)
        )
        if too_near:
            raise LayoutError(
                f"There is no room for the border between {_called_within(surface, sides[one])} "
                f"and {_called_within(surface, sides[two])} of {surface.title}.",
                "Leave one of the two out of the border, or make the border narrower.",
            )


def called(surface: Surface, edge: int) -> str:
    """Return what to call an edge at the beginning of a sentence; people count edges from one."""
    return surface.edge(edge).name or f"Edge {edge + 1}"


def _called_within(surface: Surface, side: Side) -> str:
    return surface.edge(side.edges[0]).name or f"edge {side.edges[0] + 1}"


def _around(band: tuple[Ends, Ends]) -> Points:
    (outer_begin, inner_begin), (outer_end, inner_end) = band
    return np.array([outer_begin, outer_end, inner_end, inner_begin])


def _strip(
    sides: Sequence[Side],
    at: int,
    ends: tuple[Ends, Ends],
    region: Region,
    border: Border,
    measures: Measures,
) -> Strip:
    side, ring = sides[at], _around(ends)
    shape = shapely.intersection(shapely.Polygon(ring), region.shape)
    beside = _beside(sides, at, border)
    own = Stretches(ring, np.roll(ring, -1, axis=0), tuple(_line(source) for source in beside))
    begin = side.point(_first_tile(side, ends, border, measures), measures.outer)
    angle = float(np.degrees(np.arctan2(side.way[1], side.way[0]))) % 360.0
    return Strip(
        region_from(shape, together([stretches_of(region), own])), angle, (float(begin[0]), float(begin[1]))
    )


def _beside(sides: Sequence[Side], at: int, border: Border) -> tuple[str, str, str, str]:
    """Return what the sides of a strip are cut along: outer side, end, inner side, beginning."""
    edges = sides[at].edges
    outer = rim_source(edges[0]) if border.inset > 0 else edge_source(edges[0])
    end = _end_source(sides[at], sides[(at + 1) % len(sides)], border, is_end=True)
    begin = _end_source(sides[at], sides[at - 1], border, is_end=False)
    return outer, end, border_source(edges[0]), begin


def _end_source(side: Side, beside: Side, border: Border, *, is_end: bool) -> str:
    own, other = (side.edges[-1], beside.edges[0]) if is_end else (side.edges[0], beside.edges[-1])
    if not beside.is_followed:
        return edge_source(other)
    if border.corners is BorderCorners.MITRED:
        return mitre_source(own)
    if not _runs_through(side, beside, is_end=is_end):
        return border_source(other)
    return rim_source(other) if border.inset > 0 else edge_source(other)


def _line(source: str) -> BorderEdge:
    return BorderEdge(source, EdgeRole.WALL, Visibility.ORDINARY)


def _first_tile(side: Side, ends: tuple[Ends, Ends], border: Border, measures: Measures) -> float:
    """Return how far along its side a tile of the strip begins.

    Balanced, a tile or a joint stands in the middle, whichever leaves the longer pieces at the ends.
    """
    begins, stops = (np.array([side.along(point) for point in pair]) for pair in ends)
    if border.begin is BorderBegin.CORNER:
        return float(begins.min())
    middle, half = float(begins.mean() + stops.mean()) / 2, (stops - begins) / 2
    lines = half[0] + np.linspace(0.0, 1.0, border.rows + 1) * (half[1] - half[0])
    halves = np.maximum(lines[:-1], lines[1:])  # the longer line of each row, to the tip of a mitred piece
    length, joint = measures.tile.length, measures.joint
    beside_tile = _end_piece(halves - length / 2 - joint, length, joint)
    beside_joint = _end_piece(halves - joint / 2, length, joint)
    return middle - length / 2 if beside_tile >= beside_joint else middle + joint / 2


def _end_piece(stretches: Points, length: float, joint: float) -> float:
    """Return the shortest piece that ends a row of tiles of `length` in one of the stretches (n,)."""
    rest = stretches % (length + joint)
    return float(np.where(rest < SAME_PLACE, length, np.minimum(rest, length)).min())


def _field(sides: Sequence[Side], region: Region, border: Border, measures: Measures) -> Region:
    """Return what the border leaves to the field; without an inset nothing between it and the wall.

    LayoutError if that is nothing.
    """
    outer = measures.outer if border.inset > 0 else 0.0
    bands = [shapely.Polygon(_around(_band(sides, at, outer, measures.inner))) for at in _followed(sides)]
    taken = shapely.union_all(bands, grid_size=SAME_PLACE / 10)
    taken = shapely.buffer(taken, measures.joint, join_style="mitre", mitre_limit=10.0)
    lines = list(_field_lines(sides, border, measures))
    field = region_from(shapely.difference(region.shape, taken), together([*lines, stretches_of(region)]))
    if not field.rings:
        raise LayoutError("The border leaves nothing for the field.", "Make the border narrower.")
    return field


def _field_lines(sides: Sequence[Side], border: Border, measures: Measures) -> Iterator[Stretches]:
    """The lines that the field can be cut along: inside of the border, and outside of it if it is inset."""
    depths = [(measures.inner + measures.joint, border_source)]
    if border.inset > 0:
        depths.append((measures.outer - measures.joint, rim_source))
    for at in _followed(sides):
        side = sides[at]
        for depth, source in depths:
            (begin, _), (end, _) = _band(sides, at, depth, depth + 1.0)
            inner = [side.point(along, depth) for along in side.corners[1:-1]]
            points = np.array([begin, *inner, end])
            borders = tuple(_line(source(edge)) for edge in side.edges)
            yield Stretches(points[:-1], points[1:], borders)
        (begins, ends) = _band(sides, at, measures.outer, measures.inner)
        for pair, by, edge in ((begins, -1.0, side.edges[0]), (ends, 1.0, side.edges[-1])):
            moved = np.array(pair) + by * measures.joint * side.way
            yield Stretches(moved[:1], moved[1:], (_line(border_source(edge)),))
