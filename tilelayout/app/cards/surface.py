"""The card between tile and setting out: is the surface flat enough for the tile, and what to do if not.

Three steps lead from one to the next: the readings, the verdict, what to do. The board shows the map of each.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.fields import Tick
from tilelayout.app.look import TextSize
from tilelayout.app.surface.desk import Desk, Face
from tilelayout.app.surface.legend import HeightLegend
from tilelayout.app.surface.mend_face import MendFace
from tilelayout.app.surface.readings_face import ReadingsFace
from tilelayout.app.surface.sit_face import SitFace
from tilelayout.app.surface.words import others_html, verdicts_html
from tilelayout.base.heights import format_height_about

_FACES = {
    Face.READINGS: "Readings",
    Face.VERDICT: "Verdict",
    Face.SIT: "Sits?",
    Face.MEND: "Mend",
}
_SPOKEN = {Face.SIT: "Will the tiles sit?"}
_STEPS = {
    Face.READINGS: "Next: is it flat enough?",
    Face.VERDICT: "Next: will it sit?",
    Face.SIT: "Next: what to do",
    Face.MEND: "",
}


class SurfaceCard(Card):
    """Readings, verdict and preparation of the surface in front.

    `tool_wanted(name)` when a place is to be pointed at on the board.
    """

    question = "Is it flat enough?"
    next_step = "Next: set out"
    tool_wanted = Signal(str)

    def __init__(self, bench: Bench, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(bench, ("readings", "worst", "to fill"), parent)
        self.desk = desk
        self.steps = {face: QPushButton(words, self) for face, words in _FACES.items()}
        for face, button in self.steps.items():
            button.setCheckable(True)
            button.setAccessibleName(_SPOKEN.get(face, _FACES[face]))
            button.clicked.connect(lambda _on=False, face=face: desk.show(face))
        self.add_beside(*self.steps.values())
        self.trouble = QLabel(self)
        self.trouble.setObjectName("wrong")
        self.trouble.setWordWrap(True)
        self.legend = HeightLegend(bench.look, self)
        self.add(self.trouble)
        self.add(self.legend)
        self.group = "readings"
        self.readings = ReadingsFace(self)
        self.group = "verdict"
        self._add_verdict()
        self.group = "sit"
        self.sit = SitFace(self)
        self.group = "mend"
        self.mend = MendFace(self)
        self.group = ""
        self.finish()
        desk.changed.connect(self._refresh_if_shown)

    def go_on(self) -> None:
        """To the next step, and after the last to setting out."""
        faces = list(Face)
        at = faces.index(self.desk.face) + 1
        if at < len(faces) and self.desk.one is not None:
            self.desk.show(faces[at])
        else:
            self.bench.show(stage=Stage.SET_OUT)

    def stop(self) -> None:
        """Work no longer: the window closes."""
        self.desk.stop()

    def refresh(self) -> None:
        """Show the step in front."""
        desk = self.desk
        for face, button in self.steps.items():
            button.setChecked(face is desk.face)
        self.trouble.setText(desk.trouble)
        self.trouble.setVisible(bool(desk.trouble))
        sight = desk.sight
        self.legend.show_map(sight.heights if sight else None)
        self._show_rows()
        self._show_figures()
        self._show_verdict()
        step = _STEPS[desk.face] if desk.one is not None else ""
        self.lead(self.bench.surface is not None, "measure the room", Stage.MEASURE, step)

    def dress(self) -> None:
        """Take the look and the size of type in force."""
        super().dress()
        for label in (self.mend.cautions, self.others, self.sit.meant):
            label.setFont(self.bench.look.font(TextSize.SMALL))

    def _add_verdict(self) -> None:
        self.verdict, self.others = QLabel(self), QLabel(self)
        self.more = Tick("Other standards")
        for widget in (self.verdict, self.more, self.others):
            if isinstance(widget, QLabel):
                widget.setWordWrap(True)
                widget.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            self.add(widget)
        self.more.chosen.connect(lambda _is_on: self.refresh())

    def _show_rows(self) -> None:
        face, readings = self.desk.face, self.readings
        for row in readings.rows:
            row.setVisible(face is Face.READINGS)
        for row in self.mend.rows:
            row.setVisible(face is Face.MEND)
        for widget in (self.verdict, self.more):
            widget.setVisible(face is Face.VERDICT)
        self.sit.show(face is Face.SIT)
        self.mend.show()
        readings.show()
        if face is not Face.READINGS:
            readings.put_away()

    def _show_figures(self) -> None:
        one, answer, style = self.desk.one, self.desk.answer, self.bench.job.show_lengths
        count = len(one.survey.points) + len(one.survey.straightedge) if one else 0
        worst, fill = "–", "–"
        if one and answer and answer.has_verdicts and one.variations:
            worst = format_height_about(max(each.worst for each in one.variations), style)
        if answer and answer.prepared:
            fill = f"{answer.prepared.litres:.1f} l"
        for figure, value in zip(self.figures, (str(count or "–"), worst, fill), strict=True):
            figure.show_value(value)

    def _show_verdict(self) -> None:
        one, answer, style = self.desk.one, self.desk.answer, self.bench.job.show_lengths
        has_verdicts = bool(one and answer and answer.has_verdicts)
        has_others = bool(answer and answer.has_others)
        if one is None:
            self.verdict.setText("Enter readings first.")
        elif self.desk.trouble and not has_verdicts:
            self.verdict.setText("")
        else:
            laid = f" {answer.laid:.0%}" if answer and answer.laid else ""
            self.verdict.setText(
                verdicts_html(one, style) if has_verdicts else f"Laying straightedges…{laid}"
            )
        is_shown = self.desk.face is Face.VERDICT and self.more.isChecked()
        self.others.setVisible(is_shown)
        if is_shown and one is not None:
            self.others.setText(others_html(one, style) if has_others else "Working them out…")
