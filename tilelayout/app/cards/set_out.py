"""The third card: where the tiles start. Start and angle typed, what the border cuts are, other layouts."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.border_of_tiles import BorderOfTiles
from tilelayout.app.cards.border_rows import BorderRows
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.cards.lines import LineRows
from tilelayout.app.cards.plank_rows import PlankRows
from tilelayout.app.cards.seeking import SeekRows
from tilelayout.app.centring import Centre, centred_start
from tilelayout.app.compare.another import copy_of
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.length_box import LengthBox, NumberBox
from tilelayout.base.units import format_length
from tilelayout.drawing.naming import sentence
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits import layouts as edits
from tilelayout.job.values import Job
from tilelayout.layout.borders import BorderCut
from tilelayout.planning.plan import Plan
from tilelayout.planning.range_words import border_cut_words, border_range_words, counts_words, off_words
from tilelayout.planning.sensitivity import BorderRange, Ranges, range_steps
from tilelayout.planning.wall_names import stretch_name

_AT_REST_MS = 900


class SetOutCard(Card):
    """Move the start and see every border cut follow."""

    question = "Where do the lines go?"
    next_step = "Next: see the cuts"

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, ("whole", "cut", "narrowest"), parent)
        self.seek = SeekRows(self)
        self._add_start_rows()
        self.planks, self.border = PlankRows(self), BorderOfTiles(self)
        self._add_borders()
        self.lines = LineRows(self)
        self._add_layout_rows()
        self.finish(is_filled=True)
        bench.seeker.changed.connect(self._show_next)

    def go_on(self) -> None:
        """To the comparison if there is something to compare, else to the cuts."""
        self.bench.show(stage=Stage.COMPARE if self._count > 1 else Stage.CUT)

    @property
    def _count(self) -> int:
        """How many layouts there are to compare."""
        return len(self.bench.layouts) + len(self.bench.seeker.offers)

    def dress(self) -> None:
        """Set the type in the size in force."""
        super().dress()
        self.seek.dress()

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._waiting.stop()
        self._ranging.stop()
        self.planks.stop()

    def refresh(self) -> None:
        """Show the layout in front."""
        layout, style = self.bench.layout, self.bench.job.show_lengths
        self.invite.setVisible(layout is None)
        for row in self._rows:
            row.setVisible(layout is not None)
        self.fill_up(layout is None)
        self._show_next()
        self.seek.refresh()
        self.lines.refresh()
        self.planks.show(layout, style)
        self.border.show(layout, style)
        self._show_plan(self.bench.plan)
        if layout is not None:
            self.layouts.offer((each.title, each.id) for each in self.bench.layouts)
            self.layouts.show_value(layout.id)
            self.angle.show_number(layout.angle)
            self.from_left.show_length(layout.start[0], style)
            self.from_bottom.show_length(layout.start[1], style)
            self.remove.setEnabled(len(self.bench.layouts) > 1)

    def _show_next(self) -> None:
        """Say on the button what really comes next."""
        step = f"Next: compare {self._count} layouts" if self._count > 1 else ""
        self.lead(self.bench.plan is not None, "choose the tile", Stage.TILE, step)

    def _add_start_rows(self) -> None:
        self.invite = QLabel("No tile is laid on this surface yet. Choose one on the card before this.", self)
        self.invite.setObjectName("faint")
        self.invite.setWordWrap(True)
        self.column.addWidget(self.invite)
        self.from_left, self.from_bottom = (
            LengthBox("Start from left", least=None),
            LengthBox("Start from bottom", least=None),
        )
        self.angle = NumberBox("Angle of the pattern", unit="°", example="45")
        self.centres = [QPushButton(words) for words in ("Tile", "Joint", "Tile", "Joint")]
        for button, direction in zip(self.centres, ("across", "across", "up", "up"), strict=True):
            button.setAccessibleName(f"Centre on a {button.text().lower()}, {direction}")
        self._rows: list[QWidget] = [
            self.add_row("From left", self.from_left),
            self.add_row("From bottom", self.from_bottom),
            self.add_row("Angle", self.angle),
            self.add_row("Centre across", *self.centres[:2]),
            self.add_row("Centre up", *self.centres[2:]),
        ]
        self.from_left.entered.connect(lambda x: self._move(x=x))
        self.from_bottom.entered.connect(lambda y: self._move(y=y))
        self.angle.entered.connect(lambda angle: self._change("Turn the pattern", angle=angle % 360))
        for button, centre in zip(self.centres, (*Centre, *Centre), strict=True):
            is_up = button in self.centres[2:]
            button.clicked.connect(lambda _on=False, to=centre, is_up=is_up: self._centre(to, is_up))

    def _add_borders(self) -> None:
        self.borders_label = QLabel("Border cuts", self)
        self.borders_label.setObjectName("faint")
        self.borders = BorderRows(self.bench.look, self)
        self.borders.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        self.borders_label.setBuddy(self.borders)
        self.add_rule()
        self.column.addWidget(self.borders_label)
        self.column.addWidget(self.borders, 1)
        self.may_be = QLabel(self)
        self.may_be.setObjectName("faint")
        self.may_be.setWordWrap(True)
        self.may_be.setAccessibleName("What the counts may be")
        self.column.addWidget(self.may_be)
        self._rows += [self.borders_label, self.borders]
        self._ranging, self._waiting = LatestWork(self), QTimer(self)
        self._waiting.setSingleShot(True)
        self._waiting.setInterval(_AT_REST_MS)
        self._waiting.timeout.connect(self._begin_ranges)
        self._ranging.answered.connect(self._show_ranges)
        self._keyed(self.borders_label)
        self.borders.currentRowChanged.connect(self._choose_border)
        self._edges: list[int] = []

    def _add_layout_rows(self) -> None:
        self.layouts = ChoiceBox("Layout")
        self.another, self.remove = QPushButton("Copy"), QPushButton("Remove")
        self.add_rule()
        self._rows.append(self.add_row("Layout", self.layouts))
        self._rows.append(self.add_row("", self.another, self.remove))
        self.layouts.chosen.connect(lambda id: self.bench.show(layout=id))
        self.another.clicked.connect(self._duplicate)
        self.remove.clicked.connect(lambda: self._edit("Remove layout", edits.remove_layout))

    def _show_plan(self, plan: Plan | None) -> None:
        values = ("–", "–", "–")
        if plan is not None:
            least = "–" if plan.narrowest is None else format_length(plan.narrowest, plan.style)
            values = (str(plan.whole), str(plan.cut), least)
        for figure, value in zip(self.figures, values, strict=True):
            figure.show_value(value)
        rows = [] if plan is None else [(cut.edge, border_words(cut, plan)) for cut in plan.borders]
        self._edges = [edge for edge, _ in rows]
        self._show_borders([words for _, words in rows])
        self._ask_ranges(plan)

    def _show_borders(self, words: list[str]) -> None:
        self.borders.show_rows(words)
        height = sum(max(self.borders.sizeHintForRow(row), 0) for row in range(min(len(words), 5)))
        self.borders.setMinimumHeight(min(height, 240) + 4)

    def _ask_ranges(self, plan: Plan | None) -> None:
        """Work out what may be if something is off, once the start has come to rest."""
        self.may_be.setVisible(plan is not None)
        self.may_be.setText("")
        self._waiting.stop()
        if plan is None or self._ranging.question is not plan:
            self._ranging.forget()
        if plan is not None:
            self._waiting.start()

    def _begin_ranges(self) -> None:
        plan = self.bench.plan
        if plan is not None and self.isVisible():
            self._ranging.forget()
            self._ranging.ask(plan, lambda: range_steps(plan))

    def _show_ranges(self, question: object, ranges: Ranges, is_last: bool) -> None:
        plan = self.bench.plan
        if is_last and plan is question and plan is not None:
            found = (ranges.borders.get(edge, BorderRange()) for edge in self._edges)
            self.borders.show_ranges([border_range_words(each, plan.style) for each in found])
            self.may_be.setText(f"With {off_words(plan.style)}: {counts_words(ranges)}.")

    def _choose_border(self, row: int) -> None:
        surface = self.bench.surface
        if surface is not None and 0 <= row < len(self._edges):
            self.bench.choose(Pick(PickKind.EDGE, surface.id, self._edges[row]))

    def _edit(self, label: str, edit: Callable[[Job, str], Job]) -> None:
        layout = self.bench.layout
        if layout is not None:
            self.bench.apply(label, lambda job: edit(job, layout.id))

    def _change(self, label: str, **changes: object) -> None:
        self._edit(label, lambda job, id: edits.replace_layout(job, id, **changes))

    def _move(self, x: float | None = None, y: float | None = None) -> None:
        def edit(job: Job, id: str) -> Job:
            old = job.layout(id).start
            return edits.move_start(job, id, (old[0] if x is None else x, old[1] if y is None else y))

        self._edit("Move start", edit)

    def _centre(self, centre: Centre, is_up: bool) -> None:
        layout, plan = self.bench.layout, self.bench.plan
        if layout is not None and plan is not None:
            start = centred_start(plan, up=centre) if is_up else centred_start(plan, across=centre)
            self._edit("Centre the layout", lambda job, id: edits.move_start(job, id, start))

    def _duplicate(self) -> None:
        def edit(job: Job, id: str) -> Job:
            return edits.add_layout(job, copy_of(job.layout(id), job))

        self._edit("Add layout", edit)


def border_words(cut: BorderCut, plan: Plan) -> str:
    """Return an edge's name and the cut along it: "Window wall BC: 243 mm"."""
    return f"{sentence(stretch_name(plan.surface, cut.edge))}: {border_cut_words(cut, plan.style)}"
