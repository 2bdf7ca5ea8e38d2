"""The rows of the third card that find the best start: aim, what may vary, progress, what was found.

While a search runs the best so far is said and drawn on the board; what was found is offered in the same
place, to start there or to keep it beside the layout there is.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QLabel, QProgressBar, QPushButton

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import TextSize
from tilelayout.app.seeking.seeker import Answer
from tilelayout.app.seeking.takeover import keep, start_there
from tilelayout.app.seeking.wanted import AIM_WORDS, Varied, Wanted, vary_words, ways_to_vary
from tilelayout.base.units import INCH, LengthStyle, format_length
from tilelayout.job.values import Layout
from tilelayout.planning.alternatives import Step

_WHOLE = 100


class SeekRows:
    """Rows on a card. `begin` seeks as the rows say; `refresh` shows how things stand."""

    def __init__(self, card: Card) -> None:
        self._card, self._bench = card, card.bench
        self.wanted = Wanted()
        self._add_question(card)
        self._add_what_may_vary(card)
        self._add_progress(card)
        self._add_found(card)
        card.add_rule()
        self._bench.seeker.changed.connect(self._refresh_if_shown)

    def begin(self) -> None:
        """Seek the best start for the layout in front."""
        if self._bench.plan is not None:
            self._bench.seeker.begin(self.wanted)

    def refresh(self) -> None:
        """Show what may be asked, how far the search is, and what was found."""
        has_plan, seeker = self._bench.plan is not None, self._bench.seeker
        for widget in (self.asking, self.varying):
            widget.setVisible(has_plan)
        self._show_wanted(self._bench.layout if has_plan else None)
        for widget in (self.bar, self.stop):
            widget.setVisible(seeker.is_working)
        self.find.setEnabled(not seeker.is_working)
        answer = seeker.answer if has_plan and not seeker.is_working else None
        self._show_words(answer if not seeker.said else None)
        self._show_choices(answer)

    def dress(self) -> None:
        """Set the type in the size in force."""
        self.state.setFont(self._bench.look.font(TextSize.SMALL))

    # --- parts -----------------------------------------------------------------------------------------

    def _add_question(self, card: Card) -> None:
        self.find = QPushButton("Find the best start")
        self.aim = ChoiceBox("What the best start is", [(words, aim) for aim, words in AIM_WORDS.items()])
        self.asking = card.add_beside(self.find, self.aim)
        self.find.clicked.connect(self.begin)
        self.aim.chosen.connect(lambda aim: self._want(aim=aim))

    def _add_what_may_vary(self, card: Card) -> None:
        self.vary = ChoiceBox("What may vary")
        self.least, self.most = (
            LengthBox(f"{word} joint allowed", least=0.1) for word in ("Least", "Greatest")
        )
        self.varying = card.add_row("May vary", self.vary)
        card.group = "seeking"
        self._joints = card.add_row("Joint from, to", self.least, self.most)
        card.group = ""
        self.vary.chosen.connect(self._vary)
        self.least.entered.connect(lambda least: self._allow(least=least))
        self.most.entered.connect(lambda most: self._allow(most=most))

    def _add_progress(self, card: Card) -> None:
        self.bar, self.stop = QProgressBar(card), QPushButton("Stop the search")
        self.bar.setRange(0, _WHOLE)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("How far the search is")
        self.state = QLabel(card)
        self.state.setWordWrap(True)
        self.state.setAccessibleName("What the search says")
        card.column.addWidget(self.bar)
        card.column.addWidget(self.state)
        card.group = "seeking"
        card.add(self.stop)
        card.group = ""
        self.stop.setToolTip("Stop the search (Esc)")
        self.stop.clicked.connect(self._bench.seeker.cancel)

    def _add_found(self, card: Card) -> None:
        self.take, self.keep = QPushButton("Start there"), QPushButton("Keep it beside")
        self.compare, self.put_away = QPushButton("Compare"), QPushButton("Put away")
        card.group = "seeking"
        self._taking = card.add_beside(self.take, self.keep)
        self._viewing = card.add_beside(self.compare, self.put_away)
        card.group = ""
        self.take.setToolTip("Move the start of this layout there")
        self.keep.setToolTip("Keep it as a further layout and leave this one as it is")
        self.take.clicked.connect(self._take)
        self.keep.clicked.connect(self._keep)
        self.compare.clicked.connect(lambda: self._bench.show(stage=Stage.COMPARE))
        self.put_away.clicked.connect(self._bench.seeker.dismiss)

    # --- what is shown ---------------------------------------------------------------------------------

    def _show_wanted(self, layout: Layout | None) -> None:
        style, wanted = self._bench.job.show_lengths, self.wanted
        self._joints.setVisible(layout is not None and wanted.joints is not None)
        self.vary.offer((vary_words(some), some) for some in ways_to_vary(layout))
        self.vary.show_value(wanted.varied)
        self.aim.show_value(wanted.aim)
        for box, length in zip((self.least, self.most), wanted.joints or (None, None), strict=True):
            box.show_length(length, style)

    def _show_words(self, answer: Answer | None) -> None:
        seeker = self._bench.seeker
        words = seeker.said
        if seeker.is_working:
            words = _so_far(seeker.step, self._bench.job.show_lengths)
            self.bar.setValue(round(_WHOLE * seeker.step.done) if seeker.step else 0)
        elif answer is not None:
            words = " ".join((*_best_words(answer, self._bench), *answer.cannot))
        self.state.setText(words)
        self.state.setVisible(bool(words))

    def _show_choices(self, answer: Answer | None) -> None:
        best, count = self._best(), len(self._bench.seeker.offers)
        is_taken = best is not None and self._bench.seeker.taken_as(best) is not None
        self._taking.setVisible(best is not None and not is_taken)
        self._viewing.setVisible(answer is not None and bool(answer.offers))
        self.compare.setEnabled(count > 0 or len(self._bench.layouts) > 1)
        self.compare.setToolTip(f"{count} found, side by side with the layouts there are")

    def _refresh_if_shown(self) -> None:
        if self._card.isVisible():
            self.refresh()

    # --- what is done ----------------------------------------------------------------------------------

    def _want(self, **changes: Any) -> None:
        self.wanted = replace(self.wanted, **changes)
        self.refresh()

    def _vary(self, some: frozenset[Varied]) -> None:
        layout, joints = self._bench.layout, self.wanted.joints
        if layout is not None:
            usual = usual_joints(layout.joint, self._bench.job.show_lengths)
            self._want(
                may_turn=Varied.ANGLE in some,
                may_shift=Varied.ROWS in some,
                joints=(joints or usual) if Varied.JOINT in some else None,
            )

    def _allow(self, least: float | None = None, most: float | None = None) -> None:
        low, high = self.wanted.joints or (0.0, 0.0)
        low, high = (low if least is None else least, high if most is None else most)
        self._want(joints=(min(low, high), max(low, high)))

    def _take(self) -> None:
        layout, found = self._bench.layout, self._best()
        if layout is not None and found is not None:
            self._bench.apply("Start at the best place", lambda job: start_there(job, layout.id, found))

    def _keep(self) -> None:
        found = self._best()
        if found is not None:
            self._bench.apply("Keep layout", lambda job: keep(job, found))

    def _best(self) -> Layout | None:
        """The best layout so far, or the best that was found."""
        seeker = self._bench.seeker
        if seeker.is_working:
            return seeker.step.best if seeker.step else None
        answer = seeker.answer
        return answer.offers[0].layout if answer is not None and answer.offers else None


def usual_joints(joint: float, style: LengthStyle) -> tuple[float, float]:
    """Return a usual range of joints (mm) about one: a millimetre, or a sixteenth of an inch, each way."""
    off = 1.0 if style.is_metric else float(INCH / 16)
    return max(joint - off, off), joint + off


def _so_far(step: Step | None, style: LengthStyle) -> str:
    """Say the best so far: "Best so far: no slivers, narrowest 148 mm."."""
    if step is None:
        return "Seeking…"
    slivers = f"{step.slivers} sliver{'s'[: step.slivers != 1]}" if step.slivers else "no slivers"
    return f"Best so far: {slivers}, narrowest {format_length(step.narrowest, style)}."


def _best_words(answer: Answer, bench: Bench) -> tuple[str, ...]:
    """Say why the best was found, and which layout it is if it is one."""
    if not answer.offers:
        return ()
    best = answer.offers[0]
    taken = bench.seeker.taken_as(best.layout)
    return (best.why,) if taken is None else (best.why, f"It is laid so in {taken.title.lower()}.")
