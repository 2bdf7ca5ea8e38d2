"""The first step of the surface question: the readings, on the board, as a table, or under a straightedge."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tilelayout.app.cards.fields import ChoiceBox
from tilelayout.app.length_box import LengthBox
from tilelayout.app.surface.gap_sheet import GapSheet
from tilelayout.app.surface.table_sheet import TableSheet
from tilelayout.base.heights import format_height, height_style
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.drawing.walk import Direction, StartCorner, places_of, steps_of
from tilelayout.job.edits import readings as edits
from tilelayout.job.edits import surveys as survey_edits
from tilelayout.job.values import Job, Survey, SurveyTool
from tilelayout.planning.surface_words import kind_words, slip_words

if TYPE_CHECKING:
    from tilelayout.app.cards.surface import SurfaceCard

_TOOLS = {
    SurveyTool.LASER: "Laser level",
    SurveyTool.STRAIGHTEDGE: "Straightedge",
    SurveyTool.LEVEL: "Long level",
    SurveyTool.OTHER: "Another way",
}


class ReadingsFace:
    """Rows of the card; `rows` are shown while this step is in front."""

    def __init__(self, card: SurfaceCard) -> None:
        self.card = card
        self.rows: list[QWidget] = []
        self._add_survey_rows()
        self._add_walk_rows()
        self._add_buttons()

    def show(self) -> None:
        """Show the survey in front."""
        bench = self.card.bench
        job, surface = bench.job, bench.surface
        one = self.card.desk.one
        survey = one.survey if one else None
        self._show_walk(job.show_lengths)
        self._show_survey(survey, job)
        self.comes_out.setText(self._comes_out())
        self.state.setText(self._state(survey))
        slips = self.card.desk.slips
        self.odd.setText("\n".join(slip_words(slip, job.show_lengths) for slip in slips))
        self.odd.setVisible(bool(slips))
        fits = next((slip.fits for slip in slips if slip.fits is not None), None)
        self.mend.setVisible(fits is not None)
        if fits is not None:
            self.mend.setText(f"Take {format_height(fits, job.show_lengths)} instead")
        for button in (self.table, self.gap):
            button.setEnabled(surface is not None)

    def put_away(self) -> None:
        """Hide what is shown only sometimes: another step is in front."""
        for row in (self.odd, self.mend, self._surveys_row, self._tool_row, self._resolution_row):
            row.hide()
        for button in (self.take_back, self.erase):
            button.hide()

    def _add_survey_rows(self) -> None:
        card = self.card
        self.state, self.odd = QLabel(card), QLabel(card)
        for label, name in ((self.state, "faint"), (self.odd, "wrong")):
            label.setObjectName(name)
            label.setWordWrap(True)
            card.add(label)
        self.mend = QPushButton("Take it instead")
        card.add(self.mend)
        self.surveys = ChoiceBox("Survey")
        self._surveys_row = card.add_row("Survey", self.surveys)
        self.tool = ChoiceBox("Read with", [(words, tool) for tool, words in _TOOLS.items()])
        self.resolution = LengthBox("Smallest difference it shows", is_optional=True)
        self._tool_row = card.add_row("Read with", self.tool)
        self._resolution_row = card.add_row("It shows", self.resolution)
        self.rows = [self.state]
        self.mend.clicked.connect(self._mend_first)
        self.surveys.chosen.connect(lambda at: self._apply("Look at survey", edits.bring_survey_first, at))
        self.tool.chosen.connect(lambda tool: self._replace("Change what it was read with", tool=tool))
        self.resolution.entered.connect(lambda mm: self._replace("Change what it shows", resolution=mm))

    def _add_walk_rows(self) -> None:
        self.step, self.from_wall = LengthBox("Step of the grid", least=1.0), LengthBox("From the walls")
        self.corner = ChoiceBox("Begin at", [(f"At the {each}", each) for each in StartCorner])
        self.direction = ChoiceBox("Rows run", [(f"Rows run {each}", each) for each in Direction])
        self.rows += [
            self.card.add_row("Every", self.step),
            self.card.add_row("From walls", self.from_wall),
            self.card.add_row("Begin", self.corner),
            self.card.add_row("", self.direction),
        ]
        self.comes_out = QLabel(self.card)
        self.comes_out.setObjectName("faint")
        self.comes_out.setWordWrap(True)
        self.rows.append(self.comes_out)
        self.card.add(self.comes_out)
        self.step.entered.connect(lambda step: self.card.desk.change_walk(step=step))
        self.from_wall.entered.connect(lambda off: self.card.desk.change_walk(from_wall=off))
        self.corner.chosen.connect(lambda corner: self.card.desk.change_walk(corner=corner))
        self.direction.chosen.connect(lambda direction: self.card.desk.change_walk(direction=direction))

    def _add_buttons(self) -> None:
        self.table, self.gap = (
            QPushButton("Type or paste a table…"),
            QPushButton("A gap under a straightedge…"),
        )
        self.take_back, self.erase = QPushButton("Erase the last gap"), QPushButton("Erase all readings")
        for button in (self.table, self.gap, self.take_back, self.erase):
            self.card.add(button)
        self.rows += [self.table, self.gap]
        self.table.clicked.connect(self.open_table)
        self.gap.clicked.connect(self.open_gap)
        self.take_back.clicked.connect(self._erase_gap)
        self.erase.clicked.connect(self._erase)

    def open_table(self) -> TableSheet | None:
        """Open the sheet with the table of readings."""
        bench, surface = self.card.bench, self.card.bench.surface
        if surface is None:
            return None
        one = self.card.desk.one
        sheet = TableSheet(
            self.card.window(),
            bench.look,
            bench.job.show_lengths,
            one.survey.points if one else (),
            lambda rows: self._apply("Enter table of readings", edits.enter_table, surface.id, rows),
        )
        sheet.open()
        return sheet

    def open_gap(self) -> GapSheet | None:
        """Open the sheet for a gap under a straightedge."""
        bench, surface = self.card.bench, self.card.bench.surface
        if surface is None:
            return None
        sheet = GapSheet(
            self.card.window(),
            bench.look,
            bench.job.show_lengths,
            lambda gap: self._apply("Enter gap", edits.enter_gap, surface.id, gap),
        )
        sheet.open()
        return sheet

    def _show_walk(self, style: LengthStyle) -> None:
        walk = self.card.desk.walk
        self.step.show_length(walk.step, style)
        self.from_wall.show_length(walk.from_wall, style)
        self.corner.show_value(walk.corner)
        self.direction.show_value(walk.direction)

    def _show_survey(self, survey: Survey | None, job: Job) -> None:
        same = [
            (at, each) for at, each in enumerate(job.surveys) if survey and each.surface == survey.surface
        ]
        self._surveys_row.setVisible(len(same) > 1)
        self.surveys.offer((each.name or f"Survey {at + 1}", at) for at, each in same)
        for row in (self._tool_row, self._resolution_row, self.erase):
            row.setVisible(survey is not None)
        self.take_back.setVisible(bool(survey and survey.straightedge))
        if survey is not None:
            self.surveys.show_value(same[0][0])
            self.tool.show_value(survey.tool)
            self.resolution.show_length(survey.resolution, height_style(job.show_lengths))

    def _state(self, survey: Survey | None) -> str:
        surface = self.card.bench.surface
        if surface is None:
            return "There is no surface yet to take readings on."
        count = len(survey.points) if survey else 0
        gaps = len(survey.straightedge) if survey else 0
        if not count and not gaps:
            return f"Click on the board where a height was read and type it. {kind_words(surface.kind)}"
        places = places_of(surface, self.card.desk.walk)
        left = sum(edits.reading_at(survey, place) is None for place in places)
        words = f"{count} heights" + (f" and {gaps} gaps" if gaps else "") + " are entered."
        return f"{words} {left} of {len(places)} places of the grid are left." if left else words

    def _comes_out(self) -> str:
        """How far apart the places come out once they are spread evenly."""
        surface, walk, style = self.card.bench.surface, self.card.desk.walk, self.card.bench.job.show_lengths
        if surface is None or not places_of(surface, walk):
            return (
                "" if surface is None else "No place of such a grid lies on this surface, or far too many do."
            )
        across, up = (format_length(step, style) for step in steps_of(surface, walk))
        return f"Spread evenly between the walls: every {across} across, {up} up."

    def _mend_first(self) -> None:
        surface = self.card.bench.surface
        slip = next((each for each in self.card.desk.slips if each.fits is not None), None)
        if slip is not None and surface is not None:
            reading = (slip.x, slip.y, slip.fits)
            self._apply("Put reading right", edits.enter_reading, surface.id, reading)

    def _replace(self, label: str, **changes: object) -> None:
        surface = self.card.bench.surface
        at = None if surface is None else edits.survey_at(self.card.bench.job, surface.id)
        if at is not None:
            self.card.bench.apply(label, lambda job: survey_edits.replace_survey(job, at, **changes))

    def _erase(self) -> None:
        surface = self.card.bench.surface
        at = None if surface is None else edits.survey_at(self.card.bench.job, surface.id)
        if at is not None:
            self._apply("Erase all readings", survey_edits.remove_survey, at)

    def _erase_gap(self) -> None:
        one = self.card.desk.one
        if one is not None and one.survey.straightedge:
            last = len(one.survey.straightedge) - 1
            self._apply("Erase gap", edits.erase_gap, one.surface.id, last)

    def _apply(self, label: str, edit: Any, *values: object) -> bool:
        return self.card.bench.apply(label, lambda job: edit(job, *values))
