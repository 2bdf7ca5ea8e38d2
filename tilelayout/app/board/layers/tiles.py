"""The laid tiles: whole ones quiet, cut ones tinted, slivers hatched and heavily outlined.

Three ways to paint the whole ones, by what is in sight: up to some hundreds as they are; more as a texture
of one period; tiles too small to tell apart as a flat tone. Cut pieces are always painted as they are.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath

from tilelayout.app.board.layers.chips import ChipJoints
from tilelayout.app.board.layers.groups import PieceGroups, face_paths
from tilelayout.app.board.layers.sheet import Sheets
from tilelayout.app.board.layers.shrinking import lack_of_joint, shrunk
from tilelayout.app.board.layers.sight import count_in_sight, whole_in_sight
from tilelayout.app.board.layers.texture import Period, Texture, period_of, texture_of
from tilelayout.app.board.view import Bounds, View
from tilelayout.app.paint.palette import Colours, mixed
from tilelayout.app.paint.paths import rings_path
from tilelayout.app.paint.strokes import hatch_brush, line_pen
from tilelayout.layout.laying import Laid
from tilelayout.planning.plan import Plan

Points = NDArray[np.float64]
K = TypeVar("K")
V = TypeVar("V")

MOST_PATHS = 800
"""With more whole tiles than this in sight the texture is used."""

FLAT_BELOW = 3.5
"""Tiles whose repeat is under this many px are shown as a tone."""


@dataclass(frozen=True, eq=False)
class _Near:
    """The whole tiles around what was in sight, so that a small pan needs no new ones."""

    bounds: Bounds
    draw_back: float
    paths: list[QPainterPath]

    def serves(self, bounds: Bounds, draw_back: float) -> bool:
        """Whether these will do for another sight."""
        mine = self.bounds
        is_inside = mine.left <= bounds.left and mine.bottom <= bounds.bottom
        return (
            draw_back == self.draw_back
            and is_inside
            and mine.right >= bounds.right
            and mine.top >= bounds.top
        )


class TileLayer:
    """Paints one plan; keeps what it made for it and for the latest zoom.

    `sheets` are kept from plan to plan.
    """

    def __init__(self, plan: Plan, sheets: Sheets) -> None:
        self._sheets = sheets
        laid = plan.laid
        self._laid: Laid = laid
        self._cut = PieceGroups(laid.cut_parts, ~plan.are_slivers)
        self._slivers = PieceGroups(laid.cut_parts, plan.are_slivers)
        self._region = rings_path(laid.region.rings)
        self._field = rings_path(laid.components[0].region.rings)
        self._chips = ChipJoints(laid.components[0])
        self._near: _Near | None = None

    def paint(self, painter: QPainter, rect: QRectF, view: View, colours: Colours, *, is_quick: bool) -> None:
        """Paint the tiles that are within the screen rectangle `rect`; `is_quick` in the middle of a drag."""
        bounds = Bounds(*view.surface_rect(rect))
        is_fine = _repeat(self._laid) * view.scale >= FLAT_BELOW
        painter.save()
        painter.setTransform(view.transform, True)
        if not is_fine:
            painter.fillPath(self._region, self._tone(colours))
        elif sum(count_in_sight(laid, bounds) for laid in self._laid.components) <= MOST_PATHS:
            self._paint_each(painter, bounds, view, colours)
        else:
            self._paint_many(painter, rect, view, colours, is_quick=is_quick)
        self._paint_cut(painter, bounds, colours, is_fine=is_fine)
        self._chips.paint(painter, bounds, view.scale, colours)
        painter.restore()

    def _tone(self, colours: Colours) -> QColor:
        """Return the tone of face and joint seen from afar."""
        (a, b), (c, d) = self._laid.placed_vectors
        share = float(self._laid.placed.areas.sum() / abs(a * d - b * c))
        return mixed(colours.colour("tile_joint"), colours.colour("tile_face"), share)

    def _paint_each(self, painter: QPainter, bounds: Bounds, view: View, colours: Colours) -> None:
        painter.fillPath(self._region, colours.colour("tile_joint"))
        draw_back = lack_of_joint(self._laid.cell.joint, view.scale)
        if self._near is None or not self._near.serves(bounds, draw_back):
            around = _grown(bounds)
            paths = [path for laid in self._laid.components for path in _whole_paths(laid, around, draw_back)]
            self._near = _Near(around, draw_back, paths)
        face = colours.colour("tile_face")
        for path in self._near.paths:
            painter.fillPath(path, face)

    def _paint_many(
        self, painter: QPainter, rect: QRectF, view: View, colours: Colours, *, is_quick: bool
    ) -> None:
        pixel_ratio = painter.device().devicePixelRatio()
        texture = _texture(self._laid, view.scale * pixel_ratio, colours)
        if texture is None:
            self._paint_each(painter, Bounds(*view.surface_rect(rect)), view, colours)
            return
        self._paint_border(painter, Bounds(*view.surface_rect(rect)), view, colours)
        painter.save()
        painter.setTransform(view.transform.inverted()[0], True)
        region, corner = view.transform.map(self._field), self._laid.placed_faces[0][0]
        brush = None
        if is_quick:
            box, at = region.boundingRect().intersected(rect), view.to_screen(*map(float, corner))
            brush = self._sheets.brush(texture, at, box, view.scale, pixel_ratio)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, brush is None)
        painter.fillPath(region, brush or texture.brush(corner, view.transform))
        painter.restore()

    def _paint_border(self, painter: QPainter, bounds: Bounds, view: View, colours: Colours) -> None:
        """Paint the whole tiles of a border as they are, below a field that is painted as a texture."""
        strips = self._laid.components[1:]
        if strips:
            painter.fillPath(self._region, colours.colour("tile_joint"))
        for strip in strips:
            for path in _whole_paths(strip, bounds, lack_of_joint(strip.cell.joint, view.scale)):
                painter.fillPath(path, colours.colour("tile_face"))

    def _paint_cut(self, painter: QPainter, bounds: Bounds, colours: Colours, *, is_fine: bool) -> None:
        tint, joint = colours.colour("cut_tint"), colours.colour("tile_joint")
        px = 1.0 / painter.worldTransform().m11()
        painter.setBrush(tint)
        painter.setPen(line_pen(joint, px) if is_fine else Qt.PenStyle.NoPen)
        for path in self._cut.paths_within(bounds):
            painter.drawPath(path)
        sliver = colours.colour("sliver")
        to_pixels = painter.worldTransform().inverted()[0]
        for brush in (mixed(tint, colours.colour("paper"), 0.5), hatch_brush(sliver, 6, 1.6)):
            if not isinstance(brush, QColor):
                brush.setTransform(to_pixels)
            painter.setBrush(brush)
            painter.setPen(line_pen(sliver, 2.4 * px) if not isinstance(brush, QColor) else Qt.PenStyle.NoPen)
            for path in self._slivers.paths_within(bounds):
                painter.drawPath(path)


def _whole_paths(laid: Laid, bounds: Bounds, draw_back: float) -> list[QPainterPath]:
    """Return the whole tiles of one lattice in sight as paths of neighbours."""
    return [path for face in whole_in_sight(laid, bounds, draw_back) for path in face_paths(face)]


_periods: dict[bytes, Period | None] = {}
_textures: dict[tuple[object, ...], Texture | None] = {}
"""Kept by what they are made of: a dragged start leaves them as they are."""

_MOST_KEPT = 32


def _texture(laid: Laid, px_per_mm: float, colours: Colours) -> Texture | None:
    """Return the picture of the pattern at a scale in device px; None if it has no small one."""
    face, joint = colours.colour("tile_face"), colours.colour("tile_joint")
    first = laid.placed_faces[0][0]
    faces = [outline - first for outline in laid.placed_faces]
    shape = np.round(np.vstack((laid.placed_vectors, *faces)), 6).tobytes()
    key = (shape, laid.cell.joint, px_per_mm, face.rgba(), joint.rgba())
    if key not in _textures:
        _make_room(_textures)
        period = _period(laid.placed_vectors)
        draw_back = lack_of_joint(laid.cell.joint, px_per_mm)
        small = [shrunk(outline, draw_back) for outline in faces]
        _textures[key] = (
            texture_of(small, laid.placed_vectors, period, px_per_mm, face, joint) if period else None
        )
    return _textures[key]


def _period(vectors: Points) -> Period | None:
    key = vectors.tobytes()
    if key not in _periods:
        _make_room(_periods)
        _periods[key] = period_of(vectors)
    return _periods[key]


def _make_room(kept: dict[K, V]) -> None:
    """Forget the oldest if there are many."""
    if len(kept) >= _MOST_KEPT:
        del kept[next(iter(kept))]


def _repeat(laid: Laid) -> float:
    """Return the size in mm of what repeats: the side of a square as large as a tile with its joint."""
    (a, b), (c, d) = laid.placed_vectors
    return float(np.sqrt(abs(a * d - b * c) / len(laid.cell.faces)))


def _grown(bounds: Bounds) -> Bounds:
    dx, dy = bounds.width / 2, bounds.height / 2
    return Bounds(bounds.left - dx, bounds.bottom - dy, bounds.right + dx, bounds.top + dy)
