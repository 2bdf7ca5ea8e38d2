"""A box for a small height: written to parts of an inch or of a mm, as readings are."""

from __future__ import annotations

from tilelayout.app.length_box import LengthBox
from tilelayout.base.heights import format_height, height_style
from tilelayout.base.units import LengthStyle


class HeightBox(LengthBox):
    """A length box that shows a height as finely as it was given. `entered` carries mm."""

    def show_length(self, length: float | None, style: LengthStyle) -> None:
        """Show a height in mm in a job of `style`; None shows an empty box."""
        super().show_length(length, height_style(style))
        if length is not None:
            self.show_text(format_height(length, style))
