"""What is on hand of the tile in front, what is missing of it, and what the whole job takes as one stock.

The sheets that it leads to are opened by the window, which hears which one is `wanted`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tilelayout.app.access_keys import key_of, with_key
from tilelayout.app.latest_work import LatestWork
from tilelayout.app.length_box import NumberBox
from tilelayout.base.counts import so_many
from tilelayout.base.errors import LayoutError
from tilelayout.job.values import Job, Tile
from tilelayout.planning.job_plan import JobPlan, job_plan
from tilelayout.planning.plan import Plan
from tilelayout.planning.shortage import shortages

if TYPE_CHECKING:
    from tilelayout.app.cards.tile import TileCard


class StockRows(QObject):
    """The box for whole tiles on hand, and below it the sentences, worked out off the window's thread."""

    offcuts_wanted = Signal()
    buying_wanted = Signal()
    fit_wanted = Signal()

    def __init__(self, card: TileCard) -> None:
        super().__init__(card)
        self.whole = NumberBox("Whole tiles on hand", is_allowed=_is_number, example="12", is_optional=True)
        self.offcuts = QPushButton("Offcuts…", card)
        self.buying, self.fit = QPushButton("What to buy…", card), QPushButton("Make it fit…", card)
        self._said = QLabel(card)
        self._said.setObjectName("faint")
        self._said.setWordWrap(True)
        self._said.setAccessibleName("What is on hand and what is missing")
        self.rows: list[QWidget] = [card.add_row("On hand", self.whole, self.offcuts)]
        card.column.addWidget(self._said)
        self.rows.append(card.add_beside(self.buying, self.fit))
        self._work = LatestWork(card)
        self._connect(card)

    def show_tile(self, tile: Tile) -> None:
        """Show how many are on hand."""
        self.whole.show_number(tile.whole_on_hand or None)
        kept = sum(each.count for each in tile.offcuts)
        words = f"{so_many(kept, 'offcut')}…" if kept else "Offcuts…"
        self.offcuts.setText(with_key(words, key_of(self.offcuts.text())))
        self.offcuts.setAccessibleName(f"Offcuts on hand, {kept}")

    def show(self, job: Job, plan: Plan | None) -> None:
        """Say what is missing for a plan and what the whole job takes, as soon as it is known."""
        self.buying.setVisible(plan is not None)
        if plan is None:
            self._work.forget()
            self._say(("", False))
            return
        whole_job = job_plan(job) if job.shares_tiles else None
        self._work.ask((plan, whole_job), lambda: iter((_words(plan, whole_job),)))

    @property
    def said(self) -> str:
        """The sentences shown."""
        return self._said.text()

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._work.stop()

    def _connect(self, card: TileCard) -> None:
        self._work.answered.connect(lambda _question, answer, _is_last: self._say(answer))
        self.whole.entered.connect(
            lambda count: card.change("Set tiles on hand", whole_on_hand=0 if count is None else int(count))
        )
        self.offcuts.clicked.connect(self.offcuts_wanted)
        self.buying.clicked.connect(self.buying_wanted)
        self.fit.clicked.connect(self.fit_wanted)

    def _say(self, answer: tuple[str, bool]) -> None:
        words, is_short = answer
        self._said.setText(words)
        self._said.setVisible(bool(words))
        self.fit.setVisible(is_short)


def _words(plan: Plan, whole_job: JobPlan | None) -> tuple[str, bool]:
    """Return the sentences, one a line, and whether the plan is short of tiles on hand.

    What of the whole job cannot be laid, or sawn as trim, is said in place of what it takes.
    """
    try:
        used, short = plan.sharing.offcuts_used, whole_job.shortages if whole_job else shortages(plan)
        lines = [f"{so_many(used, 'offcut')} on hand sawn again."] if used else []
        lines += [f"{each.brief}." for each in short]
        return "\n".join(lines + ([f"Whole job: {whole_job.words}."] if whole_job else [])), bool(short)
    except LayoutError as error:
        return f"Whole job: {error}", False


def _is_number(number: float) -> bool:
    return number >= 0 and number == int(number)
