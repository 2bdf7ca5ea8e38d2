"""Paints the paper and the room on it: all that stays as it is while the pointer moves.

What it makes for a plan (paths, textures, places for labels) is kept until another plan is shown.
"""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from tilelayout.app.bench import Stage
from tilelayout.app.board.layers.gauges import paint_gauge
from tilelayout.app.board.layers.ground import paint_dots, paint_ground
from tilelayout.app.board.layers.labels import LabelLayer
from tilelayout.app.board.layers.lengths import paint_lengths
from tilelayout.app.board.layers.reference_lines import paint_reference_lines
from tilelayout.app.board.layers.sheet import Sheets
from tilelayout.app.board.layers.start_lines import paint_start_lines
from tilelayout.app.board.layers.surface import paint_cutouts, paint_edges, paint_surface
from tilelayout.app.board.layers.tiles import TileLayer
from tilelayout.app.board.layers.trims import paint_trims
from tilelayout.app.board.shown import Shown
from tilelayout.app.board.surface_shape import SurfaceShape
from tilelayout.app.board.view import View
from tilelayout.app.look import Look, TextSize
from tilelayout.job.values import Visibility
from tilelayout.planning.joints import StartLine, start_lines
from tilelayout.planning.plan import Plan


class RoomPainter:
    """Paints what is shown of the room; `is_quick` leaves out the texts that would only flicker in a drag."""

    def __init__(self, look: Look) -> None:
        self._look = look
        self._plan: Plan | None = None
        self._sheets = Sheets()
        self._tiles: TileLayer | None = None
        self._labels: LabelLayer | None = None
        self._lines: tuple[StartLine, ...] = ()

    def paint(self, painter: QPainter, shown: Shown, view: View, rect: QRectF, *, is_quick: bool) -> None:
        """Paint what lies within the screen rectangle `rect`."""
        self._follow(shown.plan)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self._look.font(TextSize.SMALL))
        paint_ground(painter, rect, self._look)
        if shown.is_measured:
            paint_dots(painter, rect, view, shown.style, self._look)
        if shown.shape is not None:
            self._paint_room(painter, shown, shown.shape, view, rect, is_quick=is_quick)

    def _paint_room(
        self,
        painter: QPainter,
        shown: Shown,
        shape: SurfaceShape,
        view: View,
        rect: QRectF,
        *,
        is_quick: bool,
    ) -> None:
        look = self._look
        paint_surface(painter, shape, view, look)
        if shown.is_measured:
            paint_dots(painter, rect, view, shown.style, look)
        elif self._tiles is not None and shown.shows_tiles:
            self._tiles.paint(painter, rect, view, look, is_quick=is_quick)
        paint_cutouts(painter, shape, view, look)
        paint_edges(painter, shape, view, look)
        paint_trims(painter, shown, shape, view, look)
        if shown.is_measured:
            paint_lengths(painter, shape, view, shown.style, look)
        elif shown.plan is not None and shown.shows_tiles:
            self._paint_layout(painter, shown, shown.plan, view, rect, is_quick=is_quick)

    def _paint_layout(
        self, painter: QPainter, shown: Shown, plan: Plan, view: View, rect: QRectF, *, is_quick: bool
    ) -> None:
        look = self._look
        if shown.stage is not Stage.TILE and not is_quick:
            self._labels = self._labels or LabelLayer(plan)
            self._labels.paint(painter, rect, view, look)
        if shown.stage is not Stage.CUT and shown.shape is not None:
            for border in plan.borders:
                edge = shown.shape.edges[border.edge]
                is_sliver = border.least < plan.sliver_limit and edge.edge.seen is not Visibility.HIDDEN
                paint_gauge(painter, border, edge, view, shown.style, look, is_sliver=is_sliver)
        if shown.stage is Stage.SET_OUT:
            middle = view.to_screen(*shown.bounds.middle)
            paint_start_lines(painter, self._lines, middle, view, shown.style, look)
            paint_reference_lines(painter, plan, view, look)

    def _follow(self, plan: Plan | None) -> None:
        """Make the layers anew if the plan is another one."""
        if plan is self._plan:
            return
        self._plan = plan
        self._tiles = TileLayer(plan, self._sheets) if plan is not None else None
        self._labels = None
        self._lines = start_lines(plan) if plan is not None else ()
