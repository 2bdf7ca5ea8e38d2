"""Two boxes for the size of a plain room: wide × deep. It remembers what was typed, in mm."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import GRAB, STEP
from tilelayout.app.outlines import plain_room
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Point

_FIRST_SIZE = {True: (3600.0, 2400.0), False: (3657.6, 2438.4)}
"""In mm, by whether lengths are metric; else 12 x 8 ft."""

_METRIC = (LengthStyle.MM, LengthStyle.CM, LengthStyle.M)


class PlainSize(QWidget):
    """The size stands at a usual room in round numbers of the job's lengths until a person types another."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.wide = LengthBox("Width of the plain room", least=1.0)
        self.deep = LengthBox("Depth of the plain room", least=1.0)
        self._style = LengthStyle.MM
        self._typed: dict[LengthBox, float] = {}
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2 * STEP)
        by = QLabel("×", self)
        by.setMinimumHeight(GRAB + STEP)
        for widget in (self.wide, by, self.deep):
            row.addWidget(widget, int(isinstance(widget, LengthBox)), Qt.AlignmentFlag.AlignTop)
        for box in (self.wide, self.deep):
            box.entered.connect(lambda length, box=box: self._keep(box, length))
        self.setFocusProxy(self.wide)
        self.show_in(self._style)

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and depth in mm."""
        wide, deep = _FIRST_SIZE[self._style in _METRIC]
        return self._typed.get(self.wide, wide), self._typed.get(self.deep, deep)

    @property
    def outline(self) -> tuple[Point, ...]:
        """The corners of the room."""
        return plain_room(*self.size_mm)

    def name_sides(self, across: str, up: str) -> None:
        """Call the two sizes by other names, such as "Width" and "Height"."""
        for box, name in ((self.wide, across), (self.deep, up)):
            box.line.setAccessibleName(f"{name} of the plain surface")
            box.line.setToolTip(name)

    def show_in(self, style: LengthStyle) -> None:
        """Show the size in a way of writing lengths."""
        self._style = style
        for box, length in zip((self.wide, self.deep), self.size_mm, strict=True):
            box.show_length(length, style)

    def _keep(self, box: LengthBox, length: float) -> None:
        self._typed[box] = length
        self.show_in(self._style)
