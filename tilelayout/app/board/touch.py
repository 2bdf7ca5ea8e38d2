"""What fingers do on the board: buttons, pointer and held keys, passed to the view or to the tool.

The paper comes first: while it is pushed, no tool hears of the pointer.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent, QNativeGestureEvent

from tilelayout.app.board.hand import Hand
from tilelayout.app.board.keys import SUSPEND, event_of, starts_text
from tilelayout.app.board.navigator import STEP, Navigator
from tilelayout.app.board.pointing import event_at, resting_at
from tilelayout.drawing.events import PointerLeft
from tilelayout.drawing.preview import PointerShape

_CURSORS = {
    PointerShape.ARROW: Qt.CursorShape.ArrowCursor,
    PointerShape.CROSS: Qt.CursorShape.CrossCursor,
    PointerShape.MOVE: Qt.CursorShape.SizeAllCursor,
}


def is_for_touch(event: QEvent) -> bool:
    """Claim that `Touch.takes` is to be asked; not of most events, and some come before there is one."""
    return isinstance(event, QNativeGestureEvent) or event.type() == QEvent.Type.ShortcutOverride


class Touch:
    """Knows where the pointer is and what is held; `show_cursor` gives the pointer its look.

    `is_dragging` claims that the button is held and has changed the job since it went down.
    """

    def __init__(
        self, navigator: Navigator, hand: Hand, show_cursor: Callable[[Qt.CursorShape], None]
    ) -> None:
        self._navigator = navigator
        self._hand = hand
        self._show_cursor = show_cursor
        self.pointer: QPointF | None = None
        self.is_held = False
        self.is_dragging = False

    def press(self, event: QMouseEvent) -> None:
        """Take hold of the paper, or let the tool work."""
        if self._navigator.press(event):
            self._show_cursor(Qt.CursorShape.ClosedHandCursor)
        elif event.button() == Qt.MouseButton.LeftButton:
            self.is_held = True
            self._hand.send(event_at(event, self._navigator.view))

    def move(self, event: QMouseEvent) -> None:
        """Push the paper, or let the tool follow."""
        self.pointer = event.position()
        if self._navigator.move(event):
            return
        if self.is_held or self._navigator.rect.contains(event.position()):
            self._hand.send(event_at(event, self._navigator.view))
        else:
            self._hand.send(PointerLeft())

    def release(self, event: QMouseEvent) -> None:
        """Let go of the paper, or of what the tool drags."""
        if self._navigator.release():
            self.show_cursor()
        elif event.button() == Qt.MouseButton.LeftButton and self.is_held:
            self.is_held = False
            self._hand.send(event_at(event, self._navigator.view))
            self.is_dragging = False

    def leave(self) -> None:
        """The pointer is elsewhere: no marker is shown."""
        self.pointer = None
        self._hand.send(PointerLeft())

    def takes(self, event: QEvent) -> bool:
        """Take a pinch, or text that is meant for a box before a shortcut takes it; False for any other."""
        if isinstance(event, QNativeGestureEvent) and self._navigator.pinch(event):
            return True
        is_text = isinstance(event, QKeyEvent) and starts_text(event, self._hand.preview)
        if is_text:
            event.accept()
        return is_text

    def press_key(self, event: QKeyEvent) -> None:
        """Space takes the paper, a held key suspends snapping, the rest is for the tool or the window."""
        if event.key() == Qt.Key.Key_Space:
            self._hold_space(event, is_held=True)
        elif event.key() == Qt.Key.Key_Control:
            self.point_again(event.modifiers() | SUSPEND)
        elif event.text() in ("+", "="):
            self._navigator.zoom(STEP)
        elif event.text() == "-" and not self._hand.preview.boxes:
            self._navigator.zoom(1 / STEP)
        elif (meant := event_of(event, self._hand.preview)) is not None:
            self._hand.send(meant)
        else:
            event.ignore()

    def release_key(self, event: QKeyEvent) -> None:
        """Let go of what a held key did."""
        if event.key() == Qt.Key.Key_Space:
            self._hold_space(event, is_held=False)
        elif event.key() == Qt.Key.Key_Control:
            self.point_again(event.modifiers() & ~SUSPEND)
        else:
            event.ignore()

    def let_go(self) -> None:
        """Forget held keys: the focus is elsewhere and will hear of their release."""
        self._navigator.is_space_held = False
        self.show_cursor()

    def show_cursor(self) -> None:
        """Show what a press would do just now."""
        if self._navigator.is_panning:
            return
        is_open = self._navigator.is_space_held
        shape = self._hand.preview.pointer
        self._show_cursor(Qt.CursorShape.OpenHandCursor if is_open else _CURSORS[shape])

    def point_again(self, modifiers: Qt.KeyboardModifier | None = None) -> None:
        """Tell the tool where the pointer is: the view moved under it, or a held key changed."""
        if self.pointer is not None and not self._navigator.is_panning:
            self._hand.send(resting_at(self.pointer, self._navigator.view, modifiers, is_held=self.is_held))

    def _hold_space(self, event: QKeyEvent, *, is_held: bool) -> None:
        if not event.isAutoRepeat():
            self._navigator.is_space_held = is_held
            self.show_cursor()
