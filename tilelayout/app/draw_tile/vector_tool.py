"""Drags the tip of a vector: to where tiles come to touch with their joint, level or plumb, on the grid."""

from __future__ import annotations

from functools import partial

from tilelayout.app.draw_tile.scratch import draft_in, with_vector
from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import Escaped, PointerMoved, PointerReleased
from tilelayout.drawing.features import joined, level_from
from tilelayout.drawing.preview import Preview, SnapKind, SnapMarker
from tilelayout.drawing.scene import Scene, SnapPoint
from tilelayout.drawing.stage import Stage, offer
from tilelayout.job.values import Point


def drag_vector(context: Context, number: int, origin: Point, touching: tuple[Point, ...]) -> Tool:
    """Take the tip of vector `number` along with the pointer until it is let go; Esc puts it back.

    `touching` are the vectors by which the tiles come to touch.
    """
    stage, before = Stage(context), draft_in(context.read_job()).vectors[number]
    scene, gesture = _scene(origin, touching), object()
    marker: SnapMarker | None = None
    while True:
        event = yield Preview(hint=f"Drag the tip of vector {number + 1}; Esc puts it back.", marker=marker)
        stage.takes(event, {})
        if isinstance(event, PointerMoved | PointerReleased):
            target = stage.snapped(scene)
            assert target is not None
            marker = target.marker
            yield from offer(_change(number, origin, target.point, gesture))
        if isinstance(event, Escaped):
            tip = (origin[0] + before[0], origin[1] + before[1])
            yield from offer(_change(number, origin, tip, gesture))
        if isinstance(event, Escaped | PointerReleased):
            return


def _change(number: int, origin: Point, tip: Point, gesture: object) -> Change:
    vector = (tip[0] - origin[0], tip[1] - origin[1])
    return Change(f"Move vector {number + 1}", partial(with_vector, number=number, vector=vector), gesture)


def _scene(origin: Point, touching: tuple[Point, ...]) -> Scene:
    places = tuple(
        SnapPoint(SnapKind.TILE, (origin[0] + x, origin[1] + y), "tiles touch with their joint")
        for x, y in touching
    )
    return joined([Scene(places), level_from(origin)])
