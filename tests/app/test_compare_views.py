"""The linked views and the wipe, with a real mouse and real keys."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from tests.app.compared import drag, front, picture, room_of, turn_wheel, wait
from tests.app.opened import bare_window, click, close, potting_shed, settle
from tilelayout.app.bench import Stage
from tilelayout.app.compare.pane import ViewPane
from tilelayout.app.compare.sight import HEAD, Sight
from tilelayout.app.look import GRAB, Scheme
from tilelayout.app.window import Window
from tilelayout.job.edits.layouts import add_layout, replace_layout


def test_whatever_is_pushed_or_zoomed_in_one_view_has_moved_in_all(four: Window) -> None:
    """The law of the linked views: a point of the surface is at one place in every view, always."""
    panes = four.compare.panes
    assert len(panes) == 4
    assert len({(pane.width(), pane.height()) for pane in panes}) == 1
    for number, pane in enumerate(panes):
        before = four.compare.view
        middle = pane.room.center().toPoint()
        drag(pane, middle, middle + QPoint(23 + number, -17))
        moved = four.compare.view
        assert (moved.left - before.left, moved.top - before.top) == pytest.approx((23 + number, -17))
        turn_wheel(pane, middle, 1)
        assert four.compare.view.scale == pytest.approx(moved.scale * 1.25)
        kept = four.compare.view.to_surface(QPointF(middle))
        assert kept == pytest.approx(moved.to_surface(QPointF(middle)))
        assert all(each.linked.view is four.compare.view for each in panes)
    assert four.foot.zoom.isVisible()


def test_equal_layouts_look_equal_in_every_view_wherever_they_are_pushed(
    qtbot: QtBot, tmp_path: Path
) -> None:
    job = potting_shed()
    window = bare_window(tmp_path / "s", add_layout(job, replace(job.layouts[0], id="B")))
    window.bench.show(stage=Stage.COMPARE)
    wait(window, qtbot)
    first, second = window.compare.panes
    assert room_of(first) == room_of(second)
    drag(second, second.room.center().toPoint(), second.room.center().toPoint() + QPoint(40, 25))
    turn_wheel(first, first.room.center().toPoint(), 3)
    QTest.mouseMove(window.foot)
    settle()
    for pane in (first, second):
        pane.show_cross(None)
    assert room_of(first) == room_of(second)
    window.bench.apply("Move start", lambda job: replace_layout(job, "B", start=(90.0, 50.0)))
    settle()
    assert room_of(first) != room_of(second)
    close(window)


def test_the_paper_is_pushed_and_zoomed_by_keys(two: Window) -> None:
    pane = two.compare.panes[1]
    pane.setFocus()
    before = two.compare.view
    QTest.keyClick(pane, Qt.Key.Key_Right)
    QTest.keyClick(pane, Qt.Key.Key_Down)
    assert two.compare.view.left < before.left and two.compare.view.top < before.top
    QTest.keyClick(pane, Qt.Key.Key_Plus)
    assert two.compare.view.scale > before.scale
    QTest.keyClick(pane, Qt.Key.Key_Minus)
    QTest.keyClick(two, Qt.Key.Key_0, Qt.KeyboardModifier.ControlModifier)
    assert two.compare.view == before
    QTest.keyClick(two, Qt.Key.Key_Equal, Qt.KeyboardModifier.ControlModifier)
    assert two.compare.view.scale == pytest.approx(before.scale * 1.25)


def test_a_cross_stands_in_the_other_view_where_the_pointer_is(two: Window) -> None:
    first, second = two.compare.panes
    bare = room_of(second)
    QTest.mouseMove(first, first.room.center().toPoint())
    settle()
    crossed = room_of(second)
    assert crossed != bare
    at = first.room.center().toPoint() - QPoint(6, HEAD + 6)
    snap = two.bench.look.colour("snap")
    ratio = crossed.devicePixelRatio()
    seen = crossed.pixelColor(round(at.x() * ratio), round(at.y() * ratio))
    assert abs(seen.hueF() - snap.hueF()) < 0.02 and abs(seen.lightnessF() - snap.lightnessF()) < 0.08


def test_a_click_or_enter_takes_a_layout_and_a_push_does_not(two: Window) -> None:
    first, second = two.compare.panes
    drag(second, second.room.center().toPoint(), second.room.center().toPoint() + QPoint(60, 0))
    assert front(two) == "A"
    click(second)
    assert front(two) == "B" and second.is_in_front and not first.is_in_front
    first.setFocus()
    QTest.keyClick(first, Qt.Key.Key_Return)
    settle()
    assert front(two) == "A"
    assert first.accessibleName() == "Layout A, to be laid, in front"
    assert second.accessibleName() == "Layout B"


def test_views_stand_so_that_the_room_is_seen_largest(four: Window) -> None:
    places = {(pane.x(), pane.y()) for pane in four.compare.panes}
    assert len({x for x, _ in places}) == len({y for _, y in places}) == 2
    assert all(pane.geometry().right() < four.compare.width() for pane in four.compare.panes)


# --- the wipe ------------------------------------------------------------------------------------------


def test_the_wipe_shows_each_layout_on_its_side_of_the_grip(two: Window) -> None:
    first, second = (room_of(pane) for pane in two.compare.panes)
    two.resize(1100, 720)
    two.actions_.by_id["wipe"].trigger()
    settle()
    pane, wiper = two.compare.wipe_pane, two.compare.wipe_pane.wiper
    assert pane.isVisible() and not any(each.isVisible() for each in two.compare.panes)
    assert wiper.hasFocus()
    QTest.keyClick(wiper, Qt.Key.Key_End)
    whole_first = _left_part(pane)
    QTest.keyClick(wiper, Qt.Key.Key_Home)
    whole_second = _right_part(pane)
    assert first != second
    grip = wiper.rect().center()
    drag(wiper, grip, grip + QPoint(pane.width() // 2, 0))
    assert wiper.value() == pytest.approx(500, abs=40)
    assert _left_part(pane) == whole_first
    assert _right_part(pane) == whole_second


def _left_part(pane: Sight) -> QImage:
    settle()
    return pane.grab(pane.room.toRect().adjusted(40, 0, -2 * pane.width() // 3, 0)).toImage()


def _right_part(pane: Sight) -> QImage:
    settle()
    return pane.grab(pane.room.toRect().adjusted(2 * pane.width() // 3, 0, -40, 0)).toImage()


def test_the_grip_moves_by_keys_in_small_and_large_steps(two: Window) -> None:
    QTest.keyClick(two, Qt.Key.Key_B, Qt.KeyboardModifier.ControlModifier)
    settle()
    wiper = two.compare.wipe_pane.wiper
    assert two.compare.is_wiping and wiper.value() == 500
    for key, value in (
        (Qt.Key.Key_Right, 520),
        (Qt.Key.Key_Left, 500),
        (Qt.Key.Key_PageUp, 600),
        (Qt.Key.Key_PageDown, 500),
        (Qt.Key.Key_End, 1000),
        (Qt.Key.Key_Home, 0),
    ):
        QTest.keyClick(wiper, key)
        assert wiper.value() == value
    interface = QAccessible.queryAccessibleInterface(wiper)
    assert interface.role() == QAccessible.Role.Slider
    assert "Wipe" in interface.text(QAccessible.Text.Name)
    assert wiper.accessibleDescription() == "Layout A at the left, Layout B at the right"
    assert wiper.width() >= GRAB


def test_a_click_beside_the_grip_takes_the_layout_of_that_side(four: Window) -> None:
    four.bench.show(layout="C")
    four.compare.toggle_wipe()
    settle()
    pane = four.compare.wipe_pane
    click(pane, QPoint(pane.width() // 4, pane.height() // 2))
    assert front(four) == "A"
    assert [shown.layout.id for shown in pane.pair if shown.layout] == ["A", "C"]
    click(pane, QPoint(3 * pane.width() // 4, pane.height() // 2))
    assert front(four) == "C"


# --- all views -----------------------------------------------------------------------------------------


def test_the_look_changes_in_every_view(two: Window) -> None:
    for scheme in (Scheme.DARK, Scheme.LIGHT):
        two.choose_scheme(scheme)
        settle()
        for pane in two.compare.panes:
            seen = picture(pane).pixelColor(pane.width() // 2, HEAD + 8)
            assert abs(seen.lightnessF() - two.bench.look.colour("paper").lightnessF()) < 0.05


def test_every_view_and_control_has_a_name_and_tab_reaches_it(two: Window) -> None:
    for widget in (*two.compare.panes, two.compare.wipe_pane.wiper, two.choice.table, two.choice.name.line):
        assert QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name).strip()
        assert widget.focusPolicy() & Qt.FocusPolicy.TabFocus
    reached: list[QWidget] = []
    two.compare.panes[0].setFocus()
    for _ in range(60):
        QTest.keyClick(QApplication.focusWidget() or two, Qt.Key.Key_Tab)
        focused = QApplication.focusWidget()
        if focused is None or focused in reached:
            break
        reached.append(focused)
    assert isinstance(two.compare.panes[1], ViewPane)
    for widget in (two.compare.panes[1], two.choice.table, two.choice.name.line, two.choice.next_button):
        assert widget in reached
