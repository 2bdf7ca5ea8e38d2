"""A layout that runs like words on a page: as many in a row as fit, then the next row."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget

from tilelayout.app.look import STEP


class Flow(QLayout):
    """Items side by side, wrapped at the width there is."""

    def __init__(self, parent: QWidget | None = None, spacing: int = STEP) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self.setSpacing(spacing)
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        """Put an item at the end."""
        self._items.append(item)

    def count(self) -> int:
        """How many items there are."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """The item at a place, if there is one."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Take an item out."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        """It takes no more room than it needs."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """The narrower, the higher."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return how high it is at a width."""
        return self._place(QRect(0, 0, width, 0), moves=False)

    def setGeometry(self, rect: QRect) -> None:
        """Place the items."""
        super().setGeometry(rect)
        self._place(rect, moves=True)

    def sizeHint(self) -> QSize:
        """One row of everything."""
        sizes = [item.sizeHint() for item in self._items if not item.isEmpty()]
        width = sum(size.width() + self.spacing() for size in sizes)
        margins = self.contentsMargins()
        high = max((size.height() for size in sizes), default=0)
        return QSize(width, high + margins.top() + margins.bottom())

    def minimumSize(self) -> QSize:
        """The widest item."""
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        margins = self.contentsMargins()
        return size + QSize(margins.left() + margins.right(), margins.top() + margins.bottom())

    def _place(self, rect: QRect, *, moves: bool) -> int:
        margins = self.contentsMargins()
        inner = rect.marginsRemoved(margins)
        x, y, row = inner.x(), inner.y(), 0
        for item in self._items:
            if item.isEmpty():
                continue
            size = item.sizeHint()
            if x + size.width() > inner.right() + 1 and row:
                x, y, row = inner.x(), y + row + self.spacing(), 0
            if moves:
                item.setGeometry(QRect(QPoint(x, y), size))
            x += size.width() + self.spacing()
            row = max(row, size.height())
        return y + row - rect.y() + margins.bottom()
