"""The panel beside the board that shows every start at once, and moves the start to the one taken.

The map belongs to everything of a layout but its start: taking a start leaves the map as it is. It is made
afresh, off the window's thread, when something else changes while the panel is open.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator

import numpy as np
from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.look import STEP, TextSize
from tilelayout.app.offset_map.best import BestStart, best_value
from tilelayout.app.offset_map.frame import Frame, frame_of
from tilelayout.app.offset_map.legend import BEST, BEST_FOUND, Legend
from tilelayout.app.offset_map.picture import scale_of
from tilelayout.app.offset_map.view import MapView
from tilelayout.app.offset_map.words import StartWords, start_words
from tilelayout.base.units import format_length
from tilelayout.job.edits.layouts import move_start
from tilelayout.job.values import Point
from tilelayout.layout.offset_map.map_of_starts import Measure, OffsetMap
from tilelayout.planning.offset_map import map_key, map_steps, nearest_alike, plan_at, repeat
from tilelayout.planning.plan import Plan

_SCROLL_BAR = 11
_HINT = "Click to start there, or move the cross by the arrow keys and press Enter."


class MapPanel(QWidget):
    """Shows the map of the layout in front while it is open. `closed` when a person closes it."""

    closed = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("mapPanel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName("Map of starts")
        self._bench = bench
        self.map: OffsetMap | None = None
        self._frame: Frame | None = None
        self._key: object = None
        self.view, self.legend = MapView(bench.look, self), Legend(bench.look, self)
        self.measure = ChoiceBox("Shown on the map", [(each.capitalize(), each) for each in Measure])
        self.heading, self.close_button = QLabel("Every start", self), QPushButton("Close", self)
        self.close_button.setAccessibleName("Close the map of starts")
        self.place, self.verdict, self.borders, self.state, self.why = (QLabel(self) for _ in range(5))
        self._mapping, self._pointing = LatestWork(self), LatestWork(self)
        self.best = BestStart(self)
        self._place_parts()
        self._connect()

    @property
    def is_refining(self) -> bool:
        """Whether the map is still being worked out."""
        return self._mapping.is_working

    def refresh(self) -> None:
        """Show the layout in front, if the panel is open."""
        if not self.isVisible():
            return
        plan = self._bench.plan
        key = None if plan is None else map_key(plan)
        if key != self._key:
            self._begin(plan, key)
        self._show()
        self._show_start()

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._mapping.stop()
        self._pointing.stop()
        self.best.stop()

    def showEvent(self, event: object) -> None:
        """An opened panel shows the layout as it is now."""
        self.refresh()

    def hideEvent(self, event: object) -> None:
        """A closed panel works no more; a map half made is begun again."""
        if self.map is None or not self.map.is_finished:
            self._key = None
        self._mapping.forget()
        self._pointing.forget()
        self.best.forget()

    def dress(self) -> None:
        """Set the type in the size in force."""
        look = self._bench.look
        self.heading.setFont(look.font(TextSize.TITLE))
        for label in (self.borders, self.state, self.why, self._hint):
            label.setFont(look.font(TextSize.SMALL))
        self.legend.setFont(look.font(TextSize.SMALL))
        wide = QFontMetrics(look.font(TextSize.TEXT)).averageCharWidth() * 40 + 8 * STEP
        self.setFixedWidth(max(wide, 60 * STEP))
        self._inner.setFixedWidth(self.width() - _SCROLL_BAR)  # no word that comes or goes moves the map
        self.refresh()

    # --- parts -----------------------------------------------------------------------------------------

    def _place_parts(self) -> None:
        self._inner = inner = QWidget(self)
        inner.setObjectName("mapColumn")
        column = QVBoxLayout(inner)
        column.setContentsMargins(3 * STEP, 3 * STEP, 3 * STEP, 3 * STEP)
        column.setSpacing(2 * STEP)
        top = QHBoxLayout()
        top.addWidget(self.heading, 1)
        top.addWidget(self.close_button)
        column.addLayout(top)
        self._hint = QLabel(_HINT, self)
        for label in (self.place, self.verdict, self.borders, self.state, self.why, self._hint):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        for label in (self.borders, self.state, self.why, self._hint):
            label.setObjectName("faint")
        column.addWidget(self._hint)
        for widget in (
            self.measure,
            self.view,
            self.legend,
            self.state,
            self.why,
            self.place,
            self.verdict,
            self.borders,
        ):
            column.addWidget(widget)
        column.addStretch(1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(_scrolled(inner, self))

    def _connect(self) -> None:
        for heard in (self._bench.job_changed, self._bench.place_changed):
            heard.connect(self.refresh)
        self._bench.look.changed.connect(self.view.update)
        self._mapping.answered.connect(self._take_map)
        self._mapping.failed.connect(self._fail)
        self.best.changed.connect(self._show)
        self._pointing.answered.connect(self._take_words)
        self.view.pointed.connect(self._point)
        self.view.left.connect(self._show_start)
        self.view.taken.connect(self._move_start)
        self.measure.chosen.connect(lambda _measure: self._show())
        self.close_button.clicked.connect(self.closed)

    # --- following -------------------------------------------------------------------------------------

    def _begin(self, plan: Plan | None, key: object) -> None:
        self._key, self.map, self._frame = key, None, None
        if plan is None:
            self._mapping.forget()
            return
        low = np.vstack(plan.region.rings).min(axis=0)
        self._frame = frame_of(repeat(plan), low)
        self._mapping.ask(map_key(plan), lambda: map_steps(plan))

    def _take_map(self, question: object, made: OffsetMap, _is_last: bool) -> None:
        if question == self._key:
            self.map = made
            self._show()

    def _fail(self, error: object) -> None:
        self.state.setText(str(error))

    def _show(self) -> None:
        layout, measure = self._bench.layout, Measure(str(self.measure.value))
        start = layout.start if layout is not None else (0.0, 0.0)
        self._seek_best(measure)
        found = self.best.found
        self.view.show_map(self.map, self._frame, measure, start, found.layout.start if found else None)
        self.why.setText(f"The best start: {found.why}." if found else "")
        self.why.setVisible(found is not None)
        self.state.setText(self._state_words())
        if self.map is not None:
            self._show_legend(self.map, measure)

    def _seek_best(self, measure: Measure) -> None:
        """Seek the best start once the first picture is there, so that it does not come later for it."""
        plan = self._bench.plan
        if plan is not None and self.map is not None and self.isVisible():
            self.best.ask(self._bench.job, plan, map_key(plan), measure)

    def _state_words(self) -> str:
        if self._bench.plan is None:
            return "Nothing is laid here yet."
        if self.map is None:
            return "Laying the starts…"
        seeking = "Seeking the best start. " if self.best.is_seeking else ""
        return f"{seeking}{self._map_words(self.map)}"

    @staticmethod
    def _map_words(made: OffsetMap) -> str:
        if made.is_finished:
            return "Exact at every start laid."
        return f"Refining, {100 * made.share_done:.0f} % exact."

    def _show_legend(self, made: OffsetMap, measure: Measure) -> None:
        scale, plan, found = scale_of(made, measure), self._bench.plan, self.best.found
        if plan is None:
            return
        self.legend.name_best("" if found is None else BEST if found.is_proved else BEST_FOUND)
        top = best_value(scale, found, measure)
        if measure is not Measure.NARROWEST:
            words = "slivers" if measure is Measure.SLIVERS else "cuts"
            self.legend.show_scale(scale, f"{scale.worst:.0f} {words}", f"{top:.0f}")
            return
        limit = format_length(plan.sliver_limit, plan.style)
        best = format_length(top, plan.style)
        nothing = format_length(0.0, plan.style)
        self.legend.show_scale(scale, nothing, best, (plan.sliver_limit, f"sliver under {limit}"))

    # --- pointing --------------------------------------------------------------------------------------

    def _point(self, start: Point) -> None:
        plan = self._bench.plan
        if plan is None:
            return

        def steps() -> Iterator[StartWords]:
            yield start_words(plan_at(plan, nearest_alike(plan, start)))

        self._pointing.ask((*_question(plan), start), steps, waits=True)

    def _show_start(self) -> None:
        """Show the words of the start as it is, unless something is pointed at."""
        plan = self._bench.plan
        if plan is None:
            self._take_words(None, StartWords("", "", ()), True)
        elif self.view.cursor_at is None:
            self._pointing.ask(_question(plan), lambda: iter((start_words(plan),)), waits=True)

    def _take_words(self, _question: object, words: StartWords, _is_last: bool) -> None:
        self.place.setText(words.place)
        self.verdict.setText(words.verdict)
        self.borders.setText("\n".join(words.borders))
        self.view.setAccessibleDescription(words.in_one)

    def _move_start(self, start: Point) -> None:
        layout, plan = self._bench.layout, self._bench.plan
        if layout is not None and plan is not None:
            there = nearest_alike(plan, start)
            self._bench.apply("Move start", lambda job: move_start(job, layout.id, there))

    def sizeHint(self) -> QSize:
        """As wide as it was dressed."""
        return QSize(self.width(), 100 * STEP)


def _question(plan: Plan) -> tuple[Hashable, ...]:
    return map_key(plan), plan.layout.start, plan.style


def _scrolled(inner: QWidget, parent: QWidget) -> QScrollArea:
    scroll = QScrollArea(parent)
    scroll.setObjectName("paperScroll")
    scroll.setWidgetResizable(True)
    scroll.setFrameShape(QFrame.Shape.NoFrame)
    scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    scroll.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
    scroll.setWidget(inner)
    return scroll
