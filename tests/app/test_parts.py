"""The small parts of the window: boxes, access keys, ways of laying, typed outlines, background work."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from math import sqrt
from pathlib import Path

import numpy as np
import pdfplumber
import pytest
from msgspec import structs
from PySide6.QtCore import QRect, QSizeF
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot

from tests.app.opened import potting_shed, type_in
from tilelayout.app.access_keys import give_keys, key_of
from tilelayout.app.background import Pull
from tilelayout.app.cards.way_chooser import WayChooser, faces_in
from tilelayout.app.cards.ways import offsets_text, read_offsets, way_of, ways_for
from tilelayout.app.centring import Centre, centred_start
from tilelayout.app.first_layouts import (
    OTHER_SHAPES,
    first_layout,
    laid_another_way,
    usual_tile,
    with_tile_laid,
)
from tilelayout.app.flow import Flow
from tilelayout.app.length_box import LengthBox, NumberBox
from tilelayout.app.libraries import what_hinders
from tilelayout.app.look import Look
from tilelayout.app.outlines import plain_room, point_of_rise, resized, rise_of
from tilelayout.app.paper import pages, paint_pages
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits.layouts import replace_layout
from tilelayout.job.values import (
    Edge,
    HexagonTile,
    Job,
    Layout,
    ParallelogramTile,
    PolygonTile,
    RectangleTile,
    Surface,
)
from tilelayout.layout.patterns import cell_of, cell_to_show
from tilelayout.planning.plan import plan

ROOM = Surface(id="floor", outline=plain_room(3600.0, 2400.0))
SLATE = RectangleTile(id="slate", length=597.0, width=297.0)
COMB = HexagonTile(id="comb", across_flats=230.0)


def test_a_length_is_entered_once_and_shown_again(qtbot: QtBot) -> None:
    box = LengthBox("Length")
    qtbot.addWidget(box)
    box.show_length(1612.9, LengthStyle.FEET)
    entered: list[float] = []
    box.entered.connect(entered.append)
    type_in(box, "5' 4\"")
    type_in(box, "5' 3 1/2\"")
    assert entered == [pytest.approx(1625.6)], "what is shown already is no entry"


@pytest.mark.parametrize("text", ["five", "5-3-1/2", "", "-20", "1e400", "nan"])
def test_a_wrong_length_is_named_with_an_example(qtbot: QtBot, text: str) -> None:
    box = LengthBox("Length", least=1.0)
    qtbot.addWidget(box)
    box.show()
    box.show_length(100.0, LengthStyle.MM)
    entered: list[float] = []
    box.entered.connect(entered.append)
    type_in(box, text)
    assert entered == []
    assert box.wrong.isVisible()
    assert any(letter.isdigit() for letter in box.wrong.text()), box.wrong.text()


def test_looking_at_a_rounded_length_never_changes_it(qtbot: QtBot) -> None:
    box = LengthBox("Length")
    qtbot.addWidget(box)
    box.show_length(100.0 / 3, LengthStyle.INCH)
    entered: list[float] = []
    box.entered.connect(entered.append)
    box.line.setFocus()
    box.line.editingFinished.emit()
    assert entered == []


def test_a_number_box_takes_a_comma_and_refuses_words(qtbot: QtBot) -> None:
    box = NumberBox("Angle", unit="°")
    qtbot.addWidget(box)
    assert box.read("22,5°") == 22.5
    with pytest.raises(TileLayoutError, match="45"):
        box.read("steep")


def test_access_keys_prefer_first_letters_and_never_repeat(qtbot: QtBot) -> None:
    labels = [QLabel(words) for words in ("Save", "Save as", "Seen", "Size", "&Zoom", "Edge")]
    used = give_keys(labels, "E")
    keys = [key_of(label.text()) for label in labels]
    assert keys[:2] == ["S", "A"] and keys[4] == "Z"
    assert len(set(keys)) == len(keys) and "E" not in keys
    assert used == {*keys, "E"}


def test_words_run_on_in_the_next_row_where_they_do_not_fit(qtbot: QtBot) -> None:
    ground = QWidget()
    qtbot.addWidget(ground)
    flow = Flow(ground, 4)
    for _ in range(3):
        word = QLabel("word")
        word.setFixedSize(50, 20)
        flow.addWidget(word)
    assert flow.heightForWidth(200) == 20
    assert flow.heightForWidth(110) == 44
    flow.setGeometry(QRect(0, 0, 110, 44))
    words = [each for each in ground.children() if isinstance(each, QLabel)]
    assert [(word.x(), word.y()) for word in words] == [(0, 0), (54, 0), (0, 24)]


def test_usual_tiles_have_round_sizes() -> None:
    """24 x 25.4 is 609.6 and not the nearest sum of binary fractions: the size stands in the job file."""
    tile = usual_tile("oblong", Job(show_lengths=LengthStyle.FEET))
    assert isinstance(tile, RectangleTile) and (tile.length, tile.width) == (609.6, 304.8)


def test_every_way_offered_can_be_laid_and_is_recognised(qtbot: QtBot) -> None:
    for tile in (SLATE, COMB, *(usual_tile(shape, Job()) for _, shape in OTHER_SHAPES)):
        ways = ways_for(tile)
        assert len({way.words for way in ways}) == len(ways) >= 1
        for way in ways:
            job = Job(surfaces=(potting_shed().surfaces[0],), tiles=(tile,))
            layout = first_layout(job, job.surfaces[0], tile)
            job = laid_another_way(structs.replace(job, layouts=(layout,)), "A", way)
            layout = job.layout("A")
            assert len(cell_of(layout, tile, job.more_tiles(layout)).faces) >= 1
            assert way_of(layout, tile) == way
    own = Layout(id="A", surface="floor", tile="slate", settings={"row_offsets": (0.0, 0.2)})
    assert way_of(own, SLATE) is None


def test_only_ways_that_some_joint_allows_are_offered() -> None:
    words = [way.words for way in ways_for(SLATE)]
    assert "Basketweave of pairs" in words and "Basketweave of threes" not in words
    one_hand = ParallelogramTile(id="lean", length=600.0, width=100.0, angle=45.0)
    assert "Chevron" not in [way.words for way in ways_for(one_hand)]
    assert "Chevron" in [way.words for way in ways_for(structs.replace(one_hand, left_and_right=True))]


def test_vectors_of_ones_own_are_no_usual_way() -> None:
    tile = PolygonTile(id="box", outline=((0.0, 0.0), (97.0, 0.0), (97.0, 57.0), (0.0, 57.0)))
    found = Layout(id="A", surface="floor", tile="box", pattern="drawn")
    assert way_of(found, tile) == ways_for(tile)[0]
    own = structs.replace(found, settings={"vectors": ((100.0, 0.0), (20.0, 60.0))})
    assert way_of(own, tile) is None


def test_a_picture_of_a_pattern_covers_its_square_but_for_the_joints() -> None:
    for tile in (SLATE, *(usual_tile(shape, Job()) for _, shape in OTHER_SHAPES)):
        for way in ways_for(tile):
            layout = Layout(id="", surface="", tile="", pattern=way.pattern, settings=way.keys, joint=0.0)
            faces = faces_in(cell_to_show(layout, tile), 300.0)
            points = np.random.default_rng(4).uniform(-300, 300, (100, 2))
            lying = [sum(_holds(face, point) for face in faces) for point in points]
            assert set(lying) == {1}, way.words


def test_a_tile_that_fits_no_joint_of_the_picture_is_shown_alone(qtbot: QtBot) -> None:
    """A cross with arms of 97 and notches of 103 fits only with joints of 6; the picture asks for others."""
    across = ((0.0, 103.0), (103.0, 103.0), (103.0, 0.0), (200.0, 0.0), (200.0, 103.0), (303.0, 103.0))
    corners = across + tuple((303.0 - x, 303.0 - y) for x, y in across)
    chooser = WayChooser(Look())
    qtbot.addWidget(chooser)
    cross = PolygonTile(id="cross", outline=corners)
    with pytest.raises(TileLayoutError, match="A joint of 6 mm works"):
        cell_of(Layout(id="A", surface="floor", tile="cross", pattern="drawn"), cross)
    chooser.offer(ways_for(cross), cross)
    assert [button.text() for button in chooser.buttons] == ["Drawn tiling"]
    assert not chooser.buttons[0].grab().isNull()


def _holds(face: np.ndarray, point: np.ndarray) -> bool:
    edges = np.roll(face, -1, axis=0) - face
    to_point = point - face
    turn = edges[:, 0] * to_point[:, 1] - edges[:, 1] * to_point[:, 0]
    return bool(np.all(turn > 0) or np.all(turn < 0))


def test_row_offsets_are_read_as_they_are_written() -> None:
    for offsets in ((0.0,), (0.0, 0.5), (0.0, 1 / 3, 2 / 3), (0.0, 0.37, 0.125)):
        assert read_offsets(offsets_text(offsets)) == pytest.approx(offsets)
    for text in ("", "half", "1/0", "0, x"):
        with pytest.raises(TileLayoutError, match="0, 1/3, 2/3"):
            read_offsets(text)


def test_a_longer_wall_keeps_corners_square_and_arcs_in_form() -> None:
    bowed = Surface(id="bay", outline=ROOM.outline, edges=(Edge(at=1, through=(3800.0, 1200.0)),))
    outline, edges = resized(bowed, 0, 4000.0)
    assert outline == plain_room(4000.0, 2400.0)
    assert edges[0].through == pytest.approx((4200.0, 1200.0))


@pytest.mark.parametrize("turn", [1, -1], ids=["one way round", "the other"])
def test_a_bow_goes_out_of_the_room_whichever_way_the_outline_turns(turn: int) -> None:
    surface = Surface(id="bay", outline=ROOM.outline[::turn])
    for at in range(4):
        x, y = point_of_rise(surface, at, 150.0)
        assert x < 0 or x > 3600 or y < 0 or y > 2400
        bowed = Surface(id="bay", outline=surface.outline, edges=(Edge(at=at, through=(x, y)),))
        assert rise_of(bowed, at) == pytest.approx(150.0)


@pytest.mark.parametrize("centre", Centre)
def test_centring_makes_opposite_borders_equal(centre: Centre) -> None:
    """The trade's rule "centre and balance": opposite walls get the same cut."""
    job = with_tile_laid(Job(surfaces=(ROOM,)), ROOM, None, SLATE)
    start = centred_start(plan(job, "A"), centre, centre)
    borders = {cut.edge: cut.usual for cut in plan(replace_layout(job, "A", start=start), "A").borders}
    assert borders[0] == pytest.approx(borders[2])
    assert borders[1] == pytest.approx(borders[3])


