"""The surface question in the window, by mouse and keyboard: readings, verdict, what to do."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.app.opened import click, named, on_board, settle
from tests.app.surveyed import (
    ROOM,
    TILE,
    at_surface,
    face_of,
    heights,
    room_job,
    type_heights,
    worked_out,
)
from tilelayout.app.bench import Stage
from tilelayout.app.progress import Answered, answered
from tilelayout.app.surface.desk import Face
from tilelayout.app.surface.gap_sheet import GapSheet
from tilelayout.app.surface.table_sheet import TableSheet
from tilelayout.app.window import Window
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.walk import Direction, places_of
from tilelayout.job.edits.jobs import set_show_lengths
from tilelayout.job.edits.readings import enter_reading
from tilelayout.job.preparation import PreparationWay
from tilelayout.job.values import Job, Layout, StraightedgeReading, Surface, SurfaceKind


def test_a_floor_is_read_place_by_place_by_keyboard_alone(store: Window) -> None:
    store.activateWindow()
    QTest.keyClick(store, Qt.Key.Key_F6)
    store.board.setFocus()
    places = places_of(ROOM, store.desk.walk)
    type_heights(store, *(f"{0.1 * k:.1f}" for k in range(len(places))))
    assert [point[:2] for point in heights(store)] == list(places)
    assert [point[2] for point in heights(store)] == pytest.approx([0.1 * k for k in range(len(places))])
    assert len(places) == 20
    assert store.surface.figures[0].numeral.text() == "20"
    assert answered(Stage.SURFACE, store.bench) is Answered.HALF
    QTest.keyClick(store, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert len(heights(store)) == 19


def test_a_click_goes_to_a_point_and_a_typed_height_stays_there(store: Window) -> None:
    QTest.mouseClick(store.board, Qt.MouseButton.LeftButton, pos=on_board(store, 500, 480))
    settle()
    type_heights(store, "-2.5")
    ((x, y, height),) = heights(store)
    assert (x, y) == pytest.approx((500.0, 480.0), abs=2)
    assert height == -2.5
    QTest.mouseClick(store.board, Qt.MouseButton.LeftButton, pos=on_board(store, 503, 478))
    settle()
    assert store.board.preview.boxes[0].text == "-2.5 mm"
    QTest.keyClick(store.board, Qt.Key.Key_Delete)
    assert heights(store) == ()


def test_rows_run_up_once_that_is_chosen_and_the_step_is_typed(store: Window) -> None:
    store.surface.readings.direction.choose(Direction.UP)
    store.surface.readings.step.enter("450")
    store.surface.readings.from_wall.enter("0")
    settle()
    store.board.setFocus()
    type_heights(store, "1", "2")
    assert [point[:2] for point in heights(store)] == [(0.0, 0.0), (0.0, 450.0)]
    assert store.surface.readings.comes_out.text().endswith("every 433 mm across, 450 mm up.")


def test_a_pasted_table_is_read_and_what_cannot_be_is_said_with_its_line(store: Window) -> None:
    click(store.surface.readings.table)
    (sheet,) = store.findChildren(TableSheet)
    sheet.text.setPlainText("x;y;height\n0;0;1,5\n300;0;two\n")
    take = sheet.buttons[0]
    click(take)
    assert "Line 3" in sheet.wrong.text()
    assert sheet.isVisible() and heights(store) == ()
    sheet.text.setPlainText("x;y;height\n0;0;1,5\n300;0;2\n0;300;0")
    click(take)
    assert heights(store) == ((0.0, 0.0, 1.5), (300.0, 0.0, 2.0), (0.0, 300.0, 0.0))
    store.bench.session.undo()
    assert heights(store) == ()


def test_a_file_of_readings_is_shown_before_it_is_taken(store: Window, tmp_path: Path) -> None:
    click(store.surface.readings.table)
    (sheet,) = store.findChildren(TableSheet)
    path = tmp_path / "readings.csv"
    path.write_text("x,y,height\n100,100,0.5\n400,100,0.25\n100,400,0\n", "utf-8")
    sheet.load(path)
    assert heights(store) == ()
    click(sheet.buttons[0])
    assert heights(store)[0] == (100.0, 100.0, 0.5)


def test_a_table_says_feet_and_inches_where_the_job_does(store: Window) -> None:
    store.bench.apply("Change lengths", lambda job: set_show_lengths(job, LengthStyle.FEET))
    click(store.surface.readings.table)
    (sheet,) = store.findChildren(TableSheet)
    sheet.text.setPlainText("1' 0\"\t2'\t1/8\n2'\t2'\t0\n2'\t1'\t0")
    click(sheet.buttons[0])
    assert heights(store)[0] == pytest.approx((304.8, 609.6, 3.175))


def test_a_gap_under_a_straightedge_is_entered_and_erased(store: Window) -> None:
    click(store.surface.readings.gap)
    (sheet,) = store.findChildren(GapSheet)
    click(sheet.buttons[0])
    assert "from across" in sheet.wrong.text()
    for name, text in zip(sheet.boxes, ("0", "0", "1200", "0", "600", "3"), strict=True):
        sheet.boxes[name].enter(text)
    click(sheet.buttons[0])
    assert store.bench.job.surveys[0].straightedge == (
        StraightedgeReading(start=(0.0, 0.0), end=(1200.0, 0.0), along=600.0, gap=3.0),
    )
    sheet.reject()
    click(store.surface.readings.take_back)
    assert store.bench.job.surveys == ()


def test_a_mistyped_reading_is_pointed_at_and_put_right(store: Window) -> None:
    job = store.bench.job
    for at, (x, y) in enumerate(places_of(ROOM, store.desk.walk)):
        height = 120.0 if at == 7 else 12.0 + 0.1 * (at % 3)
        job = enter_reading(job, "floor", (x, y, height))
    store.bench.apply("Readings", lambda _job: job)
    settle()
    assert "looks mistyped" in store.surface.readings.odd.text()
    sight = store.desk.sight
    assert sight is not None
    assert [at for at, mark in enumerate(sight.marks) if mark.is_odd] == [7]
    click(store.surface.readings.mend)
    assert heights(store)[7][2] == pytest.approx(12.0)
    assert not store.surface.readings.odd.isVisible()


def test_from_readings_to_verdict_to_what_to_do_to_setting_out(pantry: Window, qtbot: QtBot) -> None:
    card = pantry.surface
    click(card.next_button)
    assert face_of(pantry) is Face.VERDICT
    worked_out(pantry, qtbot)
    one = pantry.desk.one
    assert one is not None
    text = card.verdict.text()
    assert "Not flat enough" in text and "ANSI A108.02" in text and "Slab grey" in text
    assert "Cannot be judged" in text
    assert card.figures[1].numeral.text() == f"{max(each.worst for each in one.variations):.1f}"
    sight = pantry.desk.sight
    assert sight is not None and sight.chord is one.variations[0].chord
    card.more.click()
    assert "DIN 18202" in card.others.text()
    assert "FF 31" in card.others.text() and "indicative only" in card.others.text()
    click(card.next_button)
    assert face_of(pantry) is Face.SIT
    click(card.next_button)
    worked_out(pantry, qtbot)
    assert "1.0 litres" in card.mend.result.text() and "kitchen door" in card.mend.result.text()
    assert pantry.desk.sight is not None and pantry.desk.sight.heights is not None
    assert pantry.desk.sight.heights.is_depth
    click(card.next_button)
    assert pantry.bench.stage is Stage.SET_OUT


def test_the_way_and_the_bag_are_kept_in_the_job_and_undone(pantry: Window, qtbot: QtBot) -> None:
    pantry.desk.show(Face.MEND)
    pantry.surface.mend.way.choose(PreparationWay.LEVEL)
    pantry.surface.mend.bag.enter("4")
    worked_out(pantry, qtbot)
    asked = pantry.bench.job.surveys[0].preparation
    assert asked is not None and (asked.way, asked.bag_litres) == (PreparationWay.LEVEL, 4.0)
    assert "9.7 litres of filler, 3 bags" in pantry.surface.mend.result.text()
    assert answered(Stage.SURFACE, pantry.bench) is Answered.FULL
    pantry.bench.session.undo()
    pantry.bench.session.undo()
    assert pantry.bench.job.surveys[0].preparation is None


def test_a_thin_limit_for_grinding_that_cannot_do_says_so(pantry: Window, qtbot: QtBot) -> None:
    pantry.desk.show(Face.MEND)
    pantry.surface.mend.bag.enter("a lot")
    assert "no number" in pantry.surface.mend.bag.wrong.text()
    pantry.surface.mend.way.choose(PreparationWay.GRIND_AND_FILL)
    assert pantry.surface.mend.ground.isVisibleTo(pantry.surface)
    worked_out(pantry, qtbot)
    assert "Grind off" in pantry.surface.mend.result.text()


def test_the_map_is_as_light_as_the_floor_is_high_and_clear_beside_it(pantry: Window) -> None:
    sight = pantry.desk.sight
    assert sight is not None and sight.heights is not None
    made = sight.heights
    low, high = made.box
    image = made.image
    peak = made.mesh.places[int(np.argmax(made.values))]
    pit = made.mesh.places[int(np.argmin(made.values))]

    def lightness(place: np.ndarray) -> float:
        share = (np.clip(place, low + 8, high - 8) - low) / (high - low)
        return float(
            image.pixelColor(int(share[0] * image.width()), int((1 - share[1]) * image.height())).lightnessF()
        )

    assert lightness(peak) > 2.0 * lightness(pit)
    assert image.pixelColor(image.width() - 1, 0).alpha() == 0


def test_no_readings_and_no_room_are_no_dead_end(window: Window, qtbot: QtBot) -> None:
    at_surface(window, Job())
    assert "measure the room" in window.surface.next_button.text().replace("&", "")
    at_surface(window, room_job())
    assert "Next: set out" in window.surface.next_button.text().replace("&", "")
    assert "Click on the board" in window.surface.readings.state.text()
    window.desk.show(Face.VERDICT)
    assert window.surface.verdict.text() == "Enter readings first."
    window.board.setFocus()
    window.desk.show(Face.READINGS)
    type_heights(window, "1", "2")
    window.desk.show(Face.MEND)
    worked_out(window, qtbot)
    assert "Only lines are known" in window.surface.mend.result.text()


def test_readings_outside_the_outline_say_so_and_stay(store: Window, qtbot: QtBot) -> None:
    job = store.bench.job
    for spot in ((5000.0, 0.0), (6000.0, 0.0), (5000.0, 900.0)):
        job = enter_reading(job, "floor", (*spot, 1.0))
    store.bench.apply("Readings", lambda _job: job)
    settle()
    assert "outside the outline" in store.surface.trouble.text()
    store.desk.show(Face.VERDICT)
    worked_out(store, qtbot)
    assert "outside the outline" in store.surface.trouble.text()
    assert len(heights(store)) == 3
    assert named(
        store.surface, type(store.surface.readings.erase), lambda b: b is store.surface.readings.erase
    )


def test_a_wall_is_read_up_its_uprights_and_told_out_of_plumb(window: Window, qtbot: QtBot) -> None:
    wall = Surface(id="wall", kind=SurfaceKind.WALL, outline=((0, 0), (1300, 0), (1300, 2100), (0, 2100)))
    layout = Layout(id="A", surface="wall", tile="slab")
    at_surface(window, Job(surfaces=(wall,), tiles=(TILE,), layouts=(layout,)))
    assert "out from any plumb plane" in window.surface.readings.state.text()
    window.surface.readings.direction.choose(Direction.UP)
    window.surface.readings.step.enter("500")
    settle()
    window.board.setFocus()
    places = places_of(wall, window.desk.walk)
    type_heights(window, *(f"{y * 0.004:.1f}" for _, y in places))
    assert len(heights(window)) == len(places)
    window.desk.show(Face.VERDICT)
    worked_out(window, qtbot)
    assert "Not plumb enough: the top leans out by 8 mm over 2000 mm" in window.surface.verdict.text()
    window.desk.show(Face.MEND)
    assert "Plumb with the furthest point" in [
        window.surface.mend.way.itemText(at) for at in range(window.surface.mend.way.count())
    ]


def test_each_step_says_what_can_be_done_on_the_board(pantry: Window, qtbot: QtBot) -> None:
    for face, words in (
        (Face.VERDICT, "height"),
        (Face.SIT, "hatched tile"),
        (Face.MEND, "how deep the filler is"),
        (Face.READINGS, "height"),
    ):
        pantry.desk.show(face)
        settle()
        assert words in pantry.hint.text()
        is_reading = face in (Face.READINGS, Face.VERDICT)
        assert (pantry.board.preview.marker is not None) is is_reading
    worked_out(pantry, qtbot)


def test_a_grid_in_feet_and_inches_is_offered_in_round_inches(store: Window) -> None:
    store.bench.apply("Units", lambda job: set_show_lengths(job, LengthStyle.INCH))
    settle()
    assert store.surface.readings.step.line.text() == '12"'
    assert store.surface.readings.from_wall.line.text() == '2"'
