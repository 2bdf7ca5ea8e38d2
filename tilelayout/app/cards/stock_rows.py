"""What is on hand of the tile in front, what is missing of it, and what the whole job takes as one stock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QWidget

from tilelayout.app.latest_work import LatestWork
from tilelayout.app.length_box import NumberBox
from tilelayout.base.errors import LayoutError
from tilelayout.job.values import Job, Tile
from tilelayout.planning.job_plan import JobPlan, job_plan, layouts_to_lay
from tilelayout.planning.plan import Plan
from tilelayout.planning.shortage import shortages

if TYPE_CHECKING:
    from tilelayout.app.cards.tile import TileCard


class StockRows:
    """The box for whole tiles on hand, and below it the sentences, worked out off the window's thread."""

    def __init__(self, card: TileCard) -> None:
        self.whole = NumberBox("Whole tiles on hand", is_allowed=_is_number, example="12", is_optional=True)
        self._said = QLabel(card)
        self._said.setObjectName("faint")
        self._said.setWordWrap(True)
        self.rows: list[QWidget] = [card.add_row("On hand", self.whole)]
        card.column.addWidget(self._said)
        self._work = LatestWork(card)
        self._work.answered.connect(lambda _question, words, _is_last: self._say(words))
        self.whole.entered.connect(
            lambda count: card.change("Set tiles on hand", whole_on_hand=0 if count is None else int(count))
        )

    def show_tile(self, tile: Tile) -> None:
        """Show how many are on hand."""
        self.whole.show_number(tile.whole_on_hand or None)

    def show(self, job: Job, plan: Plan | None) -> None:
        """Say what is missing for a plan and what the whole job takes, as soon as it is known."""
        if plan is None:
            self._work.forget()
            self._say("")
            return
        whole_job = job_plan(job) if _has_several(job) else None
        self._work.ask((plan, whole_job), lambda: iter((_words(plan, whole_job),)))

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self._work.stop()

    def _say(self, words: object) -> None:
        self._said.setText(str(words))
        self._said.setVisible(bool(words))


def _has_several(job: Job) -> bool:
    """Tell whether tiles are shared by more than one layout: by several surfaces, or by trims."""
    return len(layouts_to_lay(job)) > 1 or any(surface.trims for surface in job.surfaces)


def _words(plan: Plan, whole_job: JobPlan | None) -> str:
    """Return the sentences, one a line; none about what cannot be laid, which is said elsewhere."""
    try:
        used = plan.sharing.offcuts_used
        lines = [f"{used} offcut{'s'[: used != 1]} on hand sawn again."] if used else []
        lines += [f"{each.words(plan.style)}." for each in shortages(plan)]
        return "\n".join(lines + ([f"Whole job: {whole_job.words}."] if whole_job else []))
    except LayoutError:
        return ""


def _is_number(number: float) -> bool:
    return number >= 0 and number == int(number)
