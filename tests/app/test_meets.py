"""Heights that a plane has to meet, in the window: chosen from the list, typed, pointed at on the board."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.app.opened import click, on_board, settle
from tests.app.surveyed import (
    type_meeting_height,
    worked_out,
)
from tilelayout.app.surface.desk import Face
from tilelayout.app.window import Window
from tilelayout.drawing.tools.point_out import POINT_OUT
from tilelayout.job.preparation import PreparationWay


def test_a_plane_meets_the_doorway_chosen_from_the_list_and_typed(pantry: Window, qtbot: QtBot) -> None:
    pantry.desk.show(Face.MEND)
    mend = pantry.surface.mend
    assert mend.meets.adding.isHidden() or not mend.meets.adding.isVisibleTo(pantry.surface)
    mend.way.choose(PreparationWay.PLANE)
    settle()
    assert [mend.meets.adding.itemText(at) for at in range(3)] == [
        "Add a place…",
        "kitchen door",
        "Another point",
    ]
    mend.meets.adding.setFocus()
    QTest.keyClick(mend.meets.adding, Qt.Key.Key_Down)
    settle()
    type_meeting_height(mend.meets, "6.5")
    worked_out(pantry, qtbot)
    asked = pantry.bench.job.surveys[0].preparation
    assert asked is not None
    (given,) = asked.meets
    assert (given.name, given.at, given.to, given.height) == ("kitchen door", (2200, 0), (2200, 1300), 6.5)
    assert mend.meets.list.item(0).text() == "kitchen door: 6.5 mm"
    assert "Judged again as filled" in mend.result.text()
    sight = pantry.desk.sight
    assert sight is not None and [each.words for each in sight.meets] == ["kitchen door: 6.5 mm"]
    click(mend.meets.remove)
    asked = pantry.bench.job.surveys[0].preparation
    assert asked is not None and asked.meets == ()
    pantry.bench.session.undo()
    assert mend.meets.list.count() == 1


def test_a_point_with_a_fall_is_moved_and_its_fall_read_as_people_write_it(
    pantry: Window, qtbot: QtBot
) -> None:
    pantry.desk.show(Face.MEND)
    mend = pantry.surface.mend
    mend.way.choose(PreparationWay.PLANE)
    mend.meets.adding.choose(mend.meets.adding._values[-2])
    mend.meets.across.enter("500")
    mend.meets.up.enter("600")
    mend.meets.fall.enter("steep")
    assert "no fall" in mend.meets.fall.wrong.text()
    mend.meets.fall.enter("1/4 in per ft")
    mend.meets.height.enter("")
    worked_out(pantry, qtbot)
    asked = pantry.bench.job.surveys[0].preparation
    assert asked is not None
    (given,) = asked.meets
    assert (given.at, given.height) == ((500.0, 600.0), None)
    assert given.fall_percent == pytest.approx(25 / 12)
    assert mend.meets.list.item(0).text() == "(500 mm, 600 mm): as low as it can be, 2.08 % to it"
    assert "small tile follows it" in mend.result.text()


def test_a_place_to_meet_is_pointed_at_on_the_board_and_its_height_typed(
    pantry: Window, qtbot: QtBot
) -> None:
    pantry.desk.show(Face.MEND)
    mend = pantry.surface.mend
    mend.way.choose(PreparationWay.PLANE)
    for x, y in ((700, 900), (2190, 650)):
        mend.meets.adding.choose(POINT_OUT)
        settle()
        assert pantry.board.tool == POINT_OUT
        assert "whose height the plane is to meet" in pantry.hint.text()
        QTest.mouseClick(pantry.board, Qt.MouseButton.LeftButton, pos=on_board(pantry, x, y))
        settle()
        type_meeting_height(mend.meets, "4")
    worked_out(pantry, qtbot)
    asked = pantry.bench.job.surveys[0].preparation
    assert asked is not None
    point, door = asked.meets
    assert point.at == pytest.approx((700, 900), abs=8) and (point.name, point.height) == ("", 4.0)
    assert (door.name, door.height) == ("kitchen door", 4.0)
    assert pantry.board.tool != POINT_OUT
