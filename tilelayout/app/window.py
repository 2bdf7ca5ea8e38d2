"""The window: it places path, board, card and foot, and joins what one says to what another shows."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLabel,
    QMainWindow,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from tilelayout.app.action_set import ActionSet, Strip, fill_menus
from tilelayout.app.bench import Bench, Stage
from tilelayout.app.board.board import Board
from tilelayout.app.cards.card import Card
from tilelayout.app.cards.compare import CompareCard
from tilelayout.app.cards.cut import CutCard
from tilelayout.app.cards.measure import MeasureCard
from tilelayout.app.cards.set_out import SetOutCard
from tilelayout.app.cards.surface import SurfaceCard
from tilelayout.app.cards.tile import TileCard
from tilelayout.app.compare.beside import Beside
from tilelayout.app.compare.paper import ComparePaper
from tilelayout.app.compare.place import ComparePlace
from tilelayout.app.documents import SUFFIX, Documents
from tilelayout.app.foot import Foot
from tilelayout.app.invitation import Invitation
from tilelayout.app.keys_sheet import keys_sheet
from tilelayout.app.look import Look, Scheme, TextSize
from tilelayout.app.offset_map.panel import MapPanel
from tilelayout.app.path import Path as PathStrip
from tilelayout.app.printing import Printing
from tilelayout.app.progress import Finding
from tilelayout.app.rule_findings import FindingsSheet, findings_in_front
from tilelayout.app.rule_places import go_to
from tilelayout.app.settings import Settings
from tilelayout.app.stock.place import StockPlace
from tilelayout.app.style_sheet import style_sheet
from tilelayout.app.surface.desk import Desk
from tilelayout.app.surface.sit_pointing import SitPointing
from tilelayout.app.workplace import Workplace
from tilelayout.drawing.tools.point_out import POINT_OUT, point_out
from tilelayout.drawing.tools.read_heights import READ, read_heights
from tilelayout.job.session import Session
from tilelayout.job.values import SurfaceKind
from tilelayout.practice.finding import Finding as RuleFinding

_ROOM_FOR_BOTH = 1000
"""The width, in device-independent px, from which board and map of starts stand side by side."""


class Window(QMainWindow):
    """One job in one window."""

    def __init__(self, session: Session, look: Look, settings: Settings) -> None:
        super().__init__()
        self.bench = Bench(session, look, self)
        self.settings = settings
        self.board = Board(session, look, self)
        self.board.setMinimumSize(240, 160)
        self.beside = Beside(self.bench, self)
        self.compare: ComparePlace = ComparePlace(self.bench, self.beside, self)
        self.compare_paper = ComparePaper(self.bench, self.beside, settings, self)
        self.map_panel = MapPanel(self.bench, self)
        self.map_is_open: bool = False
        self.documents = Documents(self.bench, settings, self)
        self.stock: StockPlace = StockPlace(self.bench, settings, self)
        printing = Printing(self.bench, settings, self)
        self.place = Workplace(self.bench, self.board, self.documents, printing, self)
        self.actions_ = ActionSet(self.place)
        self.path = PathStrip(self.bench, self)
        self.strip = Strip(self.actions_, self.place, self)
        self.hint = QLabel(self)
        self._board_hint = ""
        self.invitation = Invitation(self.bench, self)
        self.middle = QStackedWidget(self)
        self.cards = self._make_cards()
        self.foot = Foot(self.bench, self)
        self._is_leaving = False
        self._place_parts()
        fill_menus(self.menuBar(), self.actions_, self.place, settings)
        self._connect()
        self.dress()
        self.setAcceptDrops(True)
        self.setMinimumSize(640, 360)
        self.resize(1280, 800)
        self._show_place()
        self._show_name()
        (self.invitation.by_mouse if self.bench.surface is None else self.board).setFocus()

    def choose_scheme(self, scheme: Scheme) -> None:
        """Take a look and remember it."""
        self.settings.scheme = scheme
        self.bench.look.choose(scheme)

    def show_keys(self) -> None:
        """Show the list of keys."""
        keys_sheet(self, self.bench.look).open()

    def show_next_surface(self) -> None:
        """Bring the next surface of the job to the front."""
        ids = [each.id for each in self.bench.job.surfaces]
        if self.bench.surface is not None:
            self.bench.show(surface=ids[(ids.index(self.bench.surface.id) + 1) % len(ids)])

    def find_start(self) -> None:
        """Seek the best start, on the card that says what is sought."""
        self.bench.show(stage=Stage.SET_OUT)
        self.set_out.seek.begin()

    def toggle_map(self) -> None:
        """Open the map of starts beside the board, or close it."""
        self.map_is_open = not self.map_is_open
        self._show_map()
        if self.map_is_open:
            self.map_panel.view.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.board.setFocus()
        self.actions_.refresh()

    def focus_sight(self) -> None:
        """Take the keyboard to what shows the surface."""
        if self.place.sight is self.compare:
            self.compare.focus_front()
        else:
            self.board.setFocus()

    def focus_card(self) -> None:
        """Take the keyboard to the first field of the card."""
        card = self.cards[self.bench.stage]
        seen = [each for each in (*card.fields, card.next_button) if each.isVisible() and each.isEnabled()]
        if seen:
            seen[0].setFocus(Qt.FocusReason.TabFocusReason)

    # --- parts -----------------------------------------------------------------------------------------

    def _make_cards(self) -> dict[Stage, Card]:
        bench = self.bench
        self.measure: MeasureCard = MeasureCard(bench, self)
        self.tile: TileCard = TileCard(bench, self)
        self.desk = Desk(bench, self)
        self.surface = SurfaceCard(bench, self.desk, self)
        self.board.tools[READ] = partial(
            read_heights, walk=lambda: self.desk.walk, instead=lambda: self.desk.hint
        )
        self.board.tools[POINT_OUT] = partial(point_out, offered=lambda: self.desk.places)
        self.set_out, self.cut = SetOutCard(bench, self), CutCard(bench, self)
        self.choice = CompareCard(bench, self.beside, self)
        self.deck = QStackedWidget(self)
        cards: dict[Stage, Card] = {
            Stage.MEASURE: self.measure,
            Stage.TILE: self.tile,
            Stage.SURFACE: self.surface,
            Stage.SET_OUT: self.set_out,
            Stage.COMPARE: self.choice,
            Stage.CUT: self.cut,
        }
        for card in cards.values():
            self.deck.addWidget(card)
        return cards

    def _place_parts(self) -> None:
        ground = QWidget(self)
        ground.setObjectName("ground")
        bench_top = QVBoxLayout()
        bench_top.setSpacing(0)
        self.hint.setObjectName("hint")
        self.hint.setWordWrap(True)
        self.hint.setAccessibleName("What the tool waits for")
        bench_top.addWidget(self.strip)
        bench_top.addWidget(self.hint)
        self.middle.addWidget(self.board)
        self.middle.addWidget(self.compare)
        self.middle.addWidget(self.invitation)
        beside = QHBoxLayout()
        beside.setSpacing(0)
        beside.addWidget(self.middle, 1)
        beside.addWidget(self.map_panel)
        bench_top.addLayout(beside, 1)
        across = QHBoxLayout()
        across.setSpacing(0)
        across.addWidget(self.path)
        across.addLayout(bench_top, 1)
        across.addWidget(self.deck)
        whole = QVBoxLayout(ground)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addLayout(across, 1)
        whole.addWidget(self.foot)
        self.setCentralWidget(ground)
        QWidget.setTabOrder(self.strip.last_button, self.board)

    def _connect(self) -> None:
        bench, board = self.bench, self.board
        bench.place_changed.connect(self._show_place)
        bench.place_changed.connect(self._remember_place)
        bench.job_changed.connect(self._show_middle)
        bench.chosen_changed.connect(board.select)
        board.picked.connect(bench.choose)
        board.snap_changed.connect(self.foot.show_snap)
        board.hint_changed.connect(self._keep_hint)
        board.zoom_changed.connect(self._show_sight)
        self.compare.zoom_changed.connect(self._show_sight)
        self.compare.wipe_changed.connect(self._show_sight)
        self.choice.paper_wanted.connect(self.compare_paper.ask_for_file)
        self.compare_paper.said.connect(self.foot.tell)
        self.compare_paper.refused.connect(self.foot.say)
        self.set_out.lines.tool_wanted.connect(self._take_tool)
        self.surface.tool_wanted.connect(self._take_tool)
        self.choice.width_wished.connect(self._share_width)
        board.edit_refused.connect(self.foot.say)
        board.tool_ended.connect(self._show_middle)
        self.foot.finding_pressed.connect(self._show_finding)
        self.foot.list_wanted.connect(self._list_findings)
        self.foot.fit_wanted.connect(self._fit)
        self.invitation.draw_wanted.connect(self._draw)
        self.invitation.sample_wanted.connect(self.documents.open_sample)
        self._connect_stock()
        self.cut.lit.connect(board.light_piece)
        self.cut.sawn.connect(board.over.show_sawn)
        self.cut.print_wanted.connect(self.place.printing.ask)
        self.map_panel.closed.connect(self.toggle_map)
        self.documents.state_changed.connect(self._show_name)
        bench.seeker.changed.connect(self._show_ghost)
        self.desk.changed.connect(self._show_survey)
        self.desk.asked_anew.connect(board.ask_tool_again)
        SitPointing(self.desk.sits, board)
        bench.look.changed.connect(self.dress)

    def _connect_stock(self) -> None:
        rows = self.tile.stock
        rows.offcuts_wanted.connect(self.stock.show_offcuts)
        rows.buying_wanted.connect(self.stock.show_what_to_buy)
        rows.fit_wanted.connect(self.stock.make_it_fit)

    # --- following -------------------------------------------------------------------------------------

    def _show_place(self) -> None:
        bench = self.bench
        surface, layout = bench.surface, bench.layout
        self.board.show_view(surface.id if surface else None, layout.id if layout else None, str(bench.stage))
        self.strip.show_stage(bench.stage)
        self.deck.setCurrentWidget(self.cards[bench.stage])
        self._share_width()
        self._show_middle()
        self._show_ghost()
        self.actions_.refresh()

    def _remember_place(self) -> None:
        self.settings.stage = self.bench.stage

    def _show_middle(self) -> None:
        is_drawing = self.board.tool not in ("", "select") and self.middle.currentWidget() is self.board
        is_bare = self.bench.surface is None and not is_drawing
        self._bring_forward(self.invitation if is_bare else self.place.sight)

    def _bring_forward(self, middle: QWidget) -> None:
        self.middle.setCurrentWidget(middle)
        for widget in (self.strip, self.hint, self.foot.zoom):
            widget.setVisible(middle is not self.invitation)
        self._show_map()
        self._show_sight()

    def _show_ghost(self) -> None:
        is_here = self.bench.stage is Stage.SET_OUT
        self.board.over.show_ghost(self.bench.seeker.ghost if is_here else None)

    def _show_survey(self) -> None:
        self.board.over.show_survey(self.desk.sight)

    def _fit(self) -> None:
        self.place.sight.fit()

    def _keep_hint(self, words: str) -> None:
        self._board_hint = words
        self._show_sight()

    def _show_sight(self, *_said: object) -> None:
        """Show hint and scale of what is in the middle."""
        is_compared = self.place.sight is self.compare
        self.hint.setText(self.compare.hint if is_compared else self._board_hint)
        self.foot.show_zoom(self.place.sight.view.scale)

    def _show_map(self) -> None:
        """Show the map of starts if it is open and belongs here; in a narrow window in place of the board."""
        bench = self.bench
        is_shown = self.map_is_open and bench.stage is Stage.SET_OUT and bench.layout is not None
        self.map_panel.setVisible(is_shown)
        self.middle.setVisible(not is_shown or self.width() >= _ROOM_FOR_BOTH)

    def _draw(self, tool: str, kind: SurfaceKind) -> None:
        self.bench.show(stage=Stage.MEASURE)
        self._bring_forward(self.board)
        self.board.use_tool(tool, new_kind=kind)
        self.actions_.refresh()

    def _take_tool(self, tool: str) -> None:
        self.board.use_tool(tool)
        self.actions_.refresh()

    def _go_to_rule(self, finding: RuleFinding) -> None:
        go_to(self, finding)

    def _show_finding(self, finding: Finding) -> None:
        self.bench.show(stage=finding.stage)
        if finding.rule is not None:
            self._go_to_rule(finding.rule)
        if finding.pieces:
            self.board.light_piece(finding.pieces)
            self.board.zoom_to_selection()

    def _list_findings(self) -> None:
        FindingsSheet(self, self.bench.look, findings_in_front(self.bench), self._go_to_rule).open()

    def _show_name(self) -> None:
        self.setWindowTitle(f"{self.documents.name}[*] – Tile layout")
        self.setWindowModified(self.bench.session.is_modified)

    def dress(self) -> None:
        """Put the look in force on everything, in the size of text in force."""
        look = self.bench.look
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setPalette(look.palette())
        self.setFont(look.font(TextSize.TEXT))
        self.hint.setFont(look.font(TextSize.SMALL))
        self.setStyleSheet(style_sheet(look))
        self.path.refresh()
        for card in self.cards.values():
            card.dress()
        self.map_panel.dress()
        self._share_width()
        self.update()

    def _share_width(self) -> None:
        wished = self.cards[self.bench.stage].sizeHint().width()
        self.deck.setFixedWidth(min(wished, max(int(self.width() * 0.45), 260)))

    # --- Qt's events -----------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The board keeps two thirds of the window where there is room for it."""
        super().resizeEvent(event)
        self._share_width()
        self._show_map()
        self.settings.geometry = self.saveGeometry()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take any file; what cannot be opened is said when it is dropped."""
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open a dropped job file."""
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        jobs = [path for path in paths if path.suffix == SUFFIX]
        if jobs:
            self.documents.open_path(jobs[0])
        else:
            self.foot.say(f"Only a job file, whose name ends in {SUFFIX}, can be dropped here.")
        event.acceptProposedAction()

    def changeEvent(self, event: QEvent) -> None:
        """Follow the system's size of text."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ApplicationFontChange:
            self.dress()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close once nothing unsaved is lost by it."""
        if self.bench.session.is_modified and not self._is_leaving:
            event.ignore()
            self.documents.leave(self._leave)
            return
        self.documents.recovery.end()
        self.map_panel.stop()
        self.tile.stop()
        self.stock.stop()
        self.surface.stop()
        self.set_out.stop()
        self.cut.stop()
        self.bench.seeker.stop()
        self.choice.stop()
        self.compare_paper.stop()
        event.accept()

    def _leave(self) -> None:
        self._is_leaving = True
        self.close()
