"""The last card: which pieces to saw, in the order of the saw, ticked off as they are made."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QProgressBar, QPushButton, QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.cut_drawing import CutDrawing
from tilelayout.app.cards.cut_list import CutListView
from tilelayout.app.cards.cut_rows import Check, CutRows
from tilelayout.app.cards.cut_work import CutWork
from tilelayout.app.cards.saw_sheet import SawSheet
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.cuts_made import CutMade
from tilelayout.job.edits.cuts import tick_cuts, untick_cuts
from tilelayout.planning.cut_progress import about_words, left_over_words, progress_words
from tilelayout.planning.cut_views import CutLine, CutView
from tilelayout.planning.ticks import Ticks

_VIEWS = {CutView.SETTING: "By setting", CutView.SURFACE: "By surface", CutView.TILE: "By tile"}


class CutCard(Card):
    """The cut list beside the board.

    `lit(ids)` says which pieces in front the current line is about, `sawn(ids)` which of them are finished.
    """

    question = "Which pieces to saw?"
    next_step = "Save the sheets as PDF…"

    lit = Signal(object)
    sawn = Signal(object)
    print_wanted = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(bench, ("pieces", "settings", "tiles to saw"), parent)
        self.work = CutWork(bench, self)
        self.view = CutView.SETTING
        self._add_progress()
        self._add_list()
        self._add_buttons()
        self.finish(is_filled=True)
        self.work.changed.connect(self._refresh_if_shown)
        bench.chosen_changed.connect(self._follow)

    @property
    def ticks(self) -> Ticks | None:
        """The list shown with what its boxes stand for; None while there is none."""
        return self.work.ticks

    @property
    def is_ready(self) -> bool:
        """Whether the list is the final one, so that it can be ticked."""
        return self.work.is_final

    def go_on(self) -> None:
        """To paper."""
        self.print_wanted.emit()

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self.work.stop()

    def show_by(self, view: CutView) -> None:
        """Show the list by another order; the piece of the current line stays in sight."""
        line = self.list.line
        self.view = view
        self.refresh()
        if line is not None:
            self._bring(line.pieces[0])

    def open_saw(self) -> None:
        """Open the sheet for the saw and for how offcuts may be used."""
        SawSheet(self, self.bench).open()

    def refresh(self) -> None:
        """Show the cut list of what is in front."""
        self.work.follow()
        ticks, made = self.ticks, self._made
        is_other = self.rows.show_list(ticks, self.view, made)
        has_rows = bool(self.rows.rows)
        for widget in (*self.views.values(), self.list, self.progress, self.bar, self.next_cut, self.saw):
            widget.setVisible(has_rows)
        self._invite(has_rows)
        self.lead(self.bench.plan is not None, "choose the tile", Stage.TILE)
        self._show_figures()
        self._show_progress()
        if is_other:
            self._begin()
        self._draw()
        self.sawn.emit(self._in_front(ticks.pieces_made(made)) if ticks is not None else ())

    # --- parts -----------------------------------------------------------------------------------------

    def _add_progress(self) -> None:
        self.invite, self.about, self.left_over = (QLabel(self) for _ in range(3))
        self.progress, self.bar = QLabel(self), QProgressBar(self)
        self.bar.setTextVisible(False)
        self.invite.setObjectName("faint")
        self.about.setObjectName("faint")
        self.left_over.setObjectName("wrong")
        self.forget = QPushButton("Forget these ticks", self)
        for label in (self.invite, self.progress, self.about, self.left_over):
            label.setWordWrap(True)
        for widget in (self.invite, self.progress, self.bar, self.about, self.left_over, self.forget):
            self.add(widget)
        self.forget.clicked.connect(self._forget)

    def _add_list(self) -> None:
        self.views = {view: QPushButton(words, self) for view, words in _VIEWS.items()}
        for view, button in self.views.items():
            button.setCheckable(True)
            button.clicked.connect(lambda _on=False, view=view: self.show_by(view))
        self.add_beside(*self.views.values())
        self.rows = CutRows(self)
        self.list = CutListView(self.rows, self.bench.look, self)
        self.drawing = CutDrawing(self.bench.look, self)
        self.column.addWidget(self.list, 1)
        self.column.addWidget(self.drawing)
        self.list.ticked.connect(self._tick)
        self.list.gone_to.connect(self._light)

    def _add_buttons(self) -> None:
        self.next_cut, self.saw = QPushButton("Next cut", self), QPushButton("The saw…", self)
        self.add_beside(self.next_cut, self.saw)
        self.next_cut.clicked.connect(self._go_to_next)
        self.saw.clicked.connect(self.open_saw)

    # --- showing ---------------------------------------------------------------------------------------

    @property
    def _made(self) -> frozenset[CutMade]:
        return frozenset(self.bench.job.cuts_made)

    def _begin(self) -> None:
        """Go to the piece that is chosen on the board, else to the first cut to make."""
        at = self.rows.next_open(-1)
        if at is not None:
            self.list.go_to(at, silently=True)
        line = self.list.line
        self.lit.emit(self._in_front(line.pieces) if line is not None else ())
        self._follow(self.bench.chosen)

    def _invite(self, has_rows: bool) -> None:
        """Say why there is no list."""
        if self.bench.plan is None:
            words = "Nothing is laid yet, so there is nothing to saw."
        elif self.ticks is None:
            words = self.work.trouble or "The cuts are being put in order."
        else:
            words = "Every tile is whole: nothing is to be sawn."
        self.invite.setText(words)
        self.invite.setVisible(not has_rows)
        self.fill_up(not has_rows)

    def _show_figures(self) -> None:
        values = ("–", "–", "–")
        if self.ticks is not None:
            found = self.ticks.found
            values = (str(len(found.of.pieces)), str(len(found.settings)), str(len(found.opened)))
        for figure, value in zip(self.figures, values, strict=True):
            figure.show_value(value)

    def _show_progress(self) -> None:
        ticks = self.ticks
        over = ticks.left_over(self.bench.job) if ticks is not None and self.is_ready else ()
        _say(self.left_over, left_over_words(over, ticks.found.of) if ticks is not None else "")
        self.forget.setVisible(bool(over))
        _say(self.about, about_words(ticks, is_final=self.is_ready) if ticks is not None else "")
        for view, button in self.views.items():
            button.setChecked(view is self.view)
        if ticks is None:
            return
        words = progress_words(ticks, self._made)
        self.progress.setText(words)
        self.bar.setMaximum(max(len(ticks.says), 1))
        self.bar.setValue(ticks.count(ticks.says, self._made))
        self.bar.setAccessibleName(words)
        self.next_cut.setEnabled(self.rows.next_open(-1) is not None)

    def _draw(self) -> None:
        found = self.ticks.found if self.ticks is not None else None
        self.drawing.show_line(self.list.line, found, self.view)

    # --- what a person does ----------------------------------------------------------------------------

    def _tick(self, lines: list[CutLine]) -> None:
        """Tick lines; if all of them are ticked, take their ticks back."""
        if self.ticks is None or not self.is_ready:
            return
        says = [each for line in lines for cut in line.cuts for each in self.ticks.says[cut]]
        name = lines[0].title.split("  ")[0] if len(lines) == 1 else f"{len(lines)} cuts"
        if all(self.rows.state(line) is Check.Checked for line in lines):
            self.bench.apply(f"Take back {name}", lambda job: untick_cuts(job, says))
        else:
            self.bench.apply(f"Tick {name}", lambda job: tick_cuts(job, says))

    def _forget(self) -> None:
        if self.ticks is not None:
            over = self.ticks.left_over(self.bench.job)
            self.bench.apply("Forget ticks", lambda job: untick_cuts(job, over))

    def _go_to_next(self) -> None:
        self.list.setFocus()
        self.list.go_to_next()

    def _light(self, line: CutLine) -> None:
        """Light the pieces of a line, and bring their surface to the front if it is another."""
        if self.ticks is None or self.bench.layout is None:
            return
        layouts = [self.ticks.found.of.pieces[name].layout for name in line.pieces]
        if self.bench.layout.id not in layouts:
            self.bench.show(layout=layouts[0])
        self._draw()
        self.lit.emit(self._in_front(line.pieces))

    def _in_front(self, names: frozenset[str] | tuple[str, ...]) -> tuple[str, ...]:
        """Return the ids of those pieces that lie in the layout in front."""
        if self.ticks is None or self.bench.layout is None:
            return ()
        some = (self.ticks.found.of.pieces[name] for name in names)
        return tuple(each.piece.id for each in some if each.layout == self.bench.layout.id and each.is_laid)

    def _follow(self, pick: object) -> None:
        """A piece chosen on the board brings its row into sight."""
        if not (self.isVisible() and isinstance(pick, Pick) and pick.kind is PickKind.PIECE) or not pick.id:
            return
        layout, ticks = self.bench.layout, self.ticks
        if layout is None or ticks is None:
            return
        pieces = ticks.found.of.pieces.values()
        name = next(
            (each.name for each in pieces if (each.layout, each.piece.id) == (layout.id, pick.id)), ""
        )
        self._bring(name)

    def _bring(self, piece: str) -> None:
        at = self.rows.row_of(piece)
        line = self.rows.line(at) if at is not None else None
        if at is not None and line is not None:
            self.list.go_to(at, silently=True)
            self._light(line)


def _say(label: QLabel, words: str) -> None:
    label.setText(words)
    label.setVisible(bool(words))
