"""The card between setting out and cutting: which of the layouts to lay. The table, the names, the choice."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QToolButton, QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.fields import TextBox
from tilelayout.app.compare.another import another_layout, copy_of
from tilelayout.app.compare.beside import Beside
from tilelayout.app.compare.found_list import FoundList
from tilelayout.app.compare.table import CompareTable
from tilelayout.app.flow import Flow
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.look import STEP, TextSize
from tilelayout.app.seeking.seeker import Answer
from tilelayout.app.seeking.takeover import keep, lay
from tilelayout.app.seeking.wanted import AIM_WORDS
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.edits import layouts as edits
from tilelayout.job.values import Layout
from tilelayout.planning.compare import FEWEST, Comparison, compare
from tilelayout.planning.plan import Plan, plan

_ONLY_ONE = "One layout lies on this surface. Make another to see the two side by side."
_NONE = "No tile is laid on this surface yet. Choose one on the card for it."
_LEAST_TABLE = 27 * STEP
"""In px: the letters, a heading and two figures. All other room of the card goes to table and found list."""


class Letters(QWidget):
    """A button for each layout of the surface; those shown are pressed. `toggled(id)` when one is hit."""

    toggled = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.buttons: dict[str, QToolButton] = {}
        self._flow = Flow(self, STEP)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)

    def offer(self, layouts: tuple[Layout, ...], beside: Beside) -> None:
        """Show a button for each layout."""
        if list(self.buttons) != [layout.id for layout in layouts]:
            self._make([layout.id for layout in layouts])
        for layout in layouts:
            button = self.buttons[layout.id]
            button.setChecked(beside.is_shown(layout.id))
            button.setAccessibleName(f"Show {layout.title}")
            button.setToolTip(layout.title)

    def _make(self, ids: list[str]) -> None:
        for button in self.buttons.values():
            self._flow.removeWidget(button)
            button.hide()
            button.deleteLater()
        self.buttons = {id: QToolButton(self) for id in ids}
        for id, button in self.buttons.items():
            button.setText(id)
            button.setCheckable(True)
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            button.clicked.connect(lambda _on=False, id=id: self.toggled.emit(id))
            self._flow.addWidget(button)
            button.show()
        if self.buttons:
            self.setFocusProxy(next(iter(self.buttons.values())))
        self.updateGeometry()


class CompareCard(Card):
    """The table beside the views, and what is done with the layout in front."""

    question = "Which one to lay?"
    next_step = "Lay this one"

    paper_wanted = Signal()
    width_wished = Signal()

    def __init__(self, bench: Bench, beside: Beside, parent: QWidget | None = None) -> None:
        super().__init__(bench, (), parent)
        self.beside = beside
        self.comparison: Comparison | None = None
        self._comparing = LatestWork(self)
        self._add_found()
        self._add_table()
        self._add_invitation()
        self._add_rows()
        self.finish(is_filled=True)
        beside.changed.connect(self._refresh_if_shown)
        self._comparing.answered.connect(self._take)

    def go_on(self) -> None:
        """Lay the layout in front, and on to its cuts."""
        layout = self.beside.front
        if layout is not None:
            self.bench.apply(f"Lay {layout.title}", lambda job: lay(job, layout))
        self.bench.show(stage=Stage.CUT)

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._comparing.stop()
        self.found.stop()

    @property
    def is_working(self) -> bool:
        """Whether the table or the pictures are still being worked out."""
        return self._comparing.is_working or self.found.is_working

    def sizeHint(self) -> QSize:
        """As wide as the table wishes to be."""
        usual = super().sizeHint()
        return usual.expandedTo(QSize(self.table.wished_width + 11 * STEP, 0))

    def refresh(self) -> None:
        """Show the layouts beside each other."""
        layouts = self.beside.all
        has_many = len(layouts) >= FEWEST
        for widget in self._many:
            widget.setVisible(has_many)
        self.shown_row.setVisible(len(layouts) > FEWEST)
        for widget in self._one:
            widget.setVisible(not has_many)
        self.invite.setText(_ONLY_ONE if layouts else _NONE)
        self.make.setVisible(len(layouts) == 1)
        self.fill_up(not has_many)
        can_be_laid = self.beside.offer_in_front is not None or self.bench.plan is not None
        self.lead(can_be_laid, "choose the tile", Stage.TILE)
        self.letters.offer(layouts, self.beside)
        self._show_found()
        self._show_front(self.beside.front)
        self._compare()

    def _show_found(self) -> None:
        answer, offers = self.bench.seeker.answer, self.bench.seeker.offers
        self.found_label.setText(_found_words(answer, len(offers)))
        self.found_label.setVisible(bool(offers))
        self.found.setVisible(bool(offers))
        self.found.show_offers(offers)
        self.cannot.setText(" ".join(answer.cannot) if answer else "")
        self.cannot.setVisible(bool(answer and answer.cannot))

    def _show_front(self, layout: Layout | None) -> None:
        """Show the name of the layout in front, and what can be done with it."""
        offer = self.beside.offer_in_front
        self.name_row.setVisible(layout is not None)
        self.name.show_text(layout.name if layout is not None and offer is None else "")
        self.name.line.setPlaceholderText("Name it to keep it" if offer else layout.title if layout else "")
        has_many = len(self.beside.all) >= FEWEST
        for button, is_there in ((self.copy, offer is None), (self.keep, offer is not None)):
            button.setVisible(is_there and has_many)

    def dress(self) -> None:
        """Take the look and the size of type in force."""
        super().dress()
        self.table.dress()
        for label in (self.remarks, self.cannot, self.found_label):
            label.setFont(self.bench.look.font(TextSize.SMALL))

    # --- parts -----------------------------------------------------------------------------------------

    def _add_found(self) -> None:
        self.found_label, self.cannot = QLabel(self), QLabel(self)
        self.found = FoundList(self.bench.look, self.beside, self)
        for label in (self.found_label, self.cannot):
            label.setObjectName("faint")
            label.setWordWrap(True)
        for widget, stretch in ((self.found_label, 0), (self.found, 2), (self.cannot, 0)):
            self.column.addWidget(widget, stretch)
        self.found.brought.connect(self.beside.bring)

    def _add_table(self) -> None:
        self.letters = Letters(self)
        self.group = "many"
        self.shown_row = self.add_row("Shown", self.letters)
        self.table = CompareTable(self.bench.look, self)
        self.table.setMinimumHeight(_LEAST_TABLE)
        self.column.addWidget(self.table, 3)
        self.remarks = QLabel(self)
        self.remarks.setObjectName("faint")
        self.remarks.setWordWrap(True)
        self.column.addWidget(self.remarks)
        self._many: list[QWidget] = [self.table]
        self.letters.toggled.connect(self._toggle)
        self.table.taken.connect(self.beside.bring)

    def _add_invitation(self) -> None:
        self.invite = QLabel(self)
        self.invite.setObjectName("faint")
        self.invite.setWordWrap(True)
        self.column.addWidget(self.invite)
        self.group = "one"
        self.make = QPushButton("Make another layout", self)
        self.add(self.make)
        self._one: list[QWidget] = [self.invite, self.make]
        self.make.clicked.connect(self._make_another)

    def _add_rows(self) -> None:
        self.group = ""
        self.name = TextBox("Name of the layout")
        self.copy, self.keep, self.paper = QPushButton("Copy"), QPushButton("Keep"), QPushButton("PDF…")
        for button, words in (
            (self.copy, "Copy this layout"),
            (self.keep, "Keep this layout"),
            (self.paper, "Save the comparison as PDF"),
        ):
            button.setAccessibleName(words)
            button.setToolTip(words)
        self.name_row = self.add_row("Name", self.name, self.copy, self.keep, self.paper)
        self._many += [self.copy, self.keep, self.paper]
        self.name.entered.connect(self._rename)
        self.copy.clicked.connect(self._copy)
        self.keep.clicked.connect(lambda: self._keep(""))
        self.paper.clicked.connect(self.paper_wanted)

    # --- comparing -------------------------------------------------------------------------------------

    def _compare(self) -> None:
        plans = tuple(self._plans())
        if len(plans) < FEWEST:
            self._comparing.forget()
            self._show(None)
        elif self.comparison is not None and self.comparison.plans == plans:
            self._show(self.comparison)
        else:
            self._comparing.ask(plans, lambda: iter((compare(plans),)))

    def _plans(self) -> Iterator[Plan]:
        job = self.beside.job
        for layout in self.beside.shown:
            try:
                made = plan(job, layout.id)
                _ = made.laid
            except TileLayoutError:
                continue
            yield made

    def _take(self, _question: object, comparison: Comparison, is_last: bool) -> None:
        if is_last:
            self._show(comparison)

    def _show(self, comparison: Comparison | None) -> None:
        self.comparison = comparison
        self.table.show_comparison(comparison, self.beside.front.id if self.beside.front else "")
        self.remarks.setText(" ".join(comparison.remarks) if comparison else "")
        self.remarks.setVisible(bool(comparison and comparison.remarks))
        self.width_wished.emit()

    # --- what is done ----------------------------------------------------------------------------------

    def _toggle(self, id: str) -> None:
        self.beside.toggle(id)
        self.refresh()

    def _rename(self, name: str) -> None:
        layout = self.bench.layout
        if self.beside.offer_in_front is not None:
            self._keep(name)
        elif layout is not None:
            self.bench.apply("Rename layout", lambda job: edits.rename_layout(job, layout.id, name))

    def _keep(self, name: str) -> None:
        offer = self.beside.offer_in_front
        if offer is not None:
            self.bench.apply("Keep layout", lambda job: keep(job, offer.layout, name))

    def _copy(self) -> None:
        layout = self.bench.layout
        if layout is not None:
            self.bench.apply(
                "Copy layout", lambda job: edits.add_layout(job, copy_of(job.layout(layout.id), job))
            )

    def _make_another(self) -> None:
        layout = self.bench.layout
        if layout is not None:
            self.bench.apply("Add layout", lambda job: edits.add_layout(job, another_layout(job, layout.id)))


def _found_words(answer: Answer | None, count: int) -> str:
    """Return what was sought and how many layouts were found: "Found for fewest tiles: 5"."""
    if answer is None:
        return ""
    return f"Found for “{AIM_WORDS[answer.wanted.aim].lower()}”: {count}"
