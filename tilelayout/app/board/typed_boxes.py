"""The boxes for typed sizes, in a corner of the board while something is drawn.

The tool owns the values; the boxes show them and pass on what is typed. A box that is being typed in is
never overwritten by what the pointer does.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QLineEdit, QWidget

from tilelayout.app.board.lock_mark import LockMark
from tilelayout.app.look import GRAB, STEP, Look
from tilelayout.app.paint.strokes import line_pen
from tilelayout.drawing.events import (
    Entered,
    Escaped,
    Field,
    FieldChosen,
    FieldStepped,
    LockToggled,
    Typed,
)
from tilelayout.drawing.preview import Box

_MARGIN = 4 * STEP
_WIDTH = 92


class TypedBoxes(QFrame):
    """A small frame of boxes, one for each field of the preview. `sent` carries events for the tool."""

    sent = Signal(object)

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self._board = parent
        self._look = look
        self.setObjectName("typedBoxes")
        self._rows = QGridLayout(self)
        self._rows.setContentsMargins(STEP * 2, STEP, STEP, STEP)
        self._rows.setSpacing(STEP)
        self._lines: dict[Field, QLineEdit] = {}
        self._locks: dict[Field, LockMark] = {}
        self._wrong = QLabel(self)
        self._wrong.setObjectName("wrong")
        self._wrong.setWordWrap(True)
        self._wrong.setMaximumWidth(_WIDTH * 2)
        self._fields: tuple[Field, ...] = ()
        look.changed.connect(self._dress)
        self._dress()
        self.hide()

    @property
    def has_focus(self) -> bool:
        """Whether a person is typing in one of the boxes."""
        return any(line.hasFocus() for line in self._lines.values())

    def line(self, field: Field) -> QLineEdit:
        """Return the box of a field; KeyError if it is not shown."""
        return self._lines[field]

    def show_boxes(self, boxes: tuple[Box, ...]) -> None:
        """Show these boxes and no others; the one being typed in has the focus."""
        fields = tuple(box.field for box in boxes)
        if fields != self._fields:
            self._build(boxes)
        for box in boxes:
            self._show(box)
        wrong = next((box.wrong for box in boxes if box.wrong), "")
        self._wrong.setText(wrong)
        self._wrong.setVisible(bool(wrong))
        if not boxes and self.has_focus:
            self._board.setFocus()
        self.setVisible(bool(boxes))
        self.adjustSize()

    def stand_clear_of(self, point: QPointF, within: QRectF) -> None:
        """Stand in the upper right corner of the board, or in the left one where the drawing needs the right.

        Boxes that followed the pointer would be run into by a quick hand, and could never be clicked.
        """
        top = round(within.top()) + _MARGIN
        right = QRect(QPoint(round(within.right()) - _MARGIN - self.width(), top), self.size())
        is_free = not right.adjusted(-GRAB, -GRAB, GRAB, GRAB).contains(point.toPoint())
        self.move(right.topLeft() if is_free else QPoint(round(within.left()) + _MARGIN, top))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the slip of paper that the boxes stand on."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._look.colour("panel"))
        painter.setPen(line_pen(self._look.colour("line"), 1.0))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Turn the keys of drawing into events for the tool before the box takes them as text."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._take_key(event)
        if isinstance(event, QFocusEvent) and event.type() == QEvent.Type.FocusIn:
            field = next((field for field, line in self._lines.items() if line is watched), None)
            if field is not None and event.reason() == Qt.FocusReason.MouseFocusReason:
                self.sent.emit(FieldChosen(field))
        return False

    def _dress(self) -> None:
        self.setPalette(self._look.palette())

    def _take_key(self, event: QKeyEvent) -> bool:
        match event.key():
            case Qt.Key.Key_Tab:
                self.sent.emit(FieldStepped())
            case Qt.Key.Key_Backtab:
                self.sent.emit(FieldStepped(back=True))
            case Qt.Key.Key_Return | Qt.Key.Key_Enter:
                self._board.setFocus()
                self.sent.emit(Entered())
            case Qt.Key.Key_Escape:
                self._board.setFocus()
                self.sent.emit(Escaped())
            case _:
                return False
        return True

    def _build(self, boxes: tuple[Box, ...]) -> None:
        had_focus = self.has_focus
        while (item := self._rows.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None and widget is not self._wrong:
                widget.hide()
                widget.deleteLater()
        self._lines, self._locks = {}, {}
        for row, box in enumerate(boxes):
            self._add_row(row, box)
        self._rows.addWidget(self._wrong, len(boxes), 0, 1, 3)
        self._fields = tuple(box.field for box in boxes)
        if had_focus:
            self._board.setFocus()

    def _add_row(self, row: int, box: Box) -> None:
        line, lock, label = QLineEdit(self), LockMark(self._look, self), QLabel(box.label, self)
        line.setFixedWidth(_WIDTH)
        line.setMinimumHeight(GRAB)
        line.setAccessibleName(box.label)
        line.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        line.installEventFilter(self)
        label.setBuddy(line)
        field = box.field
        line.textEdited.connect(lambda text: self.sent.emit(Typed(field, text)))
        lock.clicked.connect(lambda: self.sent.emit(LockToggled(field)))
        for column, widget in enumerate((label, line, lock)):
            self._rows.addWidget(widget, row, column)
            widget.show()
        self._lines[field], self._locks[field] = line, lock

    def _show(self, box: Box) -> None:
        line, lock = self._lines[box.field], self._locks[box.field]
        if line.text() != box.text and not (
            line.hasFocus() and box.is_typed and line.text().strip() == box.text
        ):
            line.setText(box.text)
        line.setProperty("isWrong", bool(box.wrong))
        lock.setChecked(box.is_locked)
        words = f"{box.label}: {'kept' if box.is_locked else 'free'}"
        lock.setAccessibleName(words)
        lock.setToolTip(words)
        if box.is_active and (box.is_typed or self.has_focus) and not line.hasFocus():
            line.setFocus()
            if box.is_typed:
                line.setCursorPosition(len(box.text))
            else:
                line.selectAll()
