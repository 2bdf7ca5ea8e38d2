"""The cut list as a list on the screen: each row drawn with the same figure as on the sheet for the saw."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from tilelayout.app.look import STEP, Look, TextSize
from tilelayout.app.paint.figure_painter import paint_figure
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.plan import Plan
from tilelayout.reports.figure import Figure
from tilelayout.reports.figures.piece_figure import piece_figure

Index = QModelIndex | QPersistentModelIndex

_SPOKEN = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
)
_ROOM = (80.0, 36.0)
"""Mm of paper that a piece is drawn for: at the width of a card its sizes are as large as small text."""


class CutRows(QAbstractListModel):
    """The rows of one plan. Figures are made when a row is first seen and kept."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.plan: Plan | None = None
        self.rows: tuple[CutRow, ...] = ()
        self._figures: dict[int, Figure] = {}

    def show_plan(self, plan: Plan | None) -> None:
        """Show another plan's rows."""
        if plan is not self.plan:
            self.beginResetModel()
            self.plan = plan
            self.rows = plan.cut_rows if plan is not None else ()
            self._figures = {}
            self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        """How many rows there are."""
        return 0 if parent is not None and parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The row in words, for the eye and for a screen reader."""
        row = self.rows[index.row()]
        return spoken(row) if role in _SPOKEN else None

    def figure(self, at: int) -> Figure | None:
        """The drawing of row `at`."""
        if at not in self._figures and self.plan is not None:
            self._figures[at] = piece_figure(self.rows[at], self.plan, _ROOM)
        return self._figures.get(at)

    def row_of(self, piece: str) -> int | None:
        """Return the place of the row that makes a piece; None if no row does."""
        for at, row in enumerate(self.rows):
            if any(each.id == piece for each in row.pieces):
                return at
        return None


def spoken(row: CutRow) -> str:
    """Return a row in one sentence.

    The order is that of the sheet: number, how many, size, cuts, walls.
    """
    walls = f", at {', '.join(row.walls)}" if row.walls else ""
    sliver = ", sliver" if row.is_sliver else ""
    return f"{row.number}: {row.count} of {row.size}, {'; '.join(row.words)}{walls}{sliver}"


class CutRowPainter(QStyledItemDelegate):
    """Paints a row: how many of which size, the wall, and the drawing."""

    def __init__(self, rows: CutRows, look: Look, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows = rows
        self._look = look

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Two lines of words and, below them, the drawing as high as it is."""
        figure = self._rows.figure(index.row())
        drawing = figure.height * option.rect.width() / _ROOM[0] if figure is not None else 0.0
        return QSize(20 * STEP, int(self._words_height() + drawing + 5 * STEP))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row."""
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        place = QRectF(option.rect)
        self._paint_ground(painter, place, option)
        inner = place.adjusted(3 * STEP, 2 * STEP, -STEP, -2 * STEP)
        self._paint_words(painter, inner, self._rows.rows[index.row()])
        figure = self._rows.figure(index.row())
        if figure is not None:
            drawing = inner.adjusted(0, self._words_height(), 0, 0)
            paint_figure(painter, figure, drawing, self._look, largest=drawing.width() / _ROOM[0])
        painter.restore()

    def _words_height(self) -> float:
        title, small = (QFontMetricsF(self._look.font(size)) for size in (TextSize.TITLE, TextSize.SMALL))
        return title.lineSpacing() + small.lineSpacing()

    def _paint_ground(self, painter: QPainter, place: QRectF, option: QStyleOptionViewItem) -> None:
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(place, self._look.colour("field"))
            painter.fillRect(
                QRectF(place.x(), place.y(), STEP, place.height()), self._look.colour("selection")
            )
        painter.setPen(QPen(self._look.colour("hairline"), 1.0))
        painter.drawLine(place.bottomLeft(), place.bottomRight())

    def _paint_words(self, painter: QPainter, place: QRectF, row: CutRow) -> None:
        count, wall = f"{row.count} ×", ", ".join(row.walls)
        painter.setPen(self._look.colour("panel_ink"))
        painter.setFont(self._look.font(TextSize.TITLE))
        high = painter.fontMetrics().lineSpacing()
        baseline = place.top() + painter.fontMetrics().ascent()
        painter.drawText(QPointF(place.left(), baseline), count)
        left = place.left() + painter.fontMetrics().horizontalAdvance(count + " ")
        painter.setFont(self._look.font(TextSize.TEXT))
        size = painter.fontMetrics().elidedText(
            row.size, Qt.TextElideMode.ElideRight, int(place.right() - left)
        )
        painter.drawText(QPointF(left, baseline), size)
        painter.setFont(self._look.font(TextSize.SMALL))
        painter.setPen(self._look.colour("stop" if row.is_sliver else "faint_panel_ink"))
        note = f"Sliver. {wall}" if row.is_sliver else wall
        note = painter.fontMetrics().elidedText(note, Qt.TextElideMode.ElideRight, int(place.width()))
        painter.drawText(QPointF(place.left(), place.top() + high + painter.fontMetrics().ascent()), note)
