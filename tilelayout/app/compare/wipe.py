"""Two layouts laid over each other, and an upright slider that wipes from one to the other."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFocusEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF, QResizeEvent
from PySide6.QtWidgets import QAbstractSlider, QWidget

from tilelayout.app.board.kept_room import KeptRoom
from tilelayout.app.board.shown import Shown
from tilelayout.app.compare.linked import LinkedView
from tilelayout.app.compare.pane import paint_title, paint_trouble, title_of
from tilelayout.app.compare.sight import HEAD, Sight
from tilelayout.app.look import GRAB, STEP, Look

_WIDE = GRAB + STEP
_STEPS = 1000


class Wiper(QAbstractSlider):
    """The slider: a line across the whole view with a grip in its middle. Its value goes from 0 to 1000."""

    def __init__(self, look: Look, parent: WipePane) -> None:
        super().__init__(parent)
        self._look = look
        self._pane = parent
        self.setOrientation(Qt.Orientation.Horizontal)
        self.setRange(0, _STEPS)
        self.setSingleStep(_STEPS // 50)
        self.setPageStep(_STEPS // 10)
        self.setValue(_STEPS // 2)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.SplitHCursor)
        self.setAccessibleName("Wipe between the two layouts")
        self.valueChanged.connect(self.place)

    @property
    def share(self) -> float:
        """How much of the view shows the first layout, 0 to 1."""
        return self.value() / _STEPS

    def place(self) -> None:
        """Stand where the two layouts meet."""
        most = max(self._pane.width() - _WIDE, 0)
        left = min(max(round(self._pane.divider) - _WIDE // 2, 0), most)
        self.setGeometry(left, HEAD, _WIDE, self._pane.height() - HEAD)
        self._pane.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the line and the grip."""
        look, middle = self._look, QPointF(self.width() / 2, self.height() / 2)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            for width, role in ((5.0, "paper"), (2.0, "ink")):
                painter.setPen(QPen(look.colour(role), width))
                painter.drawLine(QPointF(middle.x(), 0.0), QPointF(middle.x(), self.height()))
            painter.setPen(QPen(look.colour("accent" if self.hasFocus() else "ink"), 2.0))
            painter.setBrush(look.colour("paper"))
            painter.drawEllipse(middle, _WIDE / 2 - 1.5, _WIDE / 2 - 1.5)
            painter.setBrush(look.colour("ink"))
            painter.setPen(Qt.PenStyle.NoPen)
            for way in (-1.0, 1.0):
                tip = [(9.0, 0.0), (4.0, -4.5), (4.0, 4.5)]
                painter.drawPolygon(QPolygonF([middle + QPointF(way * x, y) for x, y in tip]))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the grip."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.setSliderDown(True)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Follow the pointer."""
        if self.isSliderDown():
            x = self.mapTo(self._pane, event.position()).x()
            self.setValue(round(x / max(self._pane.width(), 1) * _STEPS))

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        """Let go."""
        self.setSliderDown(False)

    def focusInEvent(self, _event: QFocusEvent) -> None:
        """Show the focus."""
        self.update()

    def focusOutEvent(self, _event: QFocusEvent) -> None:
        """Take its mark away."""
        self.update()


class WipePane(Sight):
    """Shows one layout left of the slider and another right of it."""

    def __init__(self, look: Look, linked: LinkedView, parent: QWidget | None = None) -> None:
        super().__init__(look, linked, parent)
        self._kept = (KeptRoom(look), KeptRoom(look))
        self.pair: tuple[Shown, ...] = ()
        self.front = ""
        self.wiper = Wiper(look, self)
        self.setAccessibleName("Two layouts, one over the other")

    @property
    def divider(self) -> float:
        """Where the two meet, in px from the left."""
        return self.wiper.share * self.width()

    def show_pair(self, pair: tuple[Shown, Shown], front: str) -> None:
        """Show two layouts; `front` is the id of the one in front."""
        self.pair, self.front = pair, front
        first, second = (title_of(shown) for shown in pair)
        self.wiper.setAccessibleDescription(f"{first} at the left, {second} at the right")
        self.update()

    def forget(self) -> None:
        """Paint anew."""
        for kept in self._kept:
            kept.forget()
        self.update()

    def id_at(self, point: QPointF) -> str:
        """The layout on that side of the slider."""
        shown = self.pair[point.x() >= self.divider]
        return shown.layout.id if shown.layout else ""

    def paint_room(self, painter: QPainter) -> None:
        """Lay both rooms down, each on its side."""
        for kept, shown, side in zip(self._kept, self.pair, self._sides(self.room), strict=False):
            painter.setClipRect(side)
            kept.lay_down(painter, shown, self.linked.view, self.room, is_quick=False)
            paint_trouble(painter, shown, side, self.look)
        painter.setClipRect(self.room)

    def paint_head(self, painter: QPainter, rect: QRectF) -> None:
        """Write the name of the first layout at the left and that of the second at the right."""
        half = rect.width() / 2
        for number, (shown, align) in enumerate(zip(self.pair, _ENDS, strict=False)):
            side = QRectF(number * half, 0.0, half, rect.height()).adjusted(3 * STEP, 0, -3 * STEP, 0)
            is_bold = bool(shown.layout and shown.layout.id == self.front)
            paint_title(painter, side, title_of(shown), self.look, is_bold=is_bold, align=align)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the slider where it was, as a share of the width."""
        super().resizeEvent(event)
        self.wiper.place()

    def _sides(self, room: QRectF) -> tuple[QRectF, QRectF]:
        at = self.divider
        left = QRectF(room.left(), room.top(), at, room.height())
        return left, QRectF(at, room.top(), room.width() - at, room.height())


_ENDS = (Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight)
