"""Paints the rows of the cut list: a box to tick for dusty hands, the cut in words, a tile as it is sawn."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from tilelayout.app.cards.cut_rows import Check, CutRows, Heading, Index
from tilelayout.app.look import GRAB, STEP, Look, TextSize
from tilelayout.app.paint.figure_painter import paint_figure
from tilelayout.planning.cut_views import CutLine, CutView
from tilelayout.reports.figure import Figure
from tilelayout.reports.figures.tile_figure import tile_figure

BOX_ROOM = GRAB + 5 * STEP
"""The width at the left end of a row that ticks it."""

_PAD = 2 * STEP
_ROOM = (84.0, 46.0)
"""Mm of paper that a tile is drawn for: at the width of a card its words are as large as small text."""

_WRAP = int(Qt.TextFlag.TextWordWrap)
_TICK = ((0.2, 0.52), (0.42, 0.76), (0.82, 0.24))


class CutRowPainter(QStyledItemDelegate):
    """Paints headings and lines. Drawings of tiles are made when they are first seen, and kept."""

    def __init__(self, rows: CutRows, look: Look, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows, self._look = rows, look
        self._figures: dict[int, Figure] = {}
        self._heights: dict[tuple[str, str, float], float] = {}
        rows.modelReset.connect(self._forget)

    def _forget(self) -> None:
        self._figures.clear()
        self._heights.clear()

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """High enough for all words, and for the drawing where tiles are listed."""
        row, width = self._rows.rows[index.row()], float(option.rect.width())
        if isinstance(row, Heading):
            return QSize(
                20 * STEP, round(self._lines_height(self._heading_texts(row), width - 2 * _PAD) + 5 * STEP)
            )
        words = self._lines_height(self._line_texts(row), width - BOX_ROOM - _PAD) + 2 * _PAD
        return QSize(20 * STEP, round(max(words, GRAB + 2 * _PAD) + self._drawing_height(width)))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row."""
        row, place = self._rows.rows[index.row()], QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if isinstance(row, Heading):
            self._paint_texts(painter, place.adjusted(_PAD, 3 * STEP, -_PAD, 0), self._heading_texts(row))
        else:
            self._paint_line(painter, place, row, option)
        painter.setPen(QPen(self._look.colour("hairline"), 1.0))
        painter.drawLine(place.bottomLeft(), place.bottomRight())
        painter.restore()

    def _paint_line(
        self, painter: QPainter, place: QRectF, line: CutLine, option: QStyleOptionViewItem
    ) -> None:
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(place, self._look.colour("field"))
            bar = QRectF(place.x(), place.y(), STEP, place.height())
            painter.fillRect(bar, self._look.colour("accent"))
        self._paint_box(painter, _box(place), self._rows.state(line))
        words = place.adjusted(BOX_ROOM, _PAD, -_PAD, 0)
        self._paint_texts(painter, words, self._line_texts(line))
        if self._rows.view is CutView.TILE:
            drawing = place.adjusted(_PAD, place.height() - self._drawing_height(place.width()), -_PAD, -STEP)
            paint_figure(painter, self._figure(line), drawing, self._look, largest=place.width() / _ROOM[0])
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(self._look.colour("accent"), 2.0))
            painter.drawRect(place.adjusted(1, 1, -1, -1))

    def _paint_box(self, painter: QPainter, box: QRectF, state: Check) -> None:
        """Paint a box; full it has a tick, half full a dash."""
        look = self._look
        is_empty = state is Check.Unchecked
        painter.setPen(QPen(look.colour("line" if is_empty else "accent"), 2.0))
        painter.setBrush(look.colour("field") if state is not Check.Checked else look.colour("accent"))
        painter.drawRect(box.adjusted(1, 1, -1, -1))
        painter.setPen(QPen(look.colour("accent_ink" if state is Check.Checked else "accent"), 3.0))
        side = box.width()
        if state is Check.Checked:
            painter.drawPolyline([box.topLeft() + QPointF(x * side, y * side) for x, y in _TICK])
        elif state is Check.PartiallyChecked:
            painter.drawLine(box.center() - QPointF(side / 4, 0), box.center() + QPointF(side / 4, 0))

    def _paint_texts(self, painter: QPainter, place: QRectF, texts: list[tuple[str, QFont, str]]) -> None:
        for words, font, role in texts:
            painter.setFont(font)
            painter.setPen(self._look.colour(role))
            painter.drawText(place, _WRAP, words)
            place = place.adjusted(0, self._height(words, font, place.width()), 0, 0)

    def _heading_texts(self, heading: Heading) -> list[tuple[str, QFont, str]]:
        group = heading.group
        below = ", ".join(filter(None, (group.words, f"{self._rows.progress(group)} made")))
        return [
            (group.heading, self._look.font(TextSize.TITLE), "panel_ink"),
            (below, self._look.font(TextSize.SMALL), "faint_panel_ink"),
        ]

    def _line_texts(self, line: CutLine) -> list[tuple[str, QFont, str]]:
        title = self._look.font(TextSize.TEXT)
        title.setWeight(QFont.Weight.DemiBold)
        small = self._look.font(TextSize.SMALL)
        return [
            (line.title, title, "panel_ink"),
            *((words, small, "faint_panel_ink") for words in line.words),
        ]

    def _lines_height(self, texts: list[tuple[str, QFont, str]], width: float) -> float:
        return sum(self._height(words, font, width) for words, font, _ in texts)

    def _height(self, words: str, font: QFont, width: float) -> float:
        key = (words, font.key(), width)
        if key not in self._heights:
            self._heights[key] = self._measured(words, font, width)
        return self._heights[key]

    def _measured(self, words: str, font: QFont, width: float) -> float:
        return QFontMetricsF(font).boundingRect(QRectF(0, 0, max(width, 40.0), 1e4), _WRAP, words).height()

    def _drawing_height(self, width: float) -> float:
        return _ROOM[1] * width / _ROOM[0] if self._rows.view is CutView.TILE else 0.0

    def _figure(self, line: CutLine) -> Figure:
        assert self._rows.ticks is not None
        number = line.tile.number
        if number not in self._figures:
            self._figures[number] = tile_figure(line.tile, self._rows.ticks.found, _ROOM)
        return self._figures[number]


def _box(place: QRectF) -> QRectF:
    return QRectF(place.x() + 3 * STEP, place.y() + _PAD, GRAB, GRAB)
