"""Moves the view: wheel and pinch zoom about the pointer, middle button or Space and drag push the paper.

It knows the view, what is drawn and the room on the screen, and nothing of the job: so moving about can
never become part of it.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QInputDevice, QMouseEvent, QNativeGestureEvent, QWheelEvent

from tilelayout.app.board.view import (
    BARE_SHEET,
    Bounds,
    View,
    allowed_factor,
    centred,
    fitted,
    kept_in_sight,
)

MARGIN = 64.0
"""Room left around everything by "fit", enough for the lengths and gauges outside the walls."""

STEP = 1.25
"""One step of zooming by key or button."""

_NOTCH = 120.0
"""What one notch of a wheel counts (eighths of a degree, 15 degrees a notch)."""


class Navigator:
    """Owns the view. `on_change` is called whenever it has changed."""

    def __init__(self, on_change: Callable[[], None]) -> None:
        self._on_change = on_change
        self.rect = QRectF(0.0, 0.0, 800.0, 600.0)
        self.bounds: Bounds = BARE_SHEET
        self.view: View = fitted(self.bounds, self.rect, MARGIN)
        self.is_space_held = False
        self._grip: QPointF | None = None
        self._is_fitted = True

    @property
    def is_panning(self) -> bool:
        """Whether the paper is being pushed just now."""
        return self._grip is not None

    def resize(self, rect: QRectF) -> None:
        """Take another room on the screen; what was fitted stays fitted, else the middle stays there."""
        moved = rect.center() - self.rect.center()
        self.rect = rect
        if self._is_fitted:
            self.fit()
        else:
            self._take(self.view.panned(moved.x(), moved.y()))

    def fit(self) -> None:
        """Bring everything on the screen with a margin."""
        self._take(fitted(self.bounds, self.rect, MARGIN))
        self._is_fitted = True

    def zoom_to(self, bounds: Bounds) -> None:
        """Bring a part of the surface on the screen, large."""
        self._take(fitted(bounds, self.rect, MARGIN * 1.5))

    def zoom(self, factor: float, about: QPointF | None = None) -> None:
        """Change the scale; the surface point under `about` (or in the middle) stays where it is."""
        factor = allowed_factor(self.view, self.bounds, factor)
        self._take(self.view.zoomed(factor, about or self.rect.center()))

    def pan(self, dx: float, dy: float) -> None:
        """Push the paper by (dx, dy) px, as far as some of what is drawn stays in sight."""
        self._take(kept_in_sight(self.view.panned(dx, dy), self.bounds, self.rect))

    def set_scale(self, scale: float) -> None:
        """Show everything at a scale in px per mm, its middle in the middle."""
        self._take(centred(self.bounds, self.rect, scale))

    def wheel(self, event: QWheelEvent) -> None:
        """Zoom with a wheel; pan with two fingers on a touchpad, unless Ctrl is held."""
        pixels, turns = event.pixelDelta(), event.angleDelta()
        is_touchpad = event.device().type() == QInputDevice.DeviceType.TouchPad
        is_smooth = not pixels.isNull() and event.phase() != Qt.ScrollPhase.NoScrollPhase
        has_control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        if (is_smooth or is_touchpad) and not has_control:
            step = pixels if not pixels.isNull() else turns / 8
            self.pan(float(step.x()), float(step.y()))
        elif event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.pan(float(turns.x() or turns.y()), 0.0)
        else:
            self.zoom(float(STEP ** (turns.y() / _NOTCH)), event.position())

    def pinch(self, event: QNativeGestureEvent) -> bool:
        """Zoom with two fingers; return whether the gesture was one of ours."""
        if event.gestureType() != Qt.NativeGestureType.ZoomNativeGesture:
            return False
        self.zoom(max(1.0 + event.value(), 0.2), event.position())
        return True

    def press(self, event: QMouseEvent) -> bool:
        """Take hold of the paper with the middle button, or with the main one while Space is held."""
        is_main = event.button() == Qt.MouseButton.LeftButton and self.is_space_held
        if event.button() == Qt.MouseButton.MiddleButton or is_main:
            self._grip = event.position()
            return True
        return self.is_panning

    def move(self, event: QMouseEvent) -> bool:
        """Push the paper with the pointer; return whether it is held."""
        if self._grip is None:
            return False
        moved = event.position() - self._grip
        self._grip = event.position()
        self.pan(moved.x(), moved.y())
        return True

    def release(self) -> bool:
        """Let go of the paper; return whether it was held."""
        was_panning = self.is_panning
        self._grip = None
        return was_panning

    def _take(self, view: View) -> None:
        self._is_fitted = False
        if view != self.view:
            self.view = view
            self._on_change()
