"""The pointer on the board as the drawing tools know it: in mm of the surface, with what is held."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QGuiApplication, QMouseEvent

from tilelayout.app.board.keys import SUSPEND
from tilelayout.app.board.view import View
from tilelayout.drawing.events import DoublePressed, Pointer, PointerMoved, PointerPressed, PointerReleased

_EVENTS: dict[QEvent.Type, type[Pointer]] = {
    QEvent.Type.MouseMove: PointerMoved,
    QEvent.Type.MouseButtonPress: PointerPressed,
    QEvent.Type.MouseButtonRelease: PointerReleased,
    QEvent.Type.MouseButtonDblClick: DoublePressed,
}

_ADDS = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier

PointerEvent = PointerMoved | PointerPressed | PointerReleased | DoublePressed


def event_at(event: QMouseEvent, view: View) -> PointerEvent:
    """Return a mouse event as a tool's event."""
    is_held = bool(event.buttons() & Qt.MouseButton.LeftButton)
    made = _EVENTS[event.type()]
    return _made(made, event.position(), view, event.modifiers(), is_held=is_held)


def resting_at(
    at: QPointF, view: View, modifiers: Qt.KeyboardModifier | None = None, *, is_held: bool
) -> PointerEvent:
    """Return the event that says where the pointer rests, with the keys held now or those given."""
    held = QGuiApplication.keyboardModifiers() if modifiers is None else modifiers
    return _made(PointerMoved, at, view, held, is_held=is_held)


def _made(
    kind: type[Pointer], at: QPointF, view: View, modifiers: Qt.KeyboardModifier, *, is_held: bool
) -> PointerEvent:
    event = kind(
        view.to_surface(at),
        view.scale,
        snaps_suspended=bool(modifiers & SUSPEND),
        adds=bool(modifiers & _ADDS),
        is_held=is_held,
    )
    assert isinstance(event, PointerEvent)
    return event
