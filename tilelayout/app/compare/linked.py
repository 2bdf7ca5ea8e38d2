"""The one view that all linked views share: pan or zoom in one of them and all have moved.

The sights are of one size, so one view and one rectangle serve them all; there is nothing to keep in step.
"""

from __future__ import annotations

from tilelayout.app.board.navigator import Navigator
from tilelayout.app.board.view import fitted

MARGIN = 56.0
"""Room left around the surface: enough for the gauges outside the walls."""

_LEAST_SHARE = 0.16
"""In a small sight no more than this share of its shorter side is left free."""


class LinkedView(Navigator):
    """Where all linked views look. `on_change` is called whenever that has changed."""

    def fit(self) -> None:
        """Bring the whole surface into every sight."""
        side = min(self.rect.width(), self.rect.height())
        self._take(fitted(self.bounds, self.rect, min(MARGIN, _LEAST_SHARE * side)))
        self._is_fitted = True
