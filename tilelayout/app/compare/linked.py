"""The one view that all linked views share: pan or zoom in one of them and all have moved.

The sights are of one size, so one view and one rectangle serve them all; there is nothing to keep in step.
"""

from __future__ import annotations

from tilelayout.app.board.navigator import Navigator
from tilelayout.app.board.view import fitted

MARGIN = 56.0
"""Room left around the surface: enough for the gauges outside the walls."""

_SHARE = 0.16
"""In a small sight no more than this share of its shorter side is left free, but for the gauges."""

_GAUGES = 34.0
"""The gauges outside the walls need so much (px), as long as that is no more than a quarter of the side."""


class LinkedView(Navigator):
    """Where all linked views look. `on_change` is called whenever that has changed."""

    def fit(self) -> None:
        """Bring the whole surface into every sight."""
        side = min(self.rect.width(), self.rect.height())
        margin = max(min(MARGIN, _SHARE * side), min(_GAUGES, side / 4.0))
        self._take(fitted(self.bounds, self.rect, margin))
        self._is_fitted = True
