"""A box for the corners of an offcut: "0, 0; 297, 0; 0, 120", each across and up in its tile."""

from __future__ import annotations

from tilelayout.app.length_box import EntryBox
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import LengthStyle, format_length, parse_length
from tilelayout.job.values import Point

_FEWEST = 3


class CornersBox(EntryBox):
    """`entered` carries the corners in mm."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self._style = LengthStyle.MM

    def show_corners(self, corners: tuple[Point, ...], style: LengthStyle) -> None:
        """Show corners in mm as a person writes them."""
        self._style = style
        written = ((format_length(x, style), format_length(y, style)) for x, y in corners)
        self.show_text("; ".join(f"{x}, {y}" for x, y in written))
        if not self.line.hasFocus():
            self.line.setCursorPosition(0)

    def read(self, text: str) -> tuple[Point, ...]:
        """Return the corners; a TileLayoutError with an example if they cannot be read."""
        corners = [part.split(",") for part in text.split(";") if part.strip()]
        if len(corners) < _FEWEST or any(len(corner) != 2 for corner in corners):
            raise TileLayoutError(
                "Three corners or more are wanted, each across and up.",
                "Write for example 0, 0; 200, 0; 0, 90.",
            )
        return tuple(
            (
                parse_length(x.strip(), self._style, signed=True),
                parse_length(y.strip(), self._style, signed=True),
            )
            for x, y in corners
        )
