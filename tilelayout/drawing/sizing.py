"""The typed boxes of what is chosen: which there are, what stands in them, and the edit they ask for."""

from __future__ import annotations

import math
from collections.abc import Mapping

from msgspec.structs import replace

from tilelayout.drawing.events import Field
from tilelayout.drawing.moves import Edit, centred, ends_of, lengthened, placed, reshaped, title_of
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.stage import lower_left
from tilelayout.job.moved import moved_cutout
from tilelayout.job.values import Circle, Cutout, Point, Surface

Sizes = dict[Field, float]


def sizes_of(surface: Surface, pick: Pick) -> Sizes:
    """Return the sizes a person can type for a picked thing; places count from the surface's lower left."""
    match pick.kind:
        case PickKind.CORNER:
            return _place(surface, surface.outline[pick.index])
        case PickKind.EDGE if surface.edge(pick.index).through is None:
            return {Field.LENGTH: math.dist(*ends_of(surface, pick.index))}
        case PickKind.CUTOUT:
            return _sizes_of_cutout(surface, surface.cutouts[pick.index])
    return {}


def resized(surface: Surface, pick: Pick, typed: Mapping[Field, float]) -> tuple[str, Edit]:
    """Return name and edit that give a picked thing its typed sizes."""
    title = title_of(surface, pick)
    if pick.kind is PickKind.EDGE:
        outline = lengthened(surface, pick.index, typed[Field.LENGTH])
        return f"Set length of {title}", reshaped(surface, outline, {})
    if pick.kind is PickKind.CORNER:
        point = _typed_place(surface, surface.outline[pick.index], typed)
        return f"Move {title}", placed(surface, pick, point)
    cutout = _resized_cutout(surface, surface.cutouts[pick.index], typed)
    is_moved = typed.keys() <= {Field.X, Field.Y}
    return f"{'Move' if is_moved else 'Size'} {title}", reshaped(
        surface, surface.outline, {pick.index: cutout}
    )


def _place(surface: Surface, point: Point) -> Sizes:
    left, bottom = lower_left(surface)
    return {Field.X: point[0] - left, Field.Y: point[1] - bottom}


def _typed_place(surface: Surface, point: Point, typed: Mapping[Field, float]) -> Point:
    left, bottom = lower_left(surface)
    x = left + typed[Field.X] if Field.X in typed else point[0]
    y = bottom + typed[Field.Y] if Field.Y in typed else point[1]
    return (x, y)


def _sizes_of_cutout(surface: Surface, cutout: Cutout) -> Sizes:
    if cutout.circle is not None:
        return {**_place(surface, cutout.circle.centre), Field.DIAMETER: cutout.circle.diameter}
    (left, bottom), (right, top) = _bounds(cutout)
    place = _place(surface, (left, bottom))
    return (
        {**place, Field.WIDTH: right - left, Field.HEIGHT: top - bottom} if _is_rectangle(cutout) else place
    )


def _resized_cutout(surface: Surface, cutout: Cutout, typed: Mapping[Field, float]) -> Cutout:
    if cutout.circle is not None:
        diameter = typed.get(Field.DIAMETER, cutout.circle.diameter)
        round_one = replace(cutout, circle=Circle(centre=cutout.circle.centre, diameter=diameter))
        return centred(round_one, _typed_place(surface, cutout.circle.centre, typed))
    corner, far = _bounds(cutout)
    x, y = _typed_place(surface, corner, typed)
    if not typed.keys() & {Field.WIDTH, Field.HEIGHT}:
        return moved_cutout(cutout, (x - corner[0], y - corner[1]))
    right = x + typed.get(Field.WIDTH, far[0] - corner[0])
    top = y + typed.get(Field.HEIGHT, far[1] - corner[1])
    return replace(cutout, polygon=((x, y), (right, y), (right, top), (x, top)))


def _bounds(cutout: Cutout) -> tuple[Point, Point]:
    """Return the lower left and the upper right corner of a polygon's bounding box."""
    xs, ys = zip(*(cutout.polygon or ((0.0, 0.0),)), strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def _is_rectangle(cutout: Cutout) -> bool:
    (left, bottom), (right, top) = _bounds(cutout)
    corners = {(left, bottom), (right, bottom), (right, top), (left, top)}
    return len(cutout.polygon or ()) == 4 and set(cutout.polygon or ()) == corners
