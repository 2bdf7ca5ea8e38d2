"""Where layouts are compared, with a real mouse and real keys: linked views, wipe, table, choice."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pdfplumber
import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible, QImage, QMouseEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, click, close, potting_shed, settle, type_in
from tilelayout.app.bench import Stage
from tilelayout.app.compare.another import another_layout
from tilelayout.app.compare.pane import ViewPane
from tilelayout.app.compare.sight import HEAD, Sight
from tilelayout.app.look import GRAB, Scheme
from tilelayout.app.window import Window
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits.layouts import add_layout, replace_layout
from tilelayout.job.values import Job
from tilelayout.planning.compare import Part, compare
from tilelayout.planning.plan import plan

LEFT = Qt.MouseButton.LeftButton


def job_with(count: int) -> Job:
    """The potting shed with so many layouts, each from another start."""
    job = potting_shed()
    for at, id in enumerate("BCDEF"[: count - 1], start=1):
        job = add_layout(job, replace(job.layouts[0], id=id, start=(60.0 * at, 35.0 * at)))
    return job


def opened(settings: Path, qtbot: QtBot, count: int) -> Window:
    """A window with the layouts of a job side by side, the table worked out."""
    window = bare_window(settings, job_with(count))
    window.bench.show(stage=Stage.COMPARE)
    wait(window, qtbot)
    return window


def wait(window: Window, qtbot: QtBot) -> None:
    """Wait until the table shows what is shown."""
    settle()
    qtbot.waitUntil(lambda: not window.choice.is_working, timeout=10_000)
    settle()


@pytest.fixture
def two(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window with two layouts side by side."""
    made = opened(tmp_path / "settings", qtbot, 2)
    yield made
    close(made)


