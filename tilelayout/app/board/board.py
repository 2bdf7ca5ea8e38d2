"""The board: the surface to scale, seen and worked on.

It turns what Qt says (pointer, wheel, keys) into moves of the view or events for the tool in hand, and
paints what they show. It holds no part of the job: it reads the session and offers it edits.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PySide6.QtCore import QEvent, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
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
from tilelayout.app.board.keys import SUSPEND_WORDS
from tilelayout.app.board.layers.chosen import bounds_of
from tilelayout.app.board.layers.poles import POLE
from tilelayout.app.board.navigator import STEP, Navigator
from tilelayout.app.board.overlays import Overlays
from tilelayout.app.board.pace import Pace
from tilelayout.app.board.picture import Picture
from tilelayout.app.board.shown import Shown, shown_of
from tilelayout.app.board.spoken import words_of
from tilelayout.app.board.surroundings import context_of
from tilelayout.app.board.touch import Touch, is_for_touch
from tilelayout.app.board.typed_boxes import TypedBoxes
from tilelayout.app.board.view import View
from tilelayout.app.look import Look
from tilelayout.app.paint.strokes import line_pen
from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.events import Chosen
from tilelayout.drawing.picks import Pick
from tilelayout.drawing.preview import Preview
from tilelayout.drawing.toolbox import TOOLS
from tilelayout.drawing.tools.read_heights import READ
from tilelayout.job.session import Session
from tilelayout.job.values import Job, SurfaceKind

CHOOSE = "select"
"""The tool that chooses what a question is about: corners and edges of a room, or laid pieces."""

_KEY_REASONS = {
    Qt.FocusReason.TabFocusReason,
    Qt.FocusReason.BacktabFocusReason,
    Qt.FocusReason.ShortcutFocusReason,
}


class Board(QWidget):
    """Shows one surface and lets a person work on it."""

    hint_changed = Signal(str)
    snap_changed = Signal(str)
    zoom_changed = Signal(float)
    tool_ended = Signal()
    edit_refused = Signal(str)
    picked = Signal(object)

    def __init__(self, session: Session, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._look = look
        self._navigator = Navigator(self._view_moved)
        self.over = Overlays(self)
        self._picture = Picture(look, self.over)
        self._hand = Hand(session, self)
        self._boxes = TypedBoxes(look, self)
        self._shown = shown_of(session.job, None, None, Stage.MEASURE)
        self._tool = ""
        self.tools: dict[str, Callable[[Context], Tool]] = dict(TOOLS)
        self._new_kind = SurfaceKind.FLOOR
        self._chosen: tuple[Pick, ...] = ()
        self._lit: tuple[str, ...] = ()
        self._said = ("", "")
        self._touch = Touch(self._navigator, self._hand, self.setCursor)
        self._pace = Pace(self._move, self)
        self._has_key_focus = False
        self._next_tool = ""
        self._set_up_widget()
        self._connect()

    def _set_up_widget(self) -> None:
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(320, 240)
        self.setAccessibleName("Board")

    def _connect(self) -> None:
        self._hand.changed.connect(self._follow_hand)
        self._hand.ended.connect(self._end_tool)
        self._hand.refused.connect(self.edit_refused)
        self._boxes.sent.connect(self._hand.send)
        self._look.changed.connect(self._restyle)
        self.over.changed.connect(self.update)
        unwatch = self._session.watch(lambda _before, after, _label: self.refresh(after))
        self.destroyed.connect(unwatch)

    # --- what is shown ---------------------------------------------------------------------------------

    @property
    def view(self) -> View:
        """Where the board looks."""
        return self._navigator.view

    @property
    def shown(self) -> Shown:
        """What the board shows."""
        return self._shown

    @property
    def preview(self) -> Preview:
        """What the tool in hand shows."""
        return self._hand.preview

    @property
    def tool(self) -> str:
        """The name of the tool in hand."""
        return self._tool

    @property
    def new_kind(self) -> SurfaceKind:
        """What a drawing tool draws: a floor or a wall."""
        return self._new_kind

    @property
    def boxes(self) -> TypedBoxes:
        """The boxes for typed sizes."""
        return self._boxes

    def show_view(self, surface_id: str | None, layout_id: str | None, stage: str) -> None:
        """Show a surface with a layout, for one of the questions of the path."""
        before = self._shown
        self._show(shown_of(self._session.job, surface_id, layout_id, Stage(stage)))
        is_other_surface = before.surface_id != self._shown.surface_id
        if is_other_surface and not self._hand.is_busy:
            self._lit = ()
            self.fit()
        if before.stage is not self._shown.stage or not self._tool:
            self._renew_tool(self._resting_tool)
        elif is_other_surface or before.layout_id != self._shown.layout_id:
            self._renew_tool(self._tool)

    def refresh(self, job: Job) -> None:
        """Show the same surface and layout as they are in `job`."""
        if job is self._shown.job:
            return
        self._touch.is_dragging = self._touch.is_held and self._hand.is_busy
        self._show(shown_of(job, self._shown.surface_id, self._shown.layout_id, self._shown.stage))
        if not self._hand.is_busy:
            self._hand.refresh()

    def ask_tool_again(self) -> None:
        """Let the tool in hand show what it waits for now, after something beside the job was changed."""
        if not self._hand.is_busy:
            self._hand.refresh()

    def light_piece(self, ids: Iterable[str]) -> None:
        """Light the pieces with these ids and no others."""
        self._lit = tuple(ids)
        self.update()

    def select(self, pick: Pick | None) -> None:
        """Choose one thing; None chooses nothing."""
        if (self._chosen[-1:] or (None,))[0] != pick:
            self._hand.send(Chosen(pick))

    def use_tool(self, name: str, *, new_kind: SurfaceKind = SurfaceKind.FLOOR) -> None:
        """Take a tool by its name; KeyError if there is none. `new_kind` is what a drawing tool draws."""
        self._take(name, new_kind)
        self.setFocus()

    # --- moving about ----------------------------------------------------------------------------------

    def zoom_in(self) -> None:
        """Show everything a step larger."""
        self._navigator.zoom(STEP)

    def zoom_out(self) -> None:
        """Show everything a step smaller."""
        self._navigator.zoom(1 / STEP)

    def fit(self) -> None:
        """Bring the whole surface on the screen with a margin."""
        self._navigator.fit()

    def zoom_to_selection(self) -> None:
        """Bring what is chosen or lit on the screen, large; the whole surface if nothing is."""
        box = bounds_of(self._chosen, self._lit, self._shown)
        if box is None:
            self.fit()
        else:
            self._navigator.zoom_to(box)

    def actual_size(self) -> None:
        """Show the surface as large as it is."""
        dots_per_inch = self.screen().physicalDotsPerInch()
        is_known = 50.0 < dots_per_inch < 500.0
        self._navigator.set_scale((dots_per_inch if is_known else self.logicalDpiX()) / 25.4)

    # --- following -------------------------------------------------------------------------------------

    def _show(self, shown: Shown) -> None:
        self._shown = shown
        self._navigator.bounds = shown.bounds
        if shown.trouble:
            self.edit_refused.emit(shown.trouble)
        self.update()

    @property
    def _resting_tool(self) -> str:
        """What is in the hand whenever nothing else is."""
        if self._shown.stage is Stage.SURFACE and READ in self.tools:
            return READ
        return "drag_start" if self._shown.stage is Stage.SET_OUT and self._shown.plan else CHOOSE

    def _renew_tool(self, name: str) -> None:
        """Take a tool that works on what is shown now; at once, or when the one in hand is done."""
        self._next_tool = name if self._hand.is_busy else ""
        if not self._next_tool:
            self._take(name, self._new_kind)

    def _follow_hand(self) -> None:
        if self._next_tool and not self._hand.is_empty:
            self._renew_tool(self._next_tool)
            return
        preview = self.preview
        self._place_boxes()
        self._touch.show_cursor()
        self._say(preview)
        if preview.chosen != self._chosen:
            self._chosen = preview.chosen
            self.picked.emit(self._chosen[-1] if self._chosen else None)
        self._describe(preview)
        self.update()

    def _place_boxes(self) -> None:
        preview = self.preview
        is_typed = any(box.is_typed or box.is_active for box in preview.boxes)
        is_asked_for = is_typed or self._tool != self._resting_tool
        self._boxes.show_boxes(preview.boxes if is_asked_for else ())
        if preview.boxes:
            rect = self._navigator.rect
            at = self.view.to_screen(*preview.box_point) if preview.box_point else rect.topLeft()
            self._boxes.stand_clear_of(at, rect)

    def _say(self, preview: Preview) -> None:
        can_snap = preview.marker is not None or bool(preview.boxes)
        hint = f"{preview.hint} {SUSPEND_WORDS}" if can_snap and preview.hint else preview.hint
        snap = preview.marker.words if preview.marker else ""
        if hint != self._said[0]:
            self.hint_changed.emit(hint)
        if snap != self._said[1]:
            self.snap_changed.emit(snap)
        self._said = (hint, snap)

    def _describe(self, preview: Preview) -> None:
        spoken = " ".join(words_of(pick, self._shown) for pick in preview.chosen) or preview.hint
        if spoken != self.accessibleDescription():
            self.setAccessibleDescription(spoken)
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.DescriptionChanged))

    def _end_tool(self) -> None:
        was_resting, self._next_tool = self._tool == self._resting_tool, ""
        self._take(self._resting_tool, self._new_kind)
        if not was_resting:
            self.tool_ended.emit()

    def _take(self, name: str, new_kind: SurfaceKind) -> None:
        chooses_pieces = name == CHOOSE and self._shown.shows_tiles
        tool = self.tools["choose_piece" if chooses_pieces else name]
        self._tool, self._new_kind = name, new_kind
        self._hand.take(tool, context_of(self._session, lambda: self._shown, new_kind))
        self._touch.point_again()

    def _move(self, event: QMouseEvent) -> None:
        self._touch.move(event)
        self.update()

    def _restyle(self) -> None:
        self._picture.forget()
        self.update()

    def _view_moved(self) -> None:
        self._place_boxes()
        self.zoom_changed.emit(self.view.scale)
        self.update()

    # --- Qt's events -----------------------------------------------------------------------------------

    def sizeHint(self) -> QSize:
        """As large as a board on a small screen."""
        return QSize(860, 620)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Lay the room down and paint over it what follows the pointer."""
        rect, whole = self._navigator.rect, QRectF(self.rect())
        with QPainter(self) as painter:
            self._picture.paint_room(painter, self._shown, self.view, rect, is_quick=self._touch.is_dragging)
            self._picture.paint_over(painter, self.preview, self._lit, self._shown, self.view, rect)
            self._picture.paint_poles(painter, self._touch.pointer, self._shown, self.view, whole)
            if self._has_key_focus:
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(line_pen(self._look.colour("accent"), 2.0))
                painter.drawRect(rect.adjusted(1.0, 1.0, -1.0, -1.0))
        self._pace.painted()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the middle of the view in the middle."""
        self._navigator.resize(QRectF(POLE, 0.0, self.width() - POLE, self.height() - POLE))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom or pan."""
        self._pace.catch_up()
        self._navigator.wheel(event)
        self._touch.point_again()
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Push the paper or let the tool work."""
        self._pace.catch_up()
        self.setFocus()
        self._touch.press(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """A second press at once."""
        self.mousePressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Push the paper or let the tool follow; what it drags follows frame by frame."""
        if self._touch.is_held:
            self._pace.move(event)
        else:
            self._move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        self._pace.catch_up()
        self._touch.release(event)
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        """The pointer left the board, unless it went to one of the boxes on it."""
        at = self.mapFromGlobal(self.cursor().pos())
        if not (self._boxes.isVisible() and self._boxes.geometry().contains(at)):
            self._touch.leave()
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Pass a key on to the view, the tool or the window."""
        self._pace.catch_up()
        self._touch.press_key(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Let go of what a held key did."""
        self._pace.catch_up()
        self._touch.release_key(event)

    def focusNextPrevChild(self, next: bool) -> bool:
        """Tab goes from box to box while there are boxes, and on to the next part of the window otherwise."""
        return False if self._boxes.isVisible() else super().focusNextPrevChild(next)

    def event(self, event: QEvent) -> bool:
        """Take pinches, and text that is meant for a box before a shortcut of the window takes it."""
        return (is_for_touch(event) and self._touch.takes(event)) or super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show the focus with a frame if it came by a key; who points at the board knows where it is."""
        self._has_key_focus = event.reason() in _KEY_REASONS
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Take the frame away."""
        self._has_key_focus = False
        self._touch.let_go()
        self.update()
