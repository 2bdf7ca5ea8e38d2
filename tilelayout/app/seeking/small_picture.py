"""A small picture of a layout and its key figures in words, to choose one of several from.

Both are made off the window's thread, since the layout has to be laid for them; so nothing here touches a
widget.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen

from tilelayout.app.board.surface_shape import shape_of
from tilelayout.app.board.view import View, fitted
from tilelayout.app.paint.paths import polygons_path, rings_path
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import format_length
from tilelayout.job.values import Job
from tilelayout.planning.plan import Plan, plan

ROLES = ("paper", "tile_face", "tile_joint", "cut_tint", "sliver", "wall", "cutout")
"""The roles of the colours that a picture needs."""

_MOST_FACES = 4000
"""Whole tiles beyond this many would only be grey: the floor is then one tone."""

_MARGIN = 2.0


@dataclass(frozen=True, eq=False)
class SmallPicture:
    """The picture of the layout `id`, and its figures: "no slivers, narrowest 243 mm, 31 tiles, 14 cut"."""

    id: str
    image: QImage
    figures: str


def small_pictures(
    job: Job, ids: tuple[str, ...], colours: Mapping[str, QColor], size: QSize, ratio: float
) -> Iterator[tuple[SmallPicture, ...]]:
    """Yield the pictures made so far, `size` device-independent px each; none of what cannot be laid."""
    made: list[SmallPicture] = []
    for id in ids:
        try:
            laid = plan(job, id)
            made.append(SmallPicture(id, _painted(laid, colours, size, ratio), figures_in_words(laid)))
        except TileLayoutError:
            continue
        yield tuple(made)


def figures_in_words(made: Plan) -> str:
    """Return the key figures of a plan in one line."""
    count = len(made.slivers)
    slivers = f"{count} sliver{'s'[: count != 1]}" if count else "No slivers"
    narrowest = [] if made.narrowest is None else [f"narrowest {format_length(made.narrowest, made.style)}"]
    return ", ".join([slivers, *narrowest, f"{made.tiles_needed} tiles", f"{made.cut} cut"])


def _painted(made: Plan, colours: Mapping[str, QColor], size: QSize, ratio: float) -> QImage:
    image = QImage(size * ratio, QImage.Format.Format_ARGB32_Premultiplied)
    image.setDevicePixelRatio(ratio)
    image.fill(colours["paper"])
    shape = shape_of(made.surface)
    view = fitted(shape.bounds, QRectF(0.0, 0.0, size.width(), size.height()), _MARGIN)
    with QPainter(image) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        _paint_tiles(painter, made, view, colours)
        for ring in shape.cutouts:
            painter.fillPath(rings_path([view.all_to_screen(ring)]), colours["cutout"])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(colours["wall"], 1.5))
        painter.drawPath(rings_path([view.all_to_screen(shape.ring)]))
    return image


def _paint_tiles(painter: QPainter, made: Plan, view: View, colours: Mapping[str, QColor]) -> None:
    laid = made.laid
    region = rings_path([view.all_to_screen(ring) for ring in made.region.rings])
    painter.fillPath(region, colours["tile_joint" if laid.whole_count <= _MOST_FACES else "tile_face"])
    if laid.whole_count <= _MOST_FACES:
        for faces in laid.whole_faces:
            on_screen = view.all_to_screen(faces.reshape(-1, 2)).reshape(faces.shape)
            painter.fillPath(polygons_path(np.asarray(on_screen)), colours["tile_face"])
    slivers = made.sliver_ids
    for role, is_sliver in (("cut_tint", False), ("sliver", True)):
        rings = [view.all_to_screen(each.outline) for each in laid.cut if (each.id in slivers) is is_sliver]
        if rings:
            painter.fillPath(rings_path(rings), colours[role])
