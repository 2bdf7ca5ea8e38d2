"""One layout in a linked view, with its name above; the one in front has a double outline."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QWidget

from tilelayout.app.board.kept_room import KeptRoom
from tilelayout.app.board.shown import Shown
from tilelayout.app.compare.linked import LinkedView
from tilelayout.app.compare.sight import Sight
from tilelayout.app.look import STEP, Look, TextSize
from tilelayout.app.paint.palette import Colours

LAID_WORDS = "to be laid"


class ViewPane(Sight):
    """Shows one layout. A click takes it."""

    def __init__(self, look: Look, linked: LinkedView, parent: QWidget | None = None) -> None:
        super().__init__(look, linked, parent)
        self._kept = KeptRoom(look)
        self.shown: Shown | None = None
        self.is_in_front: bool = False
        self._is_laid: bool = False

    def show_layout(self, shown: Shown, *, is_in_front: bool, is_laid: bool) -> None:
        """Show a layout; `is_laid` claims that it is the one to be laid."""
        self.shown, self.is_in_front, self._is_laid = shown, is_in_front, is_laid
        self.setAccessibleName(", ".join(part for part in (title_of(shown), self._state) if part))
        self.setAccessibleDescription(words_about(shown))
        self.update()

    def forget(self) -> None:
        """Paint anew."""
        self._kept.forget()
        self.update()

    def id_at(self, point: QPointF) -> str:
        """The layout shown."""
        return self.shown.layout.id if self.shown and self.shown.layout else ""

    def paint_room(self, painter: QPainter) -> None:
        """Lay the room down, or say why it cannot be laid."""
        if self.shown is not None:
            self._kept.lay_down(painter, self.shown, self.linked.view, self.room, is_quick=False)
            paint_trouble(painter, self.shown, self.room, self.look)

    def paint_head(self, painter: QPainter, rect: QRectF) -> None:
        """Write the name, and at the end whether it is to be laid; outline what is in front."""
        inner = rect.adjusted(3.0 * STEP, 0.0, -3.0 * STEP, 0.0)
        tag = paint_tag(painter, inner, LAID_WORDS, self.look) if self._is_laid else 0.0
        title = title_of(self.shown) if self.shown else ""
        room = inner.adjusted(0.0, 0.0, -tag, 0.0)
        paint_title(painter, room, title, self.look, is_bold=self.is_in_front)
        if self.is_in_front:
            paint_in_front(painter, QRectF(self.rect()), self.look)

    @property
    def _state(self) -> str:
        words = (LAID_WORDS if self._is_laid else "", "in front" if self.is_in_front else "")
        return ", ".join(word for word in words if word)


def title_of(shown: Shown) -> str:
    """Return what to call what is shown."""
    if shown.layout is not None:
        return shown.layout.title
    return shown.surface.title if shown.surface is not None else ""


def words_about(shown: Shown) -> str:
    """Return the counts of a layout in words, for who cannot see it."""
    if shown.plan is None:
        return shown.trouble
    plan = shown.plan
    return f"{plan.whole} whole tiles, {plan.cut} cut pieces, {len(plan.slivers)} slivers."


def paint_title(
    painter: QPainter,
    rect: QRectF,
    title: str,
    colours: Colours,
    *,
    is_bold: bool,
    align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
) -> None:
    """Write a title at one end of `rect`, shortened if need be."""
    font = painter.font()
    font.setBold(is_bold)
    painter.setFont(font)
    words = QFontMetricsF(font).elidedText(title, Qt.TextElideMode.ElideRight, max(rect.width(), 0.0))
    painter.setPen(colours.colour("ink"))
    painter.drawText(rect, align | Qt.AlignmentFlag.AlignVCenter, words)


def paint_tag(painter: QPainter, rect: QRectF, tag: str, colours: Colours) -> float:
    """Write a word behind a dot at the right end of `rect` and return how wide they are."""
    wide = QFontMetricsF(painter.font()).horizontalAdvance(tag)
    painter.setPen(colours.colour("ink"))
    painter.drawText(rect, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, tag)
    painter.setBrush(colours.colour("ink"))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.drawEllipse(QPointF(rect.right() - wide - 2.5 * STEP, rect.center().y() + 1.0), 4.0, 4.0)
    return wide + 6.0 * STEP


def paint_in_front(painter: QPainter, rect: QRectF, colours: Colours) -> None:
    """Draw the double outline of what is in front."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for inset, width in ((1.0, 2.0), (4.0, 1.0)):
        painter.setPen(QPen(colours.colour("chalk"), width))
        painter.drawRect(rect.adjusted(inset, inset, -inset, -inset))


def paint_trouble(painter: QPainter, shown: Shown, rect: QRectF, look: Look) -> None:
    """Say on the room why it cannot be laid."""
    if not shown.trouble:
        return
    box = rect.adjusted(4.0 * STEP, 4.0 * STEP, -4.0 * STEP, -4.0 * STEP)
    flags = int(Qt.AlignmentFlag.AlignCenter) | int(Qt.TextFlag.TextWordWrap)
    painter.setFont(look.font(TextSize.TEXT))
    words = painter.boundingRect(box, flags, shown.trouble)
    painter.fillRect(words.adjusted(-2 * STEP, -STEP, 2 * STEP, STEP), look.colour("paper"))
    painter.setPen(look.colour("stop"))
    painter.drawText(box, flags, shown.trouble)
