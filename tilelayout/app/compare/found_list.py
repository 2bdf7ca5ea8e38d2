"""What was found by seeking: each with a small picture, its key figures, and below them what it is best at.

Going to one brings it to the front of the views beside the list; what stands there is marked. Where there is
little height the list scrolls, so that the table below it stays in sight.
"""

from __future__ import annotations

from PySide6.QtCore import (
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    QSignalBlocker,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFocusEvent, QFont, QFontMetricsF, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QListWidget,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from tilelayout.app.compare.beside import Beside
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.look import STEP, Look, TextSize
from tilelayout.app.seeking.seeker import Offer
from tilelayout.app.seeking.small_picture import ROLES, SmallPicture, small_pictures

Index = QModelIndex | QPersistentModelIndex
PICTURE = QSize(15 * STEP, 11 * STEP)
_PAD = 2 * STEP
_LEAST_ROWS = 1.5


class FoundList(QListWidget):
    """The list. `brought(id)` when a person goes to a layout."""

    brought = Signal(str)

    def __init__(self, look: Look, beside: Beside, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._look, self._beside = look, beside
        self._offers: tuple[Offer, ...] = ()
        self._pictures: dict[str, SmallPicture] = {}
        self._picturing = LatestWork(self)
        self._picturing.answered.connect(self._take)
        self.setObjectName("found")
        self.setItemDelegate(_RowPainter(self, look))
        self.setAccessibleName("Layouts that were found")
        self.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.currentRowChanged.connect(self._go_to)
        self.itemClicked.connect(lambda item: self._go_to(self.row(item)))
        look.changed.connect(self._picture_anew)

    def sizeHint(self) -> QSize:
        """No higher than need be: the card shares out what room is left."""
        return QSize(super().sizeHint().width(), self.minimumHeight())

    @property
    def is_working(self) -> bool:
        """Whether pictures are being made."""
        return self._picturing.is_working

    def show_offers(self, offers: tuple[Offer, ...]) -> None:
        """Show what was found; the row of the layout in front is the current one."""
        is_new = offers != self._offers
        self._offers = offers
        with QSignalBlocker(self):
            if is_new:
                self.clear()
                self.addItems([offer.layout.id for offer in offers])
            front = self._beside.offer_in_front
            self.setCurrentRow(offers.index(front) if front in offers else -1)
        for at, offer in enumerate(offers):
            self.item(at).setData(Qt.ItemDataRole.AccessibleTextRole, self.spoken(offer))
            self.item(at).setToolTip(offer.why)
        if is_new:
            self._picture()
            self._take_height()
        self.viewport().update()

    def spoken(self, offer: Offer) -> str:
        """Return all that a row says as one text."""
        made = self._pictures.get(offer.layout.id)
        state = ", side by side" if self._beside.is_shown(offer.layout.id) else ""
        return f"{offer.layout.id}, found{state}. {made.figures + '. ' if made else ''}{offer.why}"

    def offer_at(self, index: Index) -> Offer:
        """The layout of a row."""
        return self._offers[index.row()]

    def picture_of(self, offer: Offer) -> SmallPicture | None:
        """The picture of a layout as soon as it is there."""
        return self._pictures.get(offer.layout.id)

    def is_beside(self, offer: Offer) -> bool:
        """Whether a layout stands side by side with others."""
        return self._beside.is_shown(offer.layout.id)

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._picturing.stop()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Coming here brings nothing to the front; the arrow keys do."""
        row = self.currentRow()
        with QSignalBlocker(self):
            super().focusInEvent(event)
            self.setCurrentRow(row)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the sentences anew."""
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()
        self._take_height()

    def _take_height(self) -> None:
        """From a row and a half, so that one sees that there are more, to all of them."""
        rows = [self.sizeHintForRow(row) for row in range(self.count())]
        self.setMinimumHeight(int(_LEAST_ROWS * max(rows, default=0)) if len(rows) > 1 else sum(rows))
        self.setMaximumHeight(sum(rows) + 2)

    def _picture(self) -> None:
        self._pictures = {}
        ids, job = tuple(offer.layout.id for offer in self._offers), self._beside.job
        colours = {role: self._look.colour(role) for role in ROLES}
        ratio = self.devicePixelRatioF()
        self._picturing.forget()
        if ids:
            self._picturing.ask(object(), lambda: small_pictures(job, ids, colours, PICTURE, ratio))

    def _picture_anew(self) -> None:
        self._picture()
        self.viewport().update()

    def _take(self, _question: object, made: tuple[SmallPicture, ...], _is_last: bool) -> None:
        self._pictures = {each.id: each for each in made}
        for at, offer in enumerate(self._offers):
            self.item(at).setData(Qt.ItemDataRole.AccessibleTextRole, self.spoken(offer))
        self.viewport().update()

    def _go_to(self, row: int) -> None:
        if 0 <= row < len(self._offers):
            self.brought.emit(self._offers[row].layout.id)


class _RowPainter(QStyledItemDelegate):
    """Paints a row: picture, number with figures, the reason below; the tool tip says all of it."""

    def __init__(self, rows: FoundList, look: Look) -> None:
        super().__init__(rows)
        self._rows, self._look = rows, look

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """High enough for the picture and for the whole reason."""
        words = self._words_height(index, self._room(self._rows.viewport().width()))
        return QSize(0, round(max(PICTURE.height(), words) + 2 * _PAD))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row."""
        rect, offer = QRectF(option.rect), self._rows.offer_at(index)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        is_front = bool(option.state & QStyle.StateFlag.State_Selected)
        if is_front:
            painter.fillRect(rect, self._look.colour("field"))
            painter.fillRect(
                QRectF(rect.left(), rect.top(), STEP, rect.height()), self._look.colour("accent")
            )
        self._paint_picture(painter, rect, offer)
        self._paint_words(painter, rect, offer)
        painter.setPen(QPen(self._look.colour("hairline"), 1.0))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(self._look.colour("accent"), 2.0))
            painter.drawRect(rect.adjusted(1, 1, -1, -1))
        painter.restore()

    def _paint_picture(self, painter: QPainter, rect: QRectF, offer: Offer) -> None:
        place = QRectF(rect.left() + _PAD, rect.top() + _PAD, PICTURE.width(), PICTURE.height())
        made = self._rows.picture_of(offer)
        painter.fillRect(place, self._look.colour("paper"))
        if made is not None:
            painter.drawImage(place, made.image, QRectF(made.image.rect()))
        if self._rows.is_beside(offer):
            painter.setBrush(Qt.BrushStyle.NoBrush)
            for inset, role, width in ((0.0, "ink", 2.0), (2.0, "paper", 1.0)):
                painter.setPen(QPen(self._look.colour(role), width))
                painter.drawRect(place.adjusted(inset, inset, -inset, -inset))

    def _paint_words(self, painter: QPainter, rect: QRectF, offer: Offer) -> None:
        room = self._room(rect.width()).translated(rect.topLeft())
        bold, text, small = self._fonts()
        painter.setFont(bold)
        painter.setPen(self._look.colour("panel_ink"))
        number = offer.layout.id
        painter.drawText(room.topLeft() + QPointF(0.0, QFontMetricsF(bold).ascent()), number)
        made = self._rows.picture_of(offer)
        beside = QFontMetricsF(bold).horizontalAdvance(number + "  ")
        painter.setFont(text)
        figures = QFontMetricsF(text).elidedText(
            made.figures if made else "…", Qt.TextElideMode.ElideRight, room.width() - beside
        )
        painter.drawText(room.topLeft() + QPointF(beside, QFontMetricsF(bold).ascent()), figures)
        painter.setFont(small)
        painter.setPen(self._look.colour("faint_panel_ink"))
        below = room.adjusted(0.0, QFontMetricsF(bold).lineSpacing() + STEP / 2, 0.0, 0.0)
        painter.drawText(below, int(Qt.TextFlag.TextWordWrap), offer.reason)

    def _words_height(self, index: Index, room: QRectF) -> float:
        bold, _text, small = self._fonts()
        box = QRectF(0, 0, room.width(), 1000)
        why = QFontMetricsF(small).boundingRect(
            box, int(Qt.TextFlag.TextWordWrap), self._rows.offer_at(index).reason
        )
        return QFontMetricsF(bold).lineSpacing() + STEP / 2 + why.height()

    def _room(self, width: float) -> QRectF:
        left = 2 * _PAD + PICTURE.width() + STEP
        return QRectF(left, _PAD, max(width - left - _PAD, 10.0), 1000.0)

    def _fonts(self) -> tuple[QFont, QFont, QFont]:
        bold = QFont(self._look.font(TextSize.TEXT))
        bold.setBold(True)
        return bold, self._look.font(TextSize.SMALL), self._look.font(TextSize.SMALL)