@pytest.fixture
def four(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window with five layouts, of which four stand side by side."""
    made = opened(tmp_path / "settings", qtbot, 5)
    yield made
    close(made)


def drag(widget: QWidget, start: QPoint, end: QPoint) -> None:
    """Press, move in steps over the screen, let go; the widget may follow the hand."""
    first, last = widget.mapToGlobal(start), widget.mapToGlobal(end)
    QTest.mousePress(widget, LEFT, pos=start)
    for step in range(1, 9):
        at = first + (last - first) * step / 8
        event = QMouseEvent(
            QEvent.Type.MouseMove,
            QPointF(widget.mapFromGlobal(at)),
            QPointF(at),
            Qt.MouseButton.NoButton,
            LEFT,
            Qt.KeyboardModifier.NoModifier,
        )
        QApplication.sendEvent(widget, event)
    QTest.mouseRelease(widget, LEFT, pos=widget.mapFromGlobal(last))
    settle()


def turn_wheel(widget: QWidget, at: QPoint, notches: int) -> None:
    """Turn the wheel away from the person."""
    event = QWheelEvent(
        QPointF(at),
        QPointF(widget.mapToGlobal(at)),
        QPoint(),
        QPoint(0, 120 * notches),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(widget, event)


def picture(widget: QWidget) -> QImage:
    """What is seen of a widget."""
    return widget.grab().toImage()


def room_of(sight: Sight) -> QImage:
    """What is seen of a view below its head, without its outline."""
    inner = sight.room.toRect().adjusted(6, 6, -6, -6)
    return sight.grab(inner).toImage()


def front(window: Window) -> str:
    """The id of the layout in front."""
    layout = window.bench.layout
    assert layout is not None
    return layout.id


def ids(window: Window) -> list[str]:
    """The layouts side by side."""
    return [layout.id for layout in window.beside.shown]


# --- linked views --------------------------------------------------------------------------------------


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


# --- the table -----------------------------------------------------------------------------------------


def test_the_table_says_what_the_comparison_says_and_marks_by_more_than_colour(two: Window) -> None:
    job = two.bench.job
    wanted = compare((plan(job, "A"), plan(job, "B")))
    table = two.choice.table
    assert [line for line in table.rows.lines if not isinstance(line, Part)] == list(wanted.rows)
    model = table.model()
    spoken = Qt.ItemDataRole.AccessibleTextRole
    for at, line in enumerate(table.rows.lines):
        if isinstance(line, Part):
            continue
        assert model.index(at, 0).data() == line.figure
        for column, cell in enumerate(line.cells, start=1):
            assert model.index(at, column).data() == cell.words
            words = model.index(at, column).data(spoken)
            assert line.figure in words and f"Layout {'AB'[column - 1]}" in words
            assert ("better" in words) == cell.is_better
            assert cell.difference in words
    assert [model.headerData(at, Qt.Orientation.Horizontal) for at in (1, 2)] == ["A", "B"]


def test_going_through_the_table_by_keys_brings_layouts_to_the_front(two: Window) -> None:
    table = two.choice.table
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_Right)
    QTest.keyClick(table, Qt.Key.Key_Right)
    settle()
    assert front(two) == "B"
    QTest.keyClick(table, Qt.Key.Key_Down)
    QTest.keyClick(table, Qt.Key.Key_Left)
    settle()
    assert front(two) == "A"


@pytest.mark.parametrize("style", [LengthStyle.FEET, LengthStyle.MM])
@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080)])
def test_no_figure_of_four_layouts_is_cut_off(
    qtbot: QtBot, tmp_path: Path, style: LengthStyle, size: tuple[int, int]
) -> None:
    window = bare_window(tmp_path / "s", replace(job_with(4), show_lengths=style))
    window.resize(*size)
    window.bench.show(stage=Stage.COMPARE)
    wait(window, qtbot)
    table = window.choice.table
    assert not table.horizontalScrollBar().isVisible()
    assert sum(table.columnWidth(at) for at in range(5)) <= table.viewport().width()
    assert window.compare.width() > window.deck.width()
    close(window)


def test_the_table_follows_a_change_and_its_undo(two: Window, qtbot: QtBot) -> None:
    first = list(two.choice.table.rows.lines)
    two.bench.apply("Move start", lambda job: replace_layout(job, "B", start=(6.0, 6.0)))
    wait(two, qtbot)
    assert two.choice.table.rows.lines != first
    two.bench.session.undo()
    wait(two, qtbot)
    assert two.choice.table.rows.lines == first


# --- what is done --------------------------------------------------------------------------------------


def test_one_is_chosen_laid_and_the_choice_is_undone(two: Window, qtbot: QtBot) -> None:
    click(two.compare.panes[1])
    click(two.choice.next_button)
    assert two.bench.stage is Stage.CUT
    assert front(two) == "B"
    assert [layout.id for layout in two.bench.job.layouts] == ["B", "A"]
    assert two.bench.session.undo_label == "Lay Layout B"
    two.bench.show(stage=Stage.COMPARE)
    wait(two, qtbot)
    assert [pane.accessibleName() for pane in two.compare.panes] == [
        "Layout B, to be laid, in front",
        "Layout A",
    ]
    QTest.keyClick(two, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    wait(two, qtbot)
    assert front(two) == "A"
    assert [layout.id for layout in two.bench.job.layouts] == ["A", "B"]


def test_laying_what_is_laid_already_is_no_step(two: Window) -> None:
    click(two.choice.next_button)
    assert two.bench.stage is Stage.CUT and not two.bench.session.can_undo


def test_a_layout_gets_a_name_everywhere_and_it_is_undone(two: Window, qtbot: QtBot) -> None:
    two.bench.show(layout="B")
    wait(two, qtbot)
    type_in(two.choice.name, "Half tiles at the door")
    wait(two, qtbot)
    assert two.bench.job.layout("B").name == "Half tiles at the door"
    title = "B, Half tiles at the door"
    assert two.compare.panes[1].accessibleName() == f"{title}, in front"
    two.bench.show(stage=Stage.SET_OUT)
    assert two.set_out.layouts.currentText() == title
    two.bench.session.undo()
    two.bench.show(stage=Stage.COMPARE)
    wait(two, qtbot)
    assert two.bench.job.layout("B").name == ""
    assert two.choice.name.line.text() == ""


def test_which_layouts_stand_side_by_side_is_picked(four: Window, qtbot: QtBot) -> None:
    buttons = four.choice.letters.buttons
    assert list(buttons) == list("ABCDE")
    assert len(ids(four)) == 4
    hidden = next(id for id in buttons if id not in ids(four))
    click(buttons[hidden])
    wait(four, qtbot)
    assert hidden in ids(four) and len(ids(four)) == 4
    for id in [id for id in ids(four) if id != "A"]:
        click(buttons[id])
    wait(four, qtbot)
    assert len(ids(four)) == 2, "two stay"
    assert buttons["A"].isChecked() == ("A" in ids(four))
    assert four.choice.table.rows.ids == tuple(ids(four))
    assert len(four.compare.panes) == 2


def test_the_layout_in_front_can_be_taken_away_and_another_comes_forward(four: Window) -> None:
    four.bench.show(layout="B")
    click(four.choice.letters.buttons["B"])
    assert "B" not in ids(four) and front(four) in ids(four)


def test_a_copy_stands_beside_at_once(two: Window, qtbot: QtBot) -> None:
    click(two.choice.copy)
    wait(two, qtbot)
    assert ids(two) == ["A", "B", "C"] and front(two) == "C"
    copy = two.bench.job.layout("C")
    assert replace(copy, id="A") == two.bench.job.layout("A")
    two.bench.session.undo()
    wait(two, qtbot)
    assert ids(two) == ["A", "B"]
    assert len(two.compare.panes) == 2


def test_one_layout_alone_offers_to_make_another(qtbot: QtBot, tmp_path: Path) -> None:
    window = opened(tmp_path / "s", qtbot, 1)
    card = window.choice
    assert card.invite.isVisible() and card.invite.text().count(".") == 2
    assert not card.table.isVisible()
    assert len(window.compare.panes) == 1
    assert not window.actions_.by_id["wipe"].isEnabled()
    click(card.make)
    wait(window, qtbot)
    assert ids(window) == ["A", "B"] and card.table.isVisible()
    made = window.bench.job.layout("B")
    assert "centred" in made.name
    assert card.comparison is not None
    assert not all(row.is_equal for row in card.comparison.rows)
    window.bench.session.undo()
    wait(window, qtbot)
    assert card.make.isVisible()
    close(window)


def test_another_layout_of_a_floor_that_whole_tiles_fill_lies_otherwise_or_is_a_copy() -> None:
    job = potting_shed()
    other = another_layout(job, "A")
    assert other.id == "B" and other.start != job.layouts[0].start
    unlaid = replace_layout(job, "A", pattern="hexagon", settings={})
    assert replace(another_layout(unlaid, "A"), id="A") == unlaid.layouts[0]


def test_without_a_tile_the_button_leads_to_it(qtbot: QtBot, tmp_path: Path) -> None:
    job = potting_shed()
    window = bare_window(tmp_path / "s", replace(job, layouts=()))
    window.bench.show(stage=Stage.COMPARE)
    settle()
    assert "No tile" in window.choice.invite.text() and not window.choice.make.isVisible()
    assert window.compare.isVisible() and window.compare.panes[0].shown is not None
    click(window.choice.next_button)
    assert window.bench.stage is Stage.TILE
    close(window)


def test_a_layout_that_cannot_be_laid_says_why_and_the_others_are_compared(
    four: Window, qtbot: QtBot
) -> None:
    four.bench.apply("Spoil", lambda job: replace_layout(job, "B", pattern="hexagon", settings={}))
    wait(four, qtbot)
    spoiled = next(
        pane
        for pane in four.compare.panes
        if pane.shown is not None and pane.shown.layout is not None and pane.shown.layout.id == "B"
    )
    assert spoiled.shown is not None and spoiled.shown.trouble
    assert spoiled.accessibleDescription() == spoiled.shown.trouble
    assert four.choice.table.rows.ids == tuple(id for id in ids(four) if id != "B")


def test_another_job_begins_afresh(four: Window, qtbot: QtBot) -> None:
    four.bench.session.replace(job_with(3))
    wait(four, qtbot)
    assert ids(four) == ["A", "B", "C"]
    four.bench.session.replace(Job())
    settle()
    assert four.invitation.isVisible()


def test_the_comparison_is_saved_as_a_pdf_of_its_own(
    two: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "beside"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args: (str(target), ""))
    with qtbot.waitSignal(two.compare_paper.saved, timeout=20_000):
        click(two.choice.paper)
    with pdfplumber.open(target.with_suffix(".pdf")) as document:
        assert len(document.pages) == 1
        assert "Layouts side by side" in document.pages[0].extract_text()
    assert str(target) in two.foot.words.text()


def test_a_folder_that_is_not_there_is_said(two: Window, qtbot: QtBot, tmp_path: Path) -> None:
    with qtbot.waitSignal(two.compare_paper.said, timeout=20_000) as said:
        two.compare_paper.write(tmp_path / "none" / "x.pdf")
    assert "no folder" in said.args[0]


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
