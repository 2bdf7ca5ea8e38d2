"""What stands in the place of the board before there is a surface: a floor or a wall, in three ways."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QAbstractButton,
    QButtonGroup,
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
from tilelayout.app.cards.measure import KIND_WORDS, add_plain
from tilelayout.app.flow import Flow
from tilelayout.app.look import GRAB, STEP, TextSize
from tilelayout.app.paint.paths import polygons_path, rings_path
from tilelayout.app.plain_size import PlainSize
from tilelayout.app.samples import each_sample
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.values import Job, SurfaceKind
from tilelayout.planning.plan import Plan, plan

_SIDE = 34 * STEP
_HIGH = GRAB + 2 * STEP

_SIDES = {SurfaceKind.FLOOR: ("Width", "Depth"), SurfaceKind.WALL: ("Width", "Height")}


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
    """`draw_wanted(tool, kind)` asks for a drawing tool, `sample_wanted(job)` for a sample room."""

    draw_wanted = Signal(str, object)
    sample_wanted = Signal(object)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("invitation")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._bench = bench
        self._headings: list[QLabel] = []
        self._question = self._heading()
        self.kinds = {kind: QPushButton(words) for kind, words in KIND_WORDS.items()}
        self._kinds = QButtonGroup(self)
        self.by_mouse = QPushButton("Draw a rectangle")
        self.by_corners = QPushButton("Draw it &corner by corner")
        self.room = PlainSize(self)
        self.room.setMaximumWidth(70 * STEP)
        self.add = QPushButton("Make it")
        self.rooms = QWidget(self)
        self._flow = Flow(self.rooms, 3 * STEP)
        self._coming = each_sample()
        self._next_room = QTimer(self)
        self._next_room.setSingleShot(True)
        self._next_room.setInterval(1)
        self._next_room.timeout.connect(self._show_next_room)
        self._place()
        self._connect()
        bench.look.changed.connect(self._dress)
        bench.job_changed.connect(self.refresh)
        self._dress()

    @property
    def kind(self) -> SurfaceKind:
        """What is to be drawn or made."""
        return next(kind for kind, button in self.kinds.items() if button.isChecked())

    def refresh(self) -> None:
        """Show the sizes in the job's lengths, and ask about the floor or the wall."""
        self.room.show_in(self._bench.job.show_lengths)
        kind = KIND_WORDS[self.kind].lower()
        self._question.setText(f"What shape is the {kind}?")
        self.by_mouse.setAccessibleName(f"Draw the {kind} as a rectangle")
        self.by_corners.setAccessibleName(f"Draw the {kind} corner by corner")
        self.add.setAccessibleName(f"Make a {kind} of this size")
        across, up = _SIDES[self.kind]
        self.room.name_sides(across, up)

    def showEvent(self, event: object) -> None:
        """The sample rooms are opened and drawn after the rest is to be seen, one at a time."""
        self.refresh()
        self._next_room.start()

    def _show_next_room(self) -> None:
        for path, job in self._coming:
            button = SampleButton(path, job, self._bench, self.rooms)
            button.clicked.connect(lambda _on=False, job=job: self.sample_wanted.emit(job))
            self._flow.addWidget(button)
            button.show()
            self._next_room.start()
            return

    def _place(self) -> None:
        inner = QWidget(self)
        inner.setObjectName("invitation")
        column = QVBoxLayout(inner)
        column.setContentsMargins(12 * STEP, 10 * STEP, 12 * STEP, 6 * STEP)
        column.setSpacing(3 * STEP)
        column.addWidget(self._question)
        which = _faint("The other can be added later.")
        which.setWordWrap(False)
        which.setMinimumHeight(_HIGH)
        column.addLayout(_row([*self.kinds.values(), which]))
        for words, *widgets in (
            ("Draw it with the mouse. Sizes can be typed while you draw.", self.by_mouse, self.by_corners),
            ("Or type the size of a plain one.", self.room, self.add),
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
        for kind, button in self.kinds.items():
            button.setAccessibleName(f"Begin with a {KIND_WORDS[kind].lower()}")
            button.setCheckable(True)
            button.setChecked(kind is SurfaceKind.FLOOR)
            button.setMinimumWidth(22 * STEP)
            button.clicked.connect(self.refresh)
            self._kinds.addButton(button)
        buttons = [*self.kinds.values(), self.by_mouse, self.by_corners, self.add]
        for button in buttons:
            button.setMinimumHeight(_HIGH)
        give_keys(buttons, "JEVDPH")
        self.by_mouse.clicked.connect(lambda: self.draw_wanted.emit("draw_rectangle", self.kind))
        self.by_corners.clicked.connect(lambda: self.draw_wanted.emit("draw_surface", self.kind))
        self.add.clicked.connect(lambda: add_plain(self._bench, self.kind, self.room.outline))

    def _heading(self) -> QLabel:
        label = QLabel(self)
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
