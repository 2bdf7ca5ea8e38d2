"""The place where layouts are compared: two to four linked views, or two of them under a wipe.

Every view is of one size and shares one `LinkedView`, so what is pushed or zoomed in one has moved in all.
"""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QRect, QRectF, QSize, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.board.navigator import STEP as ZOOM_STEP
from tilelayout.app.board.shown import Shown, shown_of
from tilelayout.app.board.view import View, fitted
from tilelayout.app.compare.beside import Beside
from tilelayout.app.compare.linked import LinkedView
from tilelayout.app.compare.pane import ViewPane
from tilelayout.app.compare.sight import HEAD, Sight
from tilelayout.app.compare.wipe import WipePane
from tilelayout.job.values import Layout

_SEAM = 1
"""Between two views, in px."""

HINT = "Drag or turn the wheel: all views move alike. A click takes a layout."
WIPE_HINT = "Drag the grip, or move it by the arrow keys, to wipe from one layout to the other."


class ComparePlace(QWidget):
    """The views. `zoom_changed(px per mm)`; `wipe_changed` when they are laid over each other or parted."""

    zoom_changed = Signal(float)
    wipe_changed = Signal()

    def __init__(self, bench: Bench, beside: Beside, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bench, self.beside = bench, beside
        self.linked = LinkedView(self._view_moved)
        self.panes: list[ViewPane] = []
        self.wipe_pane = WipePane(bench.look, self.linked, self)
        self.is_wiping: bool = False
        self._shown: dict[str, Shown] = {}
        self._surface, self._second = "", ""
        self._listen_to(self.wipe_pane)
        self.setAccessibleName("Layouts side by side")
        self.setMinimumSize(240, 160)
        for heard in (beside.changed, bench.place_changed, bench.job_changed):
            heard.connect(self._refresh_if_shown)
        bench.look.changed.connect(self._restyle)

    @property
    def view(self) -> View:
        """Where all views look."""
        return self.linked.view

    @property
    def can_wipe(self) -> bool:
        """Whether there are two layouts to wipe between."""
        return len(self.beside.shown) > 1

    @property
    def hint(self) -> str:
        """What the hand can do here, in one sentence."""
        return WIPE_HINT if self._is_wiped else HINT

    @property
    def sights(self) -> tuple[Sight, ...]:
        """The views that are seen."""
        return (self.wipe_pane,) if self._is_wiped else tuple(self.panes)

    def refresh(self) -> None:
        """Show the layouts as they are now."""
        surface = self._bench.surface
        self._make_panes()
        if surface is not None:
            layouts = self.beside.shown
            self._shown = {shown.layout.id: shown for shown in self._all_shown(layouts) if shown.layout}
            self._show_layouts(layouts)
            bare = shown_of(self._bench.job, surface.id, None, Stage.COMPARE)
            if not layouts:
                self.panes[0].show_layout(bare, is_in_front=False, is_laid=False)
            self.linked.bounds = bare.bounds
        self._place()
        if surface is not None and surface.id != self._surface:
            self._surface = surface.id
            self.fit()

    def toggle_wipe(self) -> None:
        """Lay two layouts over each other, or part them."""
        self.is_wiping = not self.is_wiping
        self.refresh()
        self.focus_front()
        self.wipe_changed.emit()

    # --- moving about ----------------------------------------------------------------------------------

    def zoom_in(self) -> None:
        """Show everything a step larger."""
        self.linked.zoom(ZOOM_STEP)

    def zoom_out(self) -> None:
        """Show everything a step smaller."""
        self.linked.zoom(1.0 / ZOOM_STEP)

    def fit(self) -> None:
        """Bring the whole surface into every view."""
        self.linked.fit()

    def zoom_to_selection(self) -> None:
        """Bring the whole surface into every view: nothing in it is chosen here."""
        self.fit()

    def actual_size(self) -> None:
        """Show the surface as large as it is."""
        self.linked.set_scale(self.logicalDpiX() / 25.4)

    def focus_front(self) -> None:
        """Give the keyboard to the slider, or to the view of the layout in front."""
        if self._is_wiped:
            self.wipe_pane.wiper.setFocus()
        elif self.panes:
            front = [pane for pane in self.panes if pane.is_in_front]
            (front or self.panes)[0].setFocus()

    # --- parts -----------------------------------------------------------------------------------------

    @property
    def _is_wiped(self) -> bool:
        return self.is_wiping and self.can_wipe

    def _make_panes(self) -> None:
        count = max(len(self.beside.shown), 1)
        while len(self.panes) < count:
            pane = ViewPane(self._bench.look, self.linked, self)
            self._listen_to(pane)
            self.panes.append(pane)
        for pane in self.panes[count:]:
            pane.hide()
            pane.deleteLater()
        del self.panes[count:]

    def _listen_to(self, sight: Sight) -> None:
        sight.taken.connect(self._take)
        sight.pointed.connect(lambda point: self._point(sight, point))

    def _all_shown(self, layouts: tuple[Layout, ...]) -> Iterator[Shown]:
        """Show again what has not changed as the very same, so that its picture is kept."""
        job = self.beside.job
        for layout in layouts:
            new = shown_of(job, layout.surface, layout.id, Stage.COMPARE)
            old = self._shown.get(layout.id)
            yield old if old is not None and _is_the_same(old, new) else new

    def _show_layouts(self, layouts: tuple[Layout, ...]) -> None:
        front = self.beside.front
        laid = self._bench.layouts[0].id if self._bench.layouts else ""
        for pane, layout in zip(self.panes, layouts, strict=False):
            shown = self._shown[layout.id]
            pane.show_layout(shown, is_in_front=layout is front, is_laid=layout.id == laid)
        if len(layouts) > 1:
            first, second = (self._shown[id] for id in self._wiped(layouts, front.id if front else ""))
            self.wipe_pane.show_pair((first, second), front.id if front else "")

    def _wiped(self, layouts: tuple[Layout, ...], front: str) -> tuple[str, str]:
        """Return the ids to wipe between: the first layout, and the one that was in front last, but it."""
        others = [layout.id for layout in layouts[1:]]
        self._second = next((id for id in (front, self._second) if id in others), others[0])
        return layouts[0].id, self._second

    def _place(self) -> None:
        is_wiped = self._is_wiped
        self.wipe_pane.setVisible(is_wiped)
        columns = 1 if is_wiped else self._columns()
        rows = 1 if is_wiped else -(-len(self.panes) // columns)
        size = QSize(
            (self.width() - _SEAM * (columns - 1)) // columns, (self.height() - _SEAM * (rows - 1)) // rows
        )
        self.linked.resize(QRectF(0.0, HEAD, size.width(), size.height() - HEAD))
        self.wipe_pane.setGeometry(QRect(self.rect().topLeft(), size))
        for at, pane in enumerate(self.panes):
            row, column = divmod(at, columns)
            x, y = column * (size.width() + _SEAM), row * (size.height() + _SEAM)
            pane.setGeometry(x, y, size.width(), size.height())
            pane.setVisible(not is_wiped)
        self.update()

    def _columns(self) -> int:
        """How many views stand in a row so that the surface is seen largest."""
        count, bounds = len(self.panes), self.linked.bounds

        def scale(columns: int) -> float:
            rows = -(-count // columns)
            room = QRectF(0.0, 0.0, self.width() / columns, max(self.height() / rows - HEAD, 1.0))
            return fitted(bounds, room, 0.1 * min(room.width(), room.height())).scale

        return max(range(1, count + 1), key=scale)

    # --- following -------------------------------------------------------------------------------------

    def _refresh_if_shown(self) -> None:
        if self.isVisible():
            self.refresh()

    def _take(self, id: str) -> None:
        if id:
            self.beside.bring(id)

    def _point(self, sight: Sight, point: tuple[float, float] | None) -> None:
        for other in self.sights:
            other.show_cross(None if other is sight else point)

    def _view_moved(self) -> None:
        for sight in (*self.panes, self.wipe_pane):
            sight.update()
        self.zoom_changed.emit(self.linked.view.scale)

    def _restyle(self) -> None:
        for sight in (*self.panes, self.wipe_pane):
            sight.forget()
        self.update()

    # --- Qt's events -----------------------------------------------------------------------------------

    def showEvent(self, event: object) -> None:
        """A place that comes to the front shows the job as it is now."""
        self.refresh()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the room anew."""
        if self.panes:
            self._place()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the ground, seen between the views."""
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), self._bench.look.colour("paper"))
            for pane in self.panes if not self._is_wiped else ():
                painter.fillRect(pane.geometry().adjusted(-1, -1, 1, 1), self._bench.look.colour("line"))


def _is_the_same(one: Shown, other: Shown) -> bool:
    parts = (
        (one.surface, other.surface),
        (one.layout, other.layout),
        (one.plan, other.plan),
        (one.style, other.style),
    )
    return all(mine is its for mine, its in parts)
