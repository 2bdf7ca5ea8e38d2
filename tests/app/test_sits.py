"""Will it sit, in the window: worked out beside the window, listed, marked on the board, told on a press."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QHelpEvent, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QToolTip
from pytestqt.qtbot import QtBot

from tests.app.opened import click, on_board, settle
from tests.app.surveyed import at_surface, heights, measured_pantry, room_job
from tilelayout.app.bench import Stage
from tilelayout.app.surface.desk import Face
from tilelayout.app.window import Window


@pytest.fixture
def pantry(window: Window, qtbot: QtBot) -> Window:
    """A window on the sample room that was measured, at the step that asks whether the tiles sit."""
    at_surface(window, measured_pantry())
    window.desk.show(Face.SIT)
    worked_out(window, qtbot)
    return window


def worked_out(window: Window, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not window.desk.sits.is_working, timeout=60_000)
    settle()


def seen(window: Window) -> QImage:
    return window.board.grab().toImage()


def test_the_tiles_to_worry_about_are_listed_and_the_table_shows_every_tile(pantry: Window) -> None:
    face = pantry.surface.sit
    assert "tiles lie badly when laid dry" in face.said.text() and "0.8 mm allowed" in face.said.text()
    rows = [face.worries.item(at).text() for at in range(face.worries.count())]
    assert rows[0].startswith("G2 rocks") and "high spot" in rows[0]
    table = face.table.text()
    assert "Slab grey" in table and "fits after preparation" in table
    assert "Plain 150" in table and "cannot be judged" in table
    assert "Trying" not in table


def test_a_press_on_a_marked_tile_brings_it_to_the_front_and_enters_no_reading(pantry: Window) -> None:
    before = heights(pantry)
    QTest.mouseClick(pantry.board, Qt.MouseButton.LeftButton, pos=on_board(pantry, 600, 1300))
    settle()
    assert pantry.desk.sits.chosen == "G2"
    assert pantry.surface.sit.worries.currentRow() == 0
    assert heights(pantry) == before


def test_at_another_question_the_board_is_left_alone(pantry: Window) -> None:
    pantry.bench.show(stage=Stage.SET_OUT)
    settle()
    assert pantry.desk.sits.sight is None
    QTest.mouseClick(pantry.board, Qt.MouseButton.LeftButton, pos=on_board(pantry, 600, 1300))
    settle()
    assert pantry.desk.sits.chosen == ""


def test_the_list_is_walked_by_keys_and_the_board_follows(pantry: Window) -> None:
    worries = pantry.surface.sit.worries
    worries.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(worries, Qt.Key.Key_Home)
    first = pantry.desk.sits.chosen
    QTest.keyClick(worries, Qt.Key.Key_Down)
    assert (first, pantry.desk.sits.chosen) == ("G2", "H2")
    sight = pantry.desk.sight
    assert sight is not None and sight.sits is not None and sight.sits.chosen == "H2"
    assert worries.accessibleName()


def test_resting_on_a_marked_tile_says_what_is_wrong(pantry: Window) -> None:
    at = on_board(pantry, 600, 1300)
    QApplication.sendEvent(
        pantry.board, QHelpEvent(QHelpEvent.Type.ToolTip, at, pantry.board.mapToGlobal(at))
    )
    assert QToolTip.text().startswith("G2 rocks")


def test_marks_are_painted_here_and_gone_at_the_other_steps(pantry: Window, qtbot: QtBot) -> None:
    def sliver_pixels() -> int:
        image, wanted = seen(pantry), pantry.bench.look.colour("sliver")
        low, high = on_board(pantry, 400, 1400), on_board(pantry, 1210, 1000)
        places = (QPoint(x, y) for y in range(low.y(), high.y(), 2) for x in range(low.x(), high.x(), 2))
        return sum(_is_near(image.pixelColor(place), wanted) for place in places)

    marked = sliver_pixels()
    pantry.desk.show(Face.READINGS)
    settle()
    assert marked > 100 > sliver_pixels()


def _is_near(one: QColor, other: QColor) -> bool:
    parts = [(one.red(), other.red()), (one.green(), other.green()), (one.blue(), other.blue())]
    return all(abs(a - b) < 40 for a, b in parts)


def test_another_layout_is_laid_anew_and_undo_brings_the_first_back(pantry: Window, qtbot: QtBot) -> None:
    pantry.bench.show(layout="B")
    worked_out(pantry, qtbot)
    assert pantry.desk.sits.worries == ()
    assert "cannot show it" in pantry.surface.sit.said.text()
    assert not pantry.surface.sit.worries.isVisibleTo(pantry.surface)


def test_without_readings_and_by_the_step_button_it_says_what_is_first(window: Window, qtbot: QtBot) -> None:
    at_surface(window, room_job())
    click(window.surface.steps[Face.SIT])
    assert window.desk.face is Face.SIT
    assert window.surface.sit.said.text() == "Enter readings first."
    assert window.surface.steps[Face.SIT].accessibleName() == "Will the tiles sit?"