def test_the_first_layout_has_the_best_of_the_centred_borders() -> None:
    """A worked example: 3657.6 mm less two gaps of 6 mm leaves 3645.6 mm for tiles of 600 and joints of 3.

    With a tile in the middle each end gets (3645.6 - 600) / 2 = 1522.8 = 2 * 603 + 3 + 313.8 mm; with a joint
    there only (3645.6 + 3) / 2 - 3 * 603 - 3 = 12.3 mm.
    """
    room = Surface(id="floor", outline=plain_room(3657.6, 2438.4))
    tile = RectangleTile(id="t", length=600.0, width=300.0)
    laid = plan(with_tile_laid(Job(surfaces=(room,)), room, None, tile), "A")
    ends = [cut for cut in laid.borders if cut.edge in (1, 3)]
    assert [cut.usual for cut in ends] == pytest.approx([313.8] * 2)
    assert not laid.slivers


def test_three_hexagons_meet_in_the_middle_when_centred_on_a_joint() -> None:
    job = with_tile_laid(Job(surfaces=(ROOM,)), ROOM, None, COMB)
    made = plan(
        replace_layout(job, "A", start=centred_start(plan(job, "A"), Centre.JOINT, Centre.JOINT)), "A"
    )
    centres = np.array([piece.face.mean(axis=0) for piece in made.laid.pieces()])
    nearest = np.sort(np.hypot(*(centres - (1800, 1200)).T))[:3]
    reach = 230 / sqrt(3) + 3 / sqrt(3)
    assert nearest == pytest.approx([reach] * 3)


