"""The list of border cuts: each wall with its cut and, quietly, what the cut may be if something is off."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSignalBlocker, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter
from PySide6.QtWidgets import (
    QApplication,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from tilelayout.app.look import GRAB, STEP, Look, TextSize

_RANGE = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex


class BorderRows(QListWidget):
    """The rows. A range stands at the end of its row, or below where there is no room."""

    def __init__(self, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setItemDelegate(_RowPainter(self, look))
        self.setAccessibleName("Border cuts")

    def show_rows(self, words: list[str]) -> None:
        """Show these rows, without ranges; the row that is chosen stays chosen."""
        with QSignalBlocker(self):
            while self.count() > len(words):
                self.takeItem(self.count() - 1)
            for row, text in enumerate(words):
                if row >= self.count():
                    self.addItem(QListWidgetItem(text))
                elif self.item(row).text() != text:
                    self.item(row).setText(text)
                self._put_range(row, "")

    def show_ranges(self, ranges: list[str]) -> None:
        """Show a range beside each row."""
        for row, words in enumerate(ranges[: self.count()]):
            self._put_range(row, words)
        self.doItemsLayout()

    def range_of(self, row: int) -> str:
        """The range that is shown beside a row."""
        return str(self.item(row).data(_RANGE) or "")

    def _put_range(self, row: int, words: str) -> None:
        item = self.item(row)
        item.setData(_RANGE, words)
        may_be = f", may be {words}" if words else ""
        item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{item.text()}{may_be}")


class _RowPainter(QStyledItemDelegate):
    """Paints a row as the style does, and its range in small faint type."""

    def __init__(self, rows: BorderRows, look: Look) -> None:
        super().__init__(rows)
        self._rows, self._look = rows, look

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """One line, or two where the range does not fit beside the words."""
        size = super().sizeHint(option, index)
        words = str(index.data(_RANGE) or "")
        if words and not self._fits(option, index, words):
            size.setHeight(size.height() + int(self._small().lineSpacing()))
        return QSize(size.width(), max(size.height(), GRAB + STEP))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row."""
        words = str(index.data(_RANGE) or "")
        fits = not words or self._fits(option, index, words)
        ground = QStyleOptionViewItem(option)
        self.initStyleOption(ground, index)
        if not fits:
            ground.displayAlignment = Qt.AlignmentFlag.AlignTop
        (ground.widget.style() if ground.widget else QApplication.style()).drawControl(
            QStyle.ControlElement.CE_ItemViewItem, ground, painter, ground.widget
        )
        if words:
            self._paint_range(painter, QRectF(option.rect), words, fits)

    def _paint_range(self, painter: QPainter, row: QRectF, words: str, fits: bool) -> None:
        painter.save()
        painter.setFont(self._look.font(TextSize.SMALL))
        painter.setPen(self._look.colour("faint_panel_ink"))
        vertical = Qt.AlignmentFlag.AlignVCenter if fits else Qt.AlignmentFlag.AlignBottom
        painter.drawText(
            row.adjusted(2 * STEP, 0, -2 * STEP, 0 if fits else -STEP),
            Qt.AlignmentFlag.AlignRight | vertical,
            words,
        )
        painter.restore()

    def _fits(self, option: QStyleOptionViewItem, index: Index, words: str) -> bool:
        text = QFontMetricsF(option.font).horizontalAdvance(str(index.data()))
        needed = text + self._small().horizontalAdvance(words) + 8 * STEP
        return needed <= self._rows.viewport().width()

    def _small(self) -> QFontMetricsF:
        return QFontMetricsF(self._look.font(TextSize.SMALL))
