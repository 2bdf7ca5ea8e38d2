"""Moving what was chosen: the edit that puts it there, always counted from where it was at first.

Each edit is made from the surface as it was when the move began, so the steps of a drag do not add up their
rounding, and moving by nothing is the edit that leads back.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from functools import partial

from msgspec.structs import replace

from tilelayout.drawing.features import cutout_centre, middle, unit
from tilelayout.drawing.naming import corner_title, cutout_title, edge_title
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.placing import Direction
from tilelayout.job.edits.corners import bent_along
from tilelayout.job.edits.surfaces import delete_corner, remove_cutout, replace_cutout, set_outline
from tilelayout.job.moved import moved_cutout
from tilelayout.job.values import Circle, Cutout, Job, Point, Surface

Edit = Callable[[Job], Job]
Outline = tuple[Point, ...]


def title_of(surface: Surface, pick: Pick) -> str:
    """Return what to call a picked thing in front of a person."""
    match pick.kind:
        case PickKind.CORNER:
            return corner_title(pick.index)
        case PickKind.EDGE:
            return edge_title(surface, pick.index)
        case PickKind.CUTOUT:
            return cutout_title(surface.cutouts[pick.index], pick.index)
        case PickKind.PIECE:
            return f"piece {pick.id}"
        case PickKind.START:
            return "start"


def title_of_all(surface: Surface, picks: tuple[Pick, ...]) -> str:
    """Return the name of the only pick, or how many there are."""
    return title_of(surface, picks[0]) if len(picks) == 1 else f"{len(picks)} things"


def is_there(surface: Surface, pick: Pick) -> bool:
    """Whether the surface still has what was picked."""
    if pick.surface != surface.id:
        return False
    counts = {
        PickKind.CORNER: len(surface.outline),
        PickKind.EDGE: len(surface.outline),
        PickKind.CUTOUT: len(surface.cutouts),
    }
    return pick.index < counts.get(pick.kind, pick.index + 1)


def place_of(surface: Surface, pick: Pick) -> Point:
    """Return the point that stands for a corner, an edge (its middle) or a cutout (its centre)."""
    if pick.kind is PickKind.CORNER:
        return surface.outline[pick.index]
    if pick.kind is PickKind.EDGE:
        return middle(*ends_of(surface, pick.index))
    return cutout_centre(surface.cutouts[pick.index])


def ends_of(surface: Surface, at: int) -> tuple[Point, Point]:
    """Return the two corners of edge `at`."""
    return surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]


def corners_of(surface: Surface, picks: Iterable[Pick]) -> frozenset[int]:
    """Return the corners that move with the picks: corners, and the ends of edges."""
    corners = set()
    for pick in picks:
        if pick.kind in (PickKind.CORNER, PickKind.EDGE):
            corners.add(pick.index)
        if pick.kind is PickKind.EDGE:
            corners.add((pick.index + 1) % len(surface.outline))
    return frozenset(corners)


def cutouts_of(picks: Iterable[Pick]) -> frozenset[int]:
    """Return the numbers of the cutouts among the picks."""
    return frozenset(pick.index for pick in picks if pick.kind is PickKind.CUTOUT)


def shifted(surface: Surface, picks: tuple[Pick, ...], by: Point) -> Edit:
    """Return the edit that moves all picks by (x, y) mm."""
    corners = corners_of(surface, picks)
    outline = tuple(
        (x + by[0], y + by[1]) if at in corners else (x, y) for at, (x, y) in enumerate(surface.outline)
    )
    cutouts = {at: moved_cutout(surface.cutouts[at], by) for at in cutouts_of(picks)}
    return reshaped(surface, outline, cutouts)


def placed(surface: Surface, pick: Pick, point: Point) -> Edit:
    """Return the edit that puts a corner, or the centre of a cutout, exactly at a point."""
    if pick.kind is PickKind.CORNER:
        outline = (*surface.outline[: pick.index], point, *surface.outline[pick.index + 1 :])
        return reshaped(surface, outline, {})
    return reshaped(surface, surface.outline, {pick.index: centred(surface.cutouts[pick.index], point)})


def centred(cutout: Cutout, point: Point) -> Cutout:
    """Return the cutout with its centre at a point."""
    if cutout.circle is not None:
        return replace(cutout, circle=Circle(centre=point, diameter=cutout.circle.diameter))
    x, y = cutout_centre(cutout)
    return moved_cutout(cutout, (point[0] - x, point[1] - y))


def reshaped(surface: Surface, outline: Outline, cutouts: dict[int, Cutout]) -> Edit:
    """Return the edit that gives the surface a new outline, its arcs carried along, and new cutouts."""
    return partial(_put, before=surface, outline=outline, cutouts=cutouts)


def _put(job: Job, before: Surface, outline: Outline, cutouts: dict[int, Cutout]) -> Job:
    now = next((surface for surface in job.surfaces if surface.id == before.id), None)
    if now is None or now.outline != outline:
        edges = bent_along(before.edges, before.outline, outline)
        job = set_outline(job, before.id, outline, edges)
    for at, cutout in cutouts.items():
        job = replace_cutout(job, before.id, at, cutout)
    return job


def restored(before: Surface) -> Edit:
    """Return the edit that gives the surface back as it was, the very same value."""
    return partial(_put_back, before=before)


def _put_back(job: Job, before: Surface) -> Job:
    surfaces = tuple(before if surface.id == before.id else surface for surface in job.surfaces)
    return replace(job, surfaces=surfaces)


def slid(surface: Surface, at: int, offset: float) -> Outline:
    """Return the outline with edge `at` moved parallel to itself by `offset` to its left.

    Its ends slide along the neighbouring edges, which keep their direction; where a neighbour is an arc or
    runs parallel, the end moves straight.
    """
    count = len(surface.outline)
    a, b = ends_of(surface, at)
    direction = unit(a, b)
    shift = (-direction[1] * offset, direction[0] * offset)
    outline = list(surface.outline)
    outline[at] = _slid_end(surface, (at - 1) % count, a, shift, direction)
    outline[(at + 1) % count] = _slid_end(surface, (at + 1) % count, b, shift, direction)
    return tuple(outline)


def _slid_end(surface: Surface, beside: int, end: Point, shift: Point, direction: Direction) -> Point:
    moved = (_rounded(end[0] + shift[0]), _rounded(end[1] + shift[1]))
    along = unit(*ends_of(surface, beside))
    cross = direction[0] * along[1] - direction[1] * along[0]
    if surface.edge(beside).through is not None or abs(cross) < 1e-6:
        return moved
    t = (shift[1] * direction[0] - shift[0] * direction[1]) / cross
    return (_rounded(end[0] + t * along[0]), _rounded(end[1] + t * along[1]))


def _rounded(coordinate: float) -> float:
    """Rid a sum of its last digits, far below anything real, so that a round length stays round."""
    return round(coordinate, 9)


def lengthened(surface: Surface, at: int, length: float) -> Outline:
    """Return the outline with edge `at` of another length: the next edge moves parallel to itself."""
    count = len(surface.outline)
    a, b = ends_of(surface, at)
    direction, following = unit(a, b), (at + 1) % count
    end = (a[0] + direction[0] * length, a[1] + direction[1] * length)
    ahead = unit(*ends_of(surface, following))
    offset = (end[1] - b[1]) * ahead[0] - (end[0] - b[0]) * ahead[1]
    outline = list(slid(surface, following, offset))
    outline[following] = end
    return tuple(outline)


def without(surface: Surface, picks: tuple[Pick, ...]) -> Edit | None:
    """Return the edit that removes the corners and cutouts among the picks; None if there are none."""
    removable = {pick for pick in picks if pick.kind in (PickKind.CORNER, PickKind.CUTOUT)}
    highest_first = sorted(removable, key=lambda pick: -pick.index)
    return partial(_remove, picks=tuple(highest_first)) if removable else None


def _remove(job: Job, picks: tuple[Pick, ...]) -> Job:
    for pick in picks:
        remove = delete_corner if pick.kind is PickKind.CORNER else remove_cutout
        job = remove(job, pick.surface, pick.index)
    return job


def distance_between(surface: Surface, one: Pick, other: Pick) -> tuple[Point, Point] | None:
    """Return the two places whose distance is shown while two things are chosen."""
    if PickKind.PIECE in (one.kind, other.kind) or PickKind.START in (one.kind, other.kind):
        return None
    a, b = place_of(surface, one), place_of(surface, other)
    return (a, b) if math.dist(a, b) > 0 else None
