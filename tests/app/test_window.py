"""The window as a whole: names, keys, sizes, both looks, nothing empty, nothing out of reach."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QAccessible, QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QMenu,
    QPushButton,
    QScrollArea,
    QWidget,
)
from pytestqt.qtbot import QtBot

from tests.app.opened import application, bare_window, click, close, potting_shed, settle
from tilelayout.app.access_keys import key_of
from tilelayout.app.actions import ACTIONS, key_sequences
from tilelayout.app.bench import Stage
from tilelayout.app.look import GRAB, Scheme
from tilelayout.app.window import Window

ASKED = (QAbstractButton, QLineEdit, QComboBox, QAbstractItemView)


@pytest.fixture
def shed(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window on a job with everything in it."""
    made = bare_window(tmp_path / "settings", potting_shed())
    yield made
    close(made)


def controls(window: QWidget) -> list[QWidget]:
    """Everything that can be seen and pressed or typed in, but for parts of Qt's own widgets."""
    found = [each for each in window.findChildren(QWidget) if isinstance(each, ASKED) and each.isVisible()]
    return [each for each in found if not each.objectName().startswith("qt_")]


@pytest.mark.parametrize("stage", Stage)
def test_every_control_has_a_name_for_a_screen_reader(shed: Window, stage: Stage) -> None:
    shed.bench.show(stage=stage)
    settle()
    assert len(controls(shed)) > 10
    for widget in controls(shed):
        name = QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)
        assert name.strip(), widget


@pytest.mark.parametrize("stage", Stage)
def test_access_keys_are_there_and_differ(shed: Window, stage: Stage) -> None:
    shed.bench.show(stage=stage)
    settle()
    labelled = [
        each for each in shed.findChildren(QLabel) if each.isVisible() and each.buddy() and each.text()
    ]
    card = shed.cards[stage]
    buttons = [each for each in card.findChildren(QPushButton) if each.isVisible()]
    ticks = [each for each in card.findChildren(QCheckBox) if each.isVisible()]
    texts = [label.text() for label in labelled] + [button.text() for button in (*buttons, *ticks)]
    assert [text for text in texts if not key_of(text)] == []
    keys = [key_of(text) for text in (*texts, *(each.text() for each in shed.menuBar().actions()))]
    assert [key for key, count in Counter(keys).items() if count > 1] == []


def test_access_keys_of_every_menu_differ(shed: Window) -> None:
    for entry in shed.menuBar().actions():
        menu = entry.menu()
        assert isinstance(menu, QMenu)
        keys = [key_of(each.text()) for each in menu.actions() if each.text()]
        assert all(keys)
        assert len(keys) == len(set(keys)), entry.text()


def test_no_two_actions_share_a_key() -> None:
    keys = [(each.toString(), action.on_board) for action in ACTIONS for each in key_sequences(action)]
    assert len(keys) == len(set(keys))
    assert all(len(key) > 1 for key, is_on_board in keys if not is_on_board)


@pytest.mark.parametrize("stage", Stage)
def test_everything_to_be_hit_is_large_enough(shed: Window, stage: Stage) -> None:
    """WCAG 2.2, 2.5.8: targets of at least 24 by 24 CSS px."""
    shed.bench.show(stage=stage)
    settle()
    for widget in controls(shed):
        assert widget.height() >= GRAB and widget.width() >= GRAB, (widget, widget.size())


@pytest.mark.parametrize("stage", Stage)
@pytest.mark.parametrize("share", [1.0, 2.0], ids=["text", "double-text"])
def test_nothing_is_out_of_reach_on_a_small_screen(shed: Window, stage: Stage, share: float) -> None:
    """At 1280 by 720, and with text at 200 % (WCAG 2.2, 1.4.4), all can be seen, by scrolling at most."""
    usual = application().font()
    larger = application().font()
    larger.setPointSizeF(usual.pointSizeF() * share)
    try:
        application().setFont(larger)
        shed.dress()
        shed.bench.show(stage=stage)
        shed.resize(1280, 720)
        settle()
        assert shed.width() <= 1280 and shed.height() <= 720
        for widget in controls(shed.cards[stage]):
            area = _area_of(widget)
            ground = shed.cards[stage] if area is None else area.widget()
            assert ground is not None
            place = QRect(widget.mapTo(ground, QPoint()), widget.size())
            assert place.left() >= 0 and place.right() < ground.width(), (widget, place, ground.width())
            assert area is None or ground.width() <= area.viewport().width()
    finally:
        application().setFont(usual)


