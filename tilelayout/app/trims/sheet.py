"""The sheet of trims: strips of the tile itself along the walls, how many a tile gives, and why.

Every entry changes the job at once and can be undone here as in the window.
"""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.cards.fields import ChoiceBox, Tick
from tilelayout.app.flow import Flow
from tilelayout.app.heights.place_rows import beside, form_label, place_form
from tilelayout.app.length_box import LengthBox
from tilelayout.app.look import STEP
from tilelayout.app.paint.figure_view import FigureView
from tilelayout.app.sheet import Choice, Sheet
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import INCH, LengthStyle, format_length
from tilelayout.job.edits.grounds import set_trims
from tilelayout.job.ground import Trim
from tilelayout.job.kinds import TrimCorners, TrimKind
from tilelayout.job.values import EdgeRole, Job, Surface
from tilelayout.planning.trims import TRIM_WORDS, USUAL_JOINT, TrimPlan, across_word, can_give, trim_plan
from tilelayout.planning.wall_names import stretch_name
from tilelayout.reports.figures.trim_figure import trim_figure

CORNER_WORDS = {TrimCorners.BUTT: "Butted", TrimCorners.MITRE: "Mitred"}
_ROOM = (120.0, 40.0)
_WORDS = (
    "Strips sawn from a tile, as long as the tile at the most, with the joint of the layout between them."
)


