"""The board of the sheet: the cell to scale, drawn on with the tools that draw a room."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial

import shapely
from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from tilelayout.app.bench import Stage
from tilelayout.app.board.hand import Hand
from tilelayout.app.board.layers.chosen import paint_chosen, paint_under
from tilelayout.app.board.layers.ground import paint_dots, paint_ground
from tilelayout.app.board.layers.preview import paint_preview
from tilelayout.app.board.navigator import STEP, Navigator
from tilelayout.app.board.shown import shown_of
from tilelayout.app.board.touch import Touch, is_for_touch
from tilelayout.app.board.typed_boxes import TypedBoxes
from tilelayout.app.board.view import View
from tilelayout.app.draw_tile.cell_painter import (
    bounds_of,
    origin_of,
    paint_cells,
    paint_numbers,
    paint_vectors,
    paint_wrong,
    tips_of,
)
from tilelayout.app.draw_tile.scratch import draft_in, number_of
from tilelayout.app.draw_tile.vector_tool import drag_vector
from tilelayout.app.draw_tile.words import preview_of_a_tile
from tilelayout.app.look import Look, TextSize
from tilelayout.app.paint.strokes import line_pen
from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.picks import GRAB_PX
from tilelayout.drawing.preview import Preview
from tilelayout.drawing.toolbox import TOOLS
from tilelayout.job.session import Session
from tilelayout.job.values import Job
from tilelayout.layout.drafts import Fit, touching_vectors

CHOOSE, CORNERS, RECTANGLE = "select", "draw_surface", "draw_rectangle"


class CellBoard(QWidget):
    """Shows what is drawn in `session` and lets a person draw; `fit` is what is wrong with it, once known."""

    hint_changed = Signal(str)
    refused = Signal(str)
    front_changed = Signal(str)
    tool_changed = Signal(str)

    def __init__(self, session: Session, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._look = session, look
        self._navigator = Navigator(self._view_moved)
        self._hand = Hand(session, self)
        self._boxes = TypedBoxes(look, self)
        self._touch = Touch(self._navigator, self._hand, self.setCursor)
        self.front = session.job.surfaces[0].id
        self.tool = ""
        self.fit = Fit()
        self.setMouseTracking(True)
        self.setFocusPolicy(self.focusPolicy().StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(320, 260)
        self.setAccessibleName("Drawing of the tile")
        self._hand.changed.connect(self._follow_hand)
        self._hand.ended.connect(lambda: self.use_tool(CHOOSE))
        self._hand.refused.connect(self.refused)
        self._boxes.sent.connect(self._hand.send)
        self.destroyed.connect(session.watch(self._follow_job))
        self.show_all()
        self.use_tool(CHOOSE)

    @property
    def view(self) -> View:
        """Where the board looks."""
        return self._navigator.view

    @property
    def preview(self) -> Preview:
        """What the tool in hand shows, in words for a tile."""
        return preview_of_a_tile(self._hand.preview)

    @property
    def boxes(self) -> TypedBoxes:
        """The boxes for typed sizes."""
        return self._boxes

    def use_tool(self, name: str) -> None:
        """Take a tool that draws, or the one that chooses and moves."""
        self._take(name, TOOLS[name])

    def bring_to_front(self, id: str) -> None:
        """Work on another outline of the cell."""
        if id != self.front:
            self.front = id
            self.use_tool(CHOOSE)
            self.front_changed.emit(id)

    def show_fit(self, fit: Fit) -> None:
        """Show what is wrong with the cell as it was drawn last."""
        self.fit = fit
        self.update()

    def show_all(self) -> None:
        """Bring three by three cells on the screen."""
        self._navigator.bounds = bounds_of(draft_in(self._session.job))
        self._navigator.fit()

    def zoom(self, *, is_in: bool) -> None:
        """Show everything a step larger or smaller."""
        self._navigator.zoom(STEP if is_in else 1 / STEP)

    def _take(self, name: str, tool: Callable[[Context], Tool]) -> None:
        self.tool = name
        self._hand.take(tool, Context(lambda: self._session.job, self.front))
        self._touch.point_again()
        self.tool_changed.emit(name)

    def _follow_job(self, before: Job, after: Job, _label: str) -> None:
        new = {each.id for each in after.surfaces} - {each.id for each in before.surfaces}
        if new:
            self.front = next(iter(new))
        elif self.front not in {each.id for each in after.surfaces}:
            self.front = after.surfaces[0].id
        self._navigator.bounds = bounds_of(draft_in(after))
        if not self._hand.is_busy:
            self.use_tool(CHOOSE)
        self.front_changed.emit(self.front)
        self.update()

    def _follow_hand(self) -> None:
        preview = self.preview
        is_typed = any(box.is_typed or box.is_active for box in preview.boxes)
        self._boxes.show_boxes(preview.boxes if is_typed or self.tool != CHOOSE else ())
        if preview.boxes:
            at = self.view.to_screen(*preview.box_point) if preview.box_point else QPointF()
            self._boxes.stand_clear_of(at, QRectF(self.rect()))
        self._touch.show_cursor()
        self.hint_changed.emit(preview.hint)
        self.setAccessibleDescription(preview.hint)
        self.update()

    def _view_moved(self) -> None:
        self.update()

    def sizeHint(self) -> QSize:
        """Large enough to draw on."""
        return QSize(560, 460)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the cell, what is wrong with it, and what the tool shows."""
        draft, look, rect = draft_in(self._session.job), self._look, QRectF(self.rect())
        shown = shown_of(self._session.job, self.front, None, Stage.MEASURE)
        preview = self.preview
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setFont(look.font(TextSize.SMALL))
            paint_ground(painter, rect, look)
            paint_dots(painter, rect, self.view, shown.style, look)
            paint_cells(painter, draft, self.view, look, number_of(self._session.job, self.front))
            paint_wrong(painter, self.fit, self.view, look)
            if len(draft.outlines) > 1:
                paint_numbers(painter, draft, self.view, look)
            paint_vectors(painter, draft, self.view, look)
            if preview.under is not None and preview.under not in preview.chosen:
                paint_under(painter, preview.under, shown, self.view, look)
            paint_chosen(painter, preview.chosen, shown, self.view, look)
            paint_preview(painter, preview, rect, self.view, look)
            colour = look.colour("accent" if self.hasFocus() else "line")
            painter.setBrush(painter.brush().style().NoBrush)
            painter.setPen(line_pen(colour, 2.0 if self.hasFocus() else 1.0))
            painter.drawRect(rect.adjusted(1.0, 1.0, -1.0, -1.0))

    def resizeEvent(self, _event: QResizeEvent) -> None:
        """Keep in sight what was in sight."""
        self._navigator.resize(QRectF(self.rect()))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom or pan."""
        self._navigator.wheel(event)
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take a vector by its tip, bring another tile to the front, or let the tool work."""
        self.setFocus()
        if self.tool == CHOOSE and event.button() == event.button().LeftButton:
            self._take_what_is_under(event.position())
        self._touch.press(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """A second press at once."""
        self._touch.press(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Push the paper or let the tool follow."""
        self._touch.move(event)
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        self._touch.release(event)
        self.update()

    def leaveEvent(self, _event: QEvent) -> None:
        """The pointer is elsewhere."""
        self._touch.leave()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Pass a key on to the view, the tool or the sheet."""
        self._touch.press_key(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Let go of what a held key did."""
        self._touch.release_key(event)

    def focusNextPrevChild(self, next: bool) -> bool:
        """Tab goes from box to box while there are boxes, and on to the next part of the sheet otherwise."""
        return False if self._boxes.isVisible() else super().focusNextPrevChild(next)

    def event(self, event: QEvent) -> bool:
        """Take pinches, and text that is meant for a box before a shortcut takes it."""
        return (is_for_touch(event) and self._touch.takes(event)) or super().event(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Forget held keys."""
        self._touch.let_go()
        super().focusOutEvent(event)

    def _take_what_is_under(self, at: QPointF) -> None:
        draft = draft_in(self._session.job)
        for number, tip in enumerate(tips_of(draft)):
            there = self.view.to_screen(*tip)
            if math.hypot(there.x() - at.x(), there.y() - at.y()) <= GRAB_PX / 2:
                tool = partial(
                    drag_vector, number=number, origin=origin_of(draft), touching=touching_vectors(draft)
                )
                self._take(f"vector {number + 1}", tool)
                return
        if self._hand.preview.under is None:
            self._bring_what_is_under(at)

    def _bring_what_is_under(self, at: QPointF) -> None:
        point = shapely.Point(self.view.to_surface(at))
        for surface in self._session.job.surfaces:
            if surface.id != self.front and shapely.Polygon(surface.outline).covers(point):
                self.bring_to_front(surface.id)
                return