def test_the_first_tile_is_of_a_usual_size_in_the_units_of_the_job() -> None:
    inches = usual_tile("oblong", Job(show_lengths=LengthStyle.INCH))
    assert isinstance(inches, RectangleTile)
    assert (inches.length, inches.width) == pytest.approx((609.6, 304.8))
    assert usual_tile("hexagon", Job()) == HexagonTile(
        id="hexagon-tile", name="Hexagon 230", across_flats=230.0
    )


def test_a_second_surface_keeps_joint_and_gap_of_the_first() -> None:
    wall = Surface(id="wall", outline=ROOM.outline)
    job = with_tile_laid(Job(surfaces=(ROOM, wall)), ROOM, None, SLATE)
    job = replace_layout(job, "A", joint=2.0, gap=9.0)
    second = with_tile_laid(job, wall, None, SLATE).layouts[1]
    assert (second.id, second.joint, second.gap) == ("B", 2.0, 9.0)


def test_a_tile_of_another_shape_takes_a_pattern_that_suits_it() -> None:
    job = with_tile_laid(Job(surfaces=(ROOM,)), ROOM, None, SLATE)
    changed = with_tile_laid(job, ROOM, job.layouts[0], COMB)
    assert changed.layouts[0].pattern == "hexagon"
    assert plan(changed, "A").whole > 0