class TrimsSheet(Sheet):
    """The trims of the surface in front."""

    def __init__(self, parent: QWidget, bench: Bench, surface: Surface) -> None:
        choices = (Choice("Close"),)
        super().__init__(parent, bench.look, f"Trims of {surface.title}", _WORDS, choices)
        self._bench, self._over = bench, parent
        self.trims = ChoiceBox("Which trim")
        self.add, self.remove = QPushButton("Add a trim", self), QPushButton("Remove this trim", self)
        self.kind = ChoiceBox("What it is for", [(words, kind) for kind, words in TRIM_WORDS.items()])
        self.tile = ChoiceBox("Tile it is sawn from")
        self.height_box = LengthBox("Height of the strips", least=5.0)
        self.corners = ChoiceBox(
            "How strips meet at a corner", [(w, each) for each, w in CORNER_WORDS.items()]
        )
        self.factory = Tick("Each strip shows a factory edge along its length")
        self.edges: list[Tick] = []
        self.why = _wrapped(self)
        self.runs = _wrapped(self)
        self.wrong = _wrapped(self)
        self.wrong.setObjectName("wrong")
        self.drawing = FigureView("The tile with its strips", bench.look, self)
        self._place_parts()
        self._connect()
        self._refresh()

    @property
    def trim(self) -> Trim | None:
        """The trim that is shown; None if the surface has none."""
        surface, at = self._bench.surface, self.trims.value
        if surface is None or not isinstance(at, int) or at >= len(surface.trims):
            return None
        return surface.trims[at]

    def _place_parts(self) -> None:
        for button in (self.add, self.remove):
            button.setAutoDefault(False)
            button.setAccessibleName(button.text())
        self.one = QWidget(self)
        self._form = place_form(self.one)
        self._along = QWidget(self.one)
        self._flow = Flow(self._along, spacing=3 * STEP)
        self._form.addRow(form_label("It is a"), beside(self.kind, "sawn from", self.tile))
        self._across = form_label("Height")
        self._form.addRow(self._across, beside(self.height_box, "corners", self.corners))
        self._form.addRow(form_label(""), self.factory)
        self._form.addRow(form_label("Along"), self._along)
        ends = beside(self.add, "", self.remove)
        self.scroll_through(self.trims, self.one, self.why, self.drawing, self.runs, ends)
        self.body.addWidget(self.wrong)
        window = self._over.size()
        self.resize(min(190 * STEP, window.width() - 8 * STEP), min(160 * STEP, window.height() - 8 * STEP))

    def _connect(self) -> None:
        bench = self._bench
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self.trims.chosen.connect(lambda _at: self._refresh())
        self.kind.chosen.connect(self._set_kind)
        self.tile.chosen.connect(lambda tile: self._change("Set tile of the trim", tile=tile))
        self.height_box.entered.connect(lambda height: self._change("Set height of the trim", height=height))
        self.corners.chosen.connect(lambda corners: self._change("Set corners of the trim", corners=corners))
        self.factory.chosen.connect(lambda is_on: self._change("Set edge of the trim", factory_edge_up=is_on))
        bench.job_changed.connect(self._refresh)
        bench.refused.connect(self._say)
        self.undo_with_keys(bench.session)

    # --- changes -------------------------------------------------------------------------------------

    def _add(self) -> None:
        surface, tile = self._bench.surface, usual_tile(self._bench)
        if surface is None or tile is None:
            return
        height = 75.0 if self._bench.job.show_lengths.is_metric else float(3 * INCH)
        if self._put("Add trim", (*surface.trims, Trim(tile=tile, height=height))):
            self.trims.show_value(len(surface.trims))
            self._refresh()
            self.height_box.setFocus()

    def _remove(self) -> None:
        surface, old = self._bench.surface, self.trim
        if surface is not None and old is not None:
            self._put("Remove trim", tuple(each for each in surface.trims if each is not old))

    def _change(self, label: str, **changes: object) -> None:
        surface, old = self._bench.surface, self.trim
        if surface is not None and old is not None:
            new = replace(old, **changes)
            if self._can_be(surface, new):
                self._put(label, tuple(new if each is old else each for each in surface.trims))

    def _set_kind(self, kind: TrimKind) -> None:
        """A threshold runs along the doorways, unless it was said where it runs."""
        surface, old = self._bench.surface, self.trim
        doorways = () if surface is None else edges_of(surface, EdgeRole.DOORWAY)
        is_threshold = kind is TrimKind.THRESHOLD and old is not None and not old.edges
        self._change("Set kind of trim", kind=kind, **({"edges": doorways} if is_threshold else {}))

    def _toggle(self, at: int, is_on: bool) -> None:
        surface, old = self._bench.surface, self.trim
        if surface is None or old is None:
            return
        walls = edges_of(surface, EdgeRole.WALL)
        edges = set(old.edges or walls) ^ {at}
        if not edges:
            self._refresh()
            self._say("A trim runs along one edge at the least. Remove the trim instead.")
            return
        self._change("Set where the trim runs", edges=() if edges == set(walls) else tuple(sorted(edges)))

    def _put(self, label: str, trims: Iterable[Trim]) -> bool:
        surface, new = self._bench.surface, tuple(trims)
        if surface is None:
            return False
        return self._bench.apply(label, lambda job: set_trims(job, surface.id, new))

    def _can_be(self, surface: Surface, trim: Trim) -> bool:
        """Say why, if the tile gives no such strip."""
        try:
            trim_plan(self._bench.job, surface, trim, self._joint)
        except TileLayoutError as error:
            self._refresh()
            self._say(str(error))
            return False
        return True

    # --- what is shown -------------------------------------------------------------------------------

    @property
    def _joint(self) -> float:
        layout = self._bench.layout
        return USUAL_JOINT if layout is None else layout.joint

    def _say(self, words: str) -> None:
        self.wrong.setText(words)
        self.wrong.setVisible(bool(words))

    def _refresh(self) -> None:
        surface, job = self._bench.surface, self._bench.job
        if surface is None:
            self.reject()
            return
        self._say("" if usual_tile(self._bench) else "Strips want a rectangular tile. Enter one first.")
        self.add.setEnabled(usual_tile(self._bench) is not None)
        self.trims.offer([(title_of(trim, job.show_lengths), at) for at, trim in enumerate(surface.trims)])
        self.trims.setVisible(len(surface.trims) > 1)
        trim = self.trim
        for part in (self.one, self.remove, self.runs, self.why):
            part.setVisible(trim is not None)
        if trim is None:
            self.drawing.show_figure(None)
        else:
            self._show_trim(job, surface, trim)

    def _show_trim(self, job: Job, surface: Surface, trim: Trim) -> None:
        tiles = [each for each in job.tiles if can_give(each) or each.id == trim.tile]
        self.tile.offer([(each.title, each.id) for each in tiles])
        self.kind.show_value(trim.kind)
        self.tile.show_value(trim.tile)
        self._across.setText("Height" if across_word(trim.kind) == "high" else "Width")
        self.height_box.show_length(trim.height, job.show_lengths)
        self.corners.show_value(trim.corners)
        self.factory.show_value(trim.factory_edge_up)
        self._show_edges(surface, trim)
        try:
            self._show_plan(trim_plan(job, surface, trim, self._joint))
        except TileLayoutError as error:
            self.drawing.show_figure(None)
            self.why.setText("")
            self.runs.setText("")
            self._say(str(error))

    def _show_plan(self, made: TrimPlan) -> None:
        style, words = self._bench.job.show_lengths, made.words(self._bench.job.show_lengths)
        self.why.setText(f"{words[:1].upper()}{words[1:]}.")
        self.runs.setText("\n".join(_capital(run.words(style)) for run in made.runs))
        self.drawing.show_figure(trim_figure(made, _ROOM, style, self._bench.job.saw.kerf), made.why)

    def _show_edges(self, surface: Surface, trim: Trim) -> None:
        names = [_capital(stretch_name(surface, at)) for at in range(len(surface.outline))]
        if [tick.text() for tick in self.edges] != names:
            self._make_ticks(names)
        along = trim.edges or edges_of(surface, EdgeRole.WALL)
        for at, tick in enumerate(self.edges):
            tick.show_value(at in along)

    def _make_ticks(self, names: list[str]) -> None:
        for tick in self.edges:
            tick.deleteLater()
        while self._flow.count():
            self._flow.takeAt(0)
        self.edges = [Tick(name, self._along) for name in names]
        before: QWidget = self.factory
        for at, tick in enumerate(self.edges):
            tick.chosen.connect(lambda is_on, at=at: self._toggle(at, is_on))
            self._flow.addWidget(tick)
            tick.show()
            QWidget.setTabOrder(before, tick)
            before = tick


def open_trims(bench: Bench, button: QWidget) -> None:
    """Open the sheet over the window."""
    if bench.surface is not None:
        TrimsSheet(button.window(), bench, bench.surface).open()


def usual_tile(bench: Bench) -> str | None:
    """Return the tile that a new trim is sawn from: that of the layout in front, else any rectangle."""
    tiles = ([bench.tile] if bench.tile is not None else []) + list(bench.job.tiles)
    return next((tile.id for tile in tiles if can_give(tile)), None)


def edges_of(surface: Surface, role: EdgeRole) -> tuple[int, ...]:
    """Return the numbers of the edges with a role."""
    return tuple(at for at in range(len(surface.outline)) if surface.edge(at).role is role)


def title_of(trim: Trim, style: LengthStyle) -> str:
    """Return what to call a trim in a list: "Base 75 mm high, along every wall"."""
    along = "every wall" if not trim.edges else f"{len(trim.edges)} edge{'s'[: len(trim.edges) != 1]}"
    return (
        f"{TRIM_WORDS[trim.kind]} {format_length(trim.height, style)} {across_word(trim.kind)}, along {along}"
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _wrapped(parent: QWidget) -> QLabel:
    label = QLabel(parent)
    label.setWordWrap(True)
    return label
