"""What stands in the place of the board before there is a room: three ways to begin, no dead end."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from tilelayout.app.access_keys import give_keys
from tilelayout.app.bench import Bench
from tilelayout.app.cards.measure import add_plain
from tilelayout.app.flow import Flow
from tilelayout.app.look import GRAB, STEP, TextSize
from tilelayout.app.paint.paths import polygons_path, rings_path
from tilelayout.app.plain_size import PlainSize
from tilelayout.app.samples import samples
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.values import Job, SurfaceKind
from tilelayout.planning.plan import Plan, plan

_SIDE = 34 * STEP


class SampleButton(QAbstractButton):
    """A sample room, drawn from its real plan, with its title."""

    def __init__(self, path: Path, job: Job, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.job = job
        self._bench = bench
        self._plan = _first_plan(job)
        self.setText(job.title or path.stem)
        self.setAccessibleName(f"Open the sample room {self.text()}")
        self.setToolTip(self.text())

    def sizeHint(self) -> QSize:
        """A picture above two lines of text."""
        lines = 2 * self.fontMetrics().lineSpacing()
        return QSize(
            max(_SIDE, self.fontMetrics().averageCharWidth() * 20), _SIDE * 3 // 4 + lines + 2 * STEP
        )

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint room and title."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        look = self._bench.look
        picture = QRectF(2 * STEP, 2 * STEP, self.width() - 4 * STEP, _SIDE * 3 / 4 - 3 * STEP)
        if self._plan is not None:
            self._paint_room(painter, picture, self._plan)
        painter.setPen(look.colour("ink"))
        words = QRectF(STEP, picture.bottom() + 2 * STEP, self.width() - 2 * STEP, self.height())
        flags = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap
        painter.drawText(words, int(flags), self.text())
        if self.hasFocus() or self.underMouse():
            painter.setPen(QPen(look.colour("accent" if self.hasFocus() else "line"), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _paint_room(self, painter: QPainter, picture: QRectF, plan: Plan) -> None:
        look, laid = self._bench.look, plan.laid
        rings = rings_path(laid.region.rings)
        bounds = rings.boundingRect()
        scale = min(picture.width() / bounds.width(), picture.height() / bounds.height())
        painter.save()
        painter.translate(picture.center())
        painter.scale(scale, -scale)
        painter.translate(-bounds.center())
        painter.fillPath(rings, look.colour("tile_joint"))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.colour("tile_face"))
        for faces in laid.whole_faces:
            painter.drawPath(polygons_path(faces))
        painter.setBrush(look.colour("cut_tint"))
        painter.drawPath(rings_path([piece.outline for piece in laid.cut]))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(look.colour("wall"), 2.5 / scale))
        painter.drawPath(rings)
        painter.restore()


class Invitation(QWidget):
    """`draw_wanted(tool)` asks for a drawing tool, `sample_wanted(job)` for a sample room."""

    draw_wanted = Signal(str)
    sample_wanted = Signal(object)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("invitation")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._bench = bench
        self._headings: list[QLabel] = []
        self.by_mouse = QPushButton("Draw a plain room")
        self.by_corners = QPushButton("Draw it corner by corner")
        self.room = PlainSize(self)
        self.room.setMaximumWidth(70 * STEP)
        self.add = QPushButton("Make this room")
        self.rooms = QWidget(self)
        self._flow = Flow(self.rooms, 3 * STEP)
        self._place()
        self._connect()
        bench.look.changed.connect(self._dress)
        bench.job_changed.connect(self.refresh)
        self._dress()

    def refresh(self) -> None:
        """Show the sizes in the job's lengths."""
        self.room.show_in(self._bench.job.show_lengths)

    def showEvent(self, event: object) -> None:
        """The sample rooms are opened and drawn when they are first to be seen."""
        self.refresh()
        if not self._flow.count():
            for path, job in samples():
                button = SampleButton(path, job, self._bench, self.rooms)
                button.clicked.connect(lambda _on=False, job=job: self.sample_wanted.emit(job))
                self._flow.addWidget(button)
                button.show()

    def _place(self) -> None:
        inner = QWidget(self)
        inner.setObjectName("invitation")
        column = QVBoxLayout(inner)
        column.setContentsMargins(12 * STEP, 10 * STEP, 12 * STEP, 6 * STEP)
        column.setSpacing(3 * STEP)
        column.addWidget(self._heading("What shape is the room?"))
        for words, *widgets in (
            ("Draw it with the mouse. Sizes can be typed while you draw.", self.by_mouse, self.by_corners),
            ("Or type the size of a plain room.", self.room, self.add),
        ):
            column.addSpacing(2 * STEP)
            column.addWidget(_faint(words))
            column.addLayout(_row(widgets))
        column.addSpacing(2 * STEP)
        column.addWidget(_faint("Or open a sample room and play with it."))
        column.addWidget(self.rooms)
        column.addStretch(1)
        scroll = QScrollArea(self)
        scroll.setObjectName("paperScroll")
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setWidgetResizable(True)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(inner)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scroll)

    def _connect(self) -> None:
        self.by_mouse.setObjectName("next")
        for button in (self.by_mouse, self.by_corners, self.add):
            button.setAccessibleName(button.text())
            button.setMinimumHeight(GRAB + 2 * STEP)
        give_keys([self.by_mouse, self.by_corners, self.add], "JEVDPH")
        self.by_mouse.clicked.connect(lambda: self.draw_wanted.emit("draw_rectangle"))
        self.by_corners.clicked.connect(lambda: self.draw_wanted.emit("draw_surface"))
        self.add.clicked.connect(lambda: add_plain(self._bench, SurfaceKind.FLOOR, self.room.outline))

    def _heading(self, words: str) -> QLabel:
        label = QLabel(words, self)
        label.setWordWrap(True)
        self._headings.append(label)
        return label

    def _dress(self) -> None:
        for label in self._headings:
            label.setFont(self._bench.look.font(TextSize.FIGURE))
        self.update()


def _faint(words: str) -> QLabel:
    label = QLabel(words)
    label.setObjectName("faint")
    label.setWordWrap(True)
    return label


def _row(widgets: Sequence[QWidget]) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(3 * STEP)
    for widget in widgets:
        row.addWidget(widget, 0, Qt.AlignmentFlag.AlignTop)
    row.addStretch(1)
    return row


def _first_plan(job: Job) -> Plan | None:
    try:
        made = plan(job, job.layouts[0].id) if job.layouts else None
        if made is not None:
            _ = made.whole
    except TileLayoutError:
        return None
    return made