class Counted:
    """Steps that know how far they were pulled and whether they were closed."""

    def __init__(self, last: int) -> None:
        self.last = last
        self.done = 0
        self.is_closed = False

    def steps(self) -> Iterator[int]:
        """Count, and note the end."""
        try:
            for step in range(1, self.last + 1):
                self.done = step
                yield step
        finally:
            self.is_closed = True


def test_long_work_runs_to_its_end_off_the_window(qtbot: QtBot) -> None:
    work = Counted(2000)
    pull = Pull(work.steps)
    seen: list[int] = []
    pull.stepped.connect(seen.append)
    with qtbot.waitSignal(pull.done, timeout=5000):
        pull.start()
    assert work.done == 2000
    assert 1 <= len(seen) < 200, "steps are told at most twenty times a second"


def test_long_work_stops_when_asked_and_cleans_up(qtbot: QtBot) -> None:
    work = Counted(10**9)
    pull = Pull(work.steps)
    with qtbot.waitSignal(pull.cancelled, timeout=5000):
        pull.start()
        pull.cancel()
    pull.wait()
    assert work.is_closed and work.done < 10**9


def test_what_fails_in_the_background_is_told(qtbot: QtBot) -> None:
    def failing() -> Iterator[int]:
        yield 1
        raise TileLayoutError("The paper is out.")

    pull = Pull(failing)
    with qtbot.waitSignal(pull.failed, timeout=5000) as told:
        pull.start()
    assert str(told.args[0]) == "The paper is out."


def test_the_libraries_that_are_missing_are_named_by_package() -> None:
    there = {"DISPLAY": ":0"}
    assert what_hinders(there, "linux", lambda _library: True) == ""
    words = what_hinders(there, "linux", lambda library: "icccm" not in library and "EGL" not in library)
    assert words.endswith("apt install libegl1 libxcb-icccm4") and "\n" not in words
    assert "display" in what_hinders({}, "linux", lambda _library: True)
    assert what_hinders({"QT_QPA_PLATFORM": "offscreen"}, "linux", lambda library: "xcb" not in library) == ""
    assert what_hinders({}, "win32", lambda _library: False) == ""


def test_without_a_display_the_program_says_so_in_one_line() -> None:
    environment = {
        name: value
        for name, value in os.environ.items()
        if name not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    }
    run = subprocess.run(
        [sys.executable, "-m", "tilelayout"], env=environment, capture_output=True, text=True, check=False
    )
    assert run.returncode == 2
    assert run.stderr.count("\n") == 1 and "display" in run.stderr
    assert run.stdout == ""


def test_the_printer_gets_every_page_at_full_size(qtbot: QtBot, tmp_path: Path) -> None:
    """Painted through Qt's own PDF writer, which stands for any printer, and read back."""
    target = tmp_path / "printed.pdf"
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(target))
    printer.setFullPage(True)
    printer.setPageSize(QPageSize(QSizeF(210, 297), QPageSize.Unit.Millimeter))
    figures = pages(potting_shed(), ("A",), "a4")
    paint_pages(printer, figures)
    with pdfplumber.open(target) as document:
        assert len(document.pages) == len(figures)
        for page, figure in zip(document.pages, figures, strict=True):
            millimetres = [float(side) * 25.4 / 72 for side in (page.width, page.height)]
            assert millimetres == pytest.approx([figure.width, figure.height], abs=0.4)
            ink = [*page.curves, *page.lines, *page.rects]
            assert max(mark["x1"] for mark in ink) - min(mark["x0"] for mark in ink) > page.width * 0.8
