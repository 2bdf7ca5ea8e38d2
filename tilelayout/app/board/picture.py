"""Puts the parts of the board together: the room, what the tool shows over it, the poles at its sides."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from tilelayout.app.bench import Stage
from tilelayout.app.board.kept_room import KeptRoom
from tilelayout.app.board.layers.chosen import paint_chosen, paint_lit, paint_under
from tilelayout.app.board.layers.ghost import paint_ghost
from tilelayout.app.board.layers.heights import paint_sight
from tilelayout.app.board.layers.poles import POLE, paint_pole, paint_pole_pointer, strips
from tilelayout.app.board.layers.preview import paint_preview
from tilelayout.app.board.layers.sawn import paint_sawn
from tilelayout.app.board.overlays import Overlays
from tilelayout.app.board.shown import Shown
from tilelayout.app.board.view import View
from tilelayout.app.look import Look, TextSize
from tilelayout.app.paint.texts import paint_words
from tilelayout.drawing.preview import Preview
from tilelayout.planning.joints import RunningMarks, running_marks
from tilelayout.planning.plan import Plan


class Picture:
    """Paints the whole board."""

    def __init__(self, look: Look, over: Overlays) -> None:
        self._look = look
        self._over = over
        self._room = KeptRoom(look)
        self._plan: Plan | None = None
        self._marks: tuple[RunningMarks | None, RunningMarks | None] = (None, None)

    def forget(self) -> None:
        """Paint everything anew: the look has changed."""
        self._room.forget()

    def paint_room(
        self, painter: QPainter, shown: Shown, view: View, rect: QRectF, *, is_quick: bool
    ) -> None:
        """Paint the room within `rect`; `is_quick` leaves out what is not missed in a drag."""
        painter.setClipRect(rect)
        self._room.lay_down(painter, shown, view, rect, is_quick=is_quick)

    def paint_over(
        self,
        painter: QPainter,
        preview: Preview,
        lit: Iterable[str],
        shown: Shown,
        view: View,
        rect: QRectF,
    ) -> None:
        """Paint what is lit, chosen, pointed at and drawn, within `rect`."""
        look = self._look
        painter.setClipRect(rect)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(look.font(TextSize.SMALL))
        if self._over.survey is not None and shown.stage is Stage.SURFACE:
            paint_sight(painter, self._over.survey, shown, view, look)
        if self._over.ghost is not None and shown.surface is not None:
            paint_ghost(painter, self._over.ghost, shown.surface, view, look)
        if shown.stage is Stage.CUT:
            paint_sawn(painter, self._over.sawn, shown, view, look)
        paint_lit(painter, lit, shown, view, look)
        if preview.under is not None and preview.under not in preview.chosen:
            paint_under(painter, preview.under, shown, view, look)
        paint_chosen(painter, preview.chosen, shown, view, look)
        paint_preview(painter, _without_known_lengths(preview, shown), rect, view, look)
        painter.setClipping(False)

    def paint_poles(
        self, painter: QPainter, pointer: QPointF | None, shown: Shown, view: View, rect: QRectF
    ) -> None:
        """Paint the poles at the lower and left sides of the board `rect`, with the pointer on them."""
        painter.setFont(self._look.font(TextSize.SMALL))
        marks = self._marks_of(shown.plan) if shown.shows_tiles else (None, None)
        for strip, mark in zip(strips(rect.width(), rect.height()), marks, strict=True):
            painter.setClipRect(strip.rect)
            paint_pole(painter, strip, mark, shown, view, self._look)
            if pointer is not None:
                paint_pole_pointer(painter, strip, pointer, self._look)
        painter.setClipping(False)
        corner = QRectF(0.0, rect.height() - POLE, POLE, POLE)
        painter.fillRect(corner, self._look.colour("paper"))
        unit = shown.style.value if shown.style.is_metric else "in"
        paint_words(painter, corner.center(), unit, self._look.colour("faint_ink"))

    def _marks_of(self, plan: Plan | None) -> tuple[RunningMarks | None, RunningMarks | None]:
        if plan is not self._plan:
            self._plan = plan
            self._marks = (running_marks(plan, "x"), running_marks(plan, "y")) if plan else (None, None)
        return self._marks


def _without_known_lengths(preview: Preview, shown: Shown) -> Preview:
    """Leave out the lengths of edges where the room shows the lengths of all its edges anyway."""
    if not shown.is_measured or shown.surface is None:
        return preview
    corners = shown.surface.outline
    edges = {frozenset(pair) for pair in zip(corners, corners[1:] + corners[:1], strict=True)}
    new = tuple(each for each in preview.measures if frozenset((each.a, each.b)) not in edges)
    return replace(preview, measures=new)
