"""Points out one place whose height a fill is to meet: a doorway or drain near by, else the very point."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import dist, hypot

from msgspec.structs import replace

from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import Escaped, Pointer, PointerPressed
from tilelayout.drawing.preview import PointerShape, Preview
from tilelayout.drawing.stage import offer
from tilelayout.job.edits.readings import set_preparation, survey_of
from tilelayout.job.preparation import GivenHeight, Preparation
from tilelayout.job.values import Job, Point

POINT_OUT = "point_out"
"""What a board calls the tool; it is made with what the surface offers, so it is not always there."""

_HINT = "Click the place whose height the plane is to meet: a doorway, a drain, or any point. Esc leaves it."


def point_out(context: Context, offered: Callable[[], tuple[GivenHeight, ...]]) -> Tool:
    """Add the place that is clicked to the heights to meet; its height is typed afterwards."""
    trouble = ""
    while True:
        event = yield Preview(hint=_HINT, trouble=trouble, pointer=PointerShape.CROSS)
        if isinstance(event, Escaped):
            return
        surface = context.surface_id
        if isinstance(event, PointerPressed) and surface is not None:
            given = _pointed_at(event, offered(), context.snap_px)
            trouble = yield from offer(
                Change("Meet a height", partial(_meeting, surface=surface, given=given))
            )
            if not trouble:
                return


def _meeting(job: Job, surface: str, given: GivenHeight) -> Job:
    """The job with one more height to meet on a surface."""
    survey = survey_of(job, surface)
    asked = (survey.preparation if survey else None) or Preparation()
    return set_preparation(job, surface, replace(asked, meets=(*asked.meets, given)))


def _pointed_at(press: Pointer, offered: tuple[GivenHeight, ...], snap_px: float) -> GivenHeight:
    """The offered place within reach, else the point itself; its height is nought until it is typed."""
    off = [max(_off(press.point, each) - each.across / 2.0, 0.0) * press.px_per_mm for each in offered]
    near = [each for each, px in zip(offered, off, strict=True) if px <= snap_px]
    if near and not press.snaps_suspended:
        return replace(near[0], height=0.0)
    x, y = press.point
    return GivenHeight(at=(round(x), round(y)), height=0.0)


def _off(point: Point, given: GivenHeight) -> float:
    """How far a point is from a place, which may be a line."""
    (ax, ay), (bx, by) = given.at, given.to or given.at
    length = hypot(bx - ax, by - ay)
    if length == 0.0:
        return dist(point, given.at)
    share = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / length**2
    share = min(max(share, 0.0), 1.0)
    return dist(point, (ax + share * (bx - ax), ay + share * (by - ay)))