def _area_of(widget: QWidget) -> QScrollArea | None:
    parent = widget.parentWidget()
    while parent is not None and not isinstance(parent, QScrollArea):
        parent = parent.parentWidget()
    return parent


def test_the_board_has_two_thirds_of_a_usual_window(shed: Window) -> None:
    assert shed.board.width() * 3 >= shed.width() * 2 * 0.97


def test_the_look_changes_while_it_runs(shed: Window, qtbot: QtBot) -> None:
    for scheme, is_dark in ((Scheme.DARK, True), (Scheme.LIGHT, False)):
        shed.choose_scheme(scheme)
        settle()
        assert _is_dark(shed) == is_dark
        for widget, role in ((shed.deck, "panel"), (shed.board, "paper")):
            image = widget.grab().toImage()
            seen = image.pixelColor(widget.width() - 3, 3)
            wanted = shed.bench.look.colour(role)
            assert abs(seen.lightnessF() - wanted.lightnessF()) < 0.05, role
    shed.choose_scheme(Scheme.SYSTEM)
    QGuiApplication.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    assert _is_dark(shed)
    assert shed.settings.scheme is Scheme.SYSTEM


def _is_dark(window: Window) -> bool:
    return window.bench.look.dark


def test_the_first_screen_is_no_empty_panel(window: Window) -> None:
    assert window.invitation.isVisible()
    assert "Draw the room" in window.foot.finding.words
    click(window.invitation.add)
    assert window.board.isVisible()
    assert list(window.bench.job.surfaces[0].outline) == [(0, 0), (3600, 0), (3600, 2400), (0, 2400)]
    window.bench.session.undo()
    settle()
    assert window.invitation.isVisible()


def test_pressing_the_finding_brings_its_question_to_the_front(window: Window) -> None:
    click(window.invitation.add)
    assert window.foot.finding.stage is Stage.TILE
    click(window.foot.words)
    assert window.bench.stage is Stage.TILE


def test_the_path_shows_how_far_each_question_is_answered(window: Window) -> None:
    names = [stop.accessibleName() for stop in window.path.stops.values()]
    words = ("Measure", "Tile", "Surface", "Set out", "Compare", "Cut")
    assert names == [f"{word}, not yet answered" for word in words]
    click(window.invitation.add)
    assert window.path.stops[Stage.MEASURE].accessibleName() == "Measure, answered"
    click(window.path.stops[Stage.TILE])
    click(window.tile.adds[0])
    assert window.path.stops[Stage.TILE].accessibleName() == "Tile, answered"
    assert window.path.stops[Stage.CUT].accessibleName() == "Cut, partly answered"


@pytest.mark.parametrize("stage", Stage)
def test_shortcuts_work_wherever_the_pointer_hovers(shed: Window, stage: Stage) -> None:
    for widget in [shed.board, shed.foot.zoom, *controls(shed.cards[stage])[:4]]:
        QTest.mouseMove(widget)
        QTest.keyClick(shed, Qt.Key.Key_1 + list(Stage).index(stage), Qt.KeyboardModifier.ControlModifier)
        settle()
        assert shed.bench.stage is stage


def test_single_letters_act_only_while_the_board_has_the_focus(shed: Window) -> None:
    shed.measure.name.setFocus()
    QTest.keyClicks(shed.measure.name.line, "wf")
    assert shed.board.tool == "select"
    shed.board.setFocus()
    QTest.keyClick(shed.board, Qt.Key.Key_F)
    settle()
    assert shed.board.tool == "draw_surface"


def test_what_was_refused_is_said_no_longer_once_the_next_thing_went_well(shed: Window) -> None:
    shed.bench.show(stage=Stage.SET_OUT)
    shed.board.use_tool("full_tile_at")
    middle = shed.board.rect().center()
    QTest.mouseMove(shed.board, middle)
    QTest.mouseClick(shed.board, Qt.MouseButton.LeftButton, pos=middle)
    settle()
    assert "Point at the wall" in shed.foot.words.accessibleName()
    QTest.mouseMove(shed.board, middle + QPoint(60, 40))
    settle()
    assert "Point at the wall" in shed.foot.words.accessibleName(), "there is time to read it"
    QTest.keyClick(shed.board, Qt.Key.Key_Escape)
    settle()
    assert shed.foot.words.accessibleName() == shed.foot.finding.words
