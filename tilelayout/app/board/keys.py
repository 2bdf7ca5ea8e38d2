"""What the keys mean while the board has the focus.

Keys that stand for text reach a tool only while it offers a box to type in; nothing is taken from the
window's own shortcuts otherwise.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from tilelayout.drawing.events import (
    Deleted,
    Entered,
    Erased,
    Escaped,
    Event,
    FieldStepped,
    Inserted,
    KeyTyped,
    Nudged,
)
from tilelayout.drawing.preview import Preview

SUSPEND = Qt.KeyboardModifier.ControlModifier
"""Held, it suspends snapping: a modifier that window managers leave alone and that never writes text."""

SUSPEND_WORDS = "Hold Ctrl to point freely."

_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}
_PLAIN: dict[int, Event] = {
    Qt.Key.Key_Return: Entered(),
    Qt.Key.Key_Enter: Entered(),
    Qt.Key.Key_Escape: Escaped(),
    Qt.Key.Key_Backspace: Erased(),
    Qt.Key.Key_Delete: Deleted(),
    Qt.Key.Key_Insert: Inserted(),
    Qt.Key.Key_PageDown: FieldStepped(),
    Qt.Key.Key_PageUp: FieldStepped(back=True),
}
_STARTS_TEXT = frozenset("0123456789.,-")


def event_of(key: QKeyEvent, preview: Preview) -> Event | None:
    """Return what a key means to the tool; None if it is none of its business."""
    if starts_text(key, preview):
        return KeyTyped(key.text())
    code = key.key()
    if code in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
        return FieldStepped(back=code == Qt.Key.Key_Backtab) if preview.boxes else None
    if code in _ARROWS:
        return _arrow(Qt.Key(code), key, preview)
    return _PLAIN.get(code)


def starts_text(key: QKeyEvent, preview: Preview) -> bool:
    """Whether a key begins to fill a box."""
    held = key.modifiers() & ~(Qt.KeyboardModifier.KeypadModifier | Qt.KeyboardModifier.ShiftModifier)
    return bool(preview.boxes) and not held and key.text() in _STARTS_TEXT and key.text() != ""


def _arrow(code: Qt.Key, key: QKeyEvent, preview: Preview) -> Event:
    """An arrow moves what is chosen; with nothing chosen it goes to the next thing to choose."""
    dx, dy = _ARROWS[code]
    if preview.chosen or preview.boxes:
        return Nudged(dx, dy, big=bool(key.modifiers() & Qt.KeyboardModifier.ShiftModifier))
    return FieldStepped(back=dx < 0 or dy > 0)
