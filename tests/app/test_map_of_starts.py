"""The map of starts in the window: opened, pointed at and clicked, by mouse and by keyboard alone."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QToolButton
from pytestqt.qtbot import QtBot

from tests.app.opened import click, potting_shed, settle
from tilelayout.app.bench import Stage
from tilelayout.app.look import Scheme
from tilelayout.app.offset_map.frame import frame_of
from tilelayout.app.offset_map.panel import MapPanel
from tilelayout.app.offset_map.picture import Scale, image_of, scale_of
from tilelayout.app.offset_map.tones import tones
from tilelayout.app.window import Window
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.edits.jobs import set_show_lengths
from tilelayout.job.edits.layouts import replace_layout
from tilelayout.job.values import Point
from tilelayout.layout.offset_map.map_of_starts import Measure
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.offset_map import plan_at
from tilelayout.planning.plan import Plan
from tilelayout.planning.seek import Wish, seek

PATIENCE_MS = 60_000


@pytest.fixture
def opened(window: Window, qtbot: QtBot) -> Window:
    """A window on the potting shed with the map open and its first picture there."""
    window.bench.session.replace(potting_shed())
    window.bench.show(stage=Stage.SET_OUT)
    click(_button(window))
    qtbot.waitUntil(lambda: window.map_panel.map is not None, timeout=PATIENCE_MS)
    return window


def _button(window: Window) -> QToolButton:
    (found,) = (each for each in window.strip.findChildren(QToolButton) if each.text() == "Map")
    return found


def _start(window: Window) -> Point:
    layout = window.bench.layout
    assert layout is not None
    return layout.start


def _plan(window: Window) -> Plan:
    plan = window.bench.plan
    assert plan is not None
    return plan


def _is_alike(one: Plan, other: Plan) -> bool:
    """Whether two plans are the same laying, whichever of its starts they name."""
    figures = [
        (plan.whole, plan.cut, len(plan.slivers), round(plan.narrowest or 0, 3)) for plan in (one, other)
    ]
    return figures[0] == figures[1]


def test_the_map_opens_from_the_strip_and_closes_by_its_button(opened: Window) -> None:
    panel = opened.map_panel
    assert panel.isVisible() and opened.board.isVisible()
    assert panel.view.hasFocus()
    assert _button(opened).isChecked()
    click(panel.close_button)
    assert not panel.isVisible()
    assert not _button(opened).isChecked()
    opened.bench.show(stage=Stage.CUT)
    assert not opened.actions_.by_id["map-of-starts"].isEnabled()


def test_a_click_starts_there_in_one_step_that_can_be_undone(opened: Window) -> None:
    panel, before = opened.map_panel, _start(opened)
    place = QPointF(panel.view.width() * 0.7, panel.view.height() * 0.3)
    wanted = panel.view.start_at(place.toPoint().toPointF())
    assert wanted is not None
    made = panel.map
    click(panel.view, place.toPoint())
    assert _start(opened) != before
    assert _is_alike(_plan(opened), plan_at(_plan(opened), wanted))
    assert panel.map is made or panel.is_refining
    reach = panel.view.place_of(_start(opened)) - panel.view.place_of(wanted)  # the words may have moved both
    assert abs(reach.x()) < 1.5 and abs(reach.y()) < 1.5
    opened.bench.session.undo()
    assert _start(opened) == before


def test_what_is_pointed_at_is_said_as_it_would_be_laid(opened: Window, qtbot: QtBot) -> None:
    panel = opened.map_panel
    place = (panel.view.rect().center() / 2) + panel.view.rect().topLeft()
    QTest.mouseMove(panel.view, place)
    wanted = panel.view.start_at(QPointF(place))
    assert wanted is not None
    laid = plan_at(_plan(opened), wanted)
    assert laid.narrowest is not None
    said = f"Narrowest {format_length(laid.narrowest, laid.style)}"
    qtbot.waitUntil(lambda: panel.verdict.text().startswith(said), timeout=PATIENCE_MS)
    assert f"{len(laid.slivers)} sliver" in panel.verdict.text() or "No slivers" in panel.verdict.text()
    assert len(panel.borders.text().splitlines()) == len(laid.borders)
    assert panel.verdict.text() in panel.view.accessibleDescription()
    assert _start(opened) == potting_shed().layouts[0].start


def test_by_keyboard_alone_the_cursor_moves_and_enter_starts_there(opened: Window, qtbot: QtBot) -> None:
    panel, before = opened.map_panel, _start(opened)
    for key in (Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Up):
        QTest.keyClick(panel.view, key)
    QTest.keyClick(panel.view, Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier)
    cursor = panel.view.cursor_at
    assert cursor is not None
    qtbot.waitUntil(lambda: panel.view.accessibleDescription() != "", timeout=PATIENCE_MS)
    QTest.keyClick(panel.view, Qt.Key.Key_Return)
    settle()
    assert _start(opened) != before
    assert _is_alike(_plan(opened), plan_at(_plan(opened), cursor))
    QTest.keyClick(panel.view, Qt.Key.Key_Escape)
    assert panel.view.cursor_at is None
    opened.bench.session.undo()
    assert _start(opened) == before


def test_another_pattern_drops_the_map_and_makes_its_own(opened: Window, qtbot: QtBot) -> None:
    panel, first = opened.map_panel, opened.map_panel.map
    assert first is not None
    opened.bench.apply("Turn", lambda job: replace_layout(job, "A", angle=45.0))
    assert panel.map is not first
    qtbot.waitUntil(lambda: panel.map is not None, timeout=PATIENCE_MS)
    assert panel.map is not None
    assert np.abs(panel.map.vectors - first.vectors).max() > 1.0


def test_the_legend_speaks_the_units_of_the_job(opened: Window, qtbot: QtBot) -> None:
    panel = opened.map_panel
    assert '"' in panel.legend.accessibleName()
    opened.bench.apply("Units", lambda job: set_show_lengths(job, LengthStyle.MM))
    assert "mm" in panel.legend.accessibleName()
    panel.measure.choose(Measure.SLIVERS)
    assert "slivers" in panel.legend.accessibleName()


def test_by_night_and_in_a_small_window_it_is_there_too(opened: Window) -> None:
    opened.choose_scheme(Scheme.DARK)
    settle()
    opened.resize(820, 600)
    settle()
    assert opened.map_panel.isVisible()
    assert not opened.board.isVisible()
    opened.resize(1280, 720)
    settle()
    assert opened.board.isVisible()


def test_the_best_start_is_the_one_that_seeking_finds(opened: Window, qtbot: QtBot) -> None:
    panel, plan = opened.map_panel, _plan(opened)
    for measure, aim in ((Measure.NARROWEST, Aim.WIDEST_CUT), (Measure.CUTS, Aim.FEWEST_CUTS)):
        panel.measure.choose(measure)
        assert (panel.view.best is None) == (panel.best.found is None), "no mark before it is known"
        qtbot.waitUntil(lambda: panel.best.found is not None, timeout=PATIENCE_MS)
        only = replace(opened.bench.job, layouts=(plan.layout,))
        wanted = list(seek(only, plan.surface.id, plan.tile.id, Wish(aim, most=1)))[-1].found[0]
        assert panel.view.best == wanted.layout.start
        assert wanted.why in panel.why.text()
        narrowest = format_length(wanted.narrowest or 0.0, plan.style)
        best = str(wanted.cuts) if measure is Measure.CUTS else narrowest
        assert f"to light, {best}" in panel.legend.accessibleName()


def test_every_control_of_the_panel_has_a_name_and_is_large_enough(opened: Window) -> None:
    panel = opened.map_panel
    for control in (panel.view, panel.measure, panel.close_button, panel.legend):
        assert control.accessibleName()
    assert min(panel.close_button.height(), panel.measure.height()) >= 24


def test_closing_the_window_ends_the_work(opened: Window) -> None:
    assert isinstance(opened.map_panel, MapPanel)
    opened.map_panel.stop()
    opened.set_out.stop()
    settle()
    assert not opened.map_panel.is_refining


def test_ranges_stand_quietly_beside_the_border_cuts(opened: Window, qtbot: QtBot) -> None:
    card = opened.set_out
    qtbot.waitUntil(lambda: bool(card.may_be.text()), timeout=PATIENCE_MS)
    assert card.may_be.text().startswith('With one wall 1/8" off, tiles 1/64" off: ')
    ranges = [card.borders.range_of(row) for row in range(card.borders.count())]
    assert any(" to " in words for words in ranges)
    named = card.borders.item(0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert card.borders.item(0).text() in named
    opened.bench.apply("Gap", lambda job: replace_layout(job, "A", gap=9.0))
    assert card.may_be.text() == ""


# --- the picture -----------------------------------------------------------------------------------------


def test_the_tones_rise_evenly_in_grey() -> None:
    linear = np.where(
        tones() / 255 <= 0.04045, tones() / 255 / 12.92, ((tones() / 255 + 0.055) / 1.055) ** 2.4
    )
    luminance = linear @ (0.2126, 0.7152, 0.0722)  # of sRGB, IEC 61966-2-1
    lightness = 116.0 * np.cbrt(luminance) - 16.0  # CIE L*, of colours not nearly black
    steps = np.diff(lightness[:: len(lightness) // 15])
    assert (steps > 0).all()
    assert steps.max() < 1.5 * steps.min()
    assert lightness[0] < 20 and lightness[-1] > 85


def test_the_frame_of_a_grid_is_one_cell_and_of_a_leaning_bond_one_tile() -> None:
    low = np.array([6.0, 6.0])
    grid = frame_of(np.array([(300.0, 0.0), (0.0, 200.0)]), low)
    assert grid.size.tolist() == [300.0, 200.0]
    leaning = frame_of(np.array([(200.0, 300.0), (-400.0, 300.0)]), low)
    assert leaning.size.round(6).tolist() == [600.0, 300.0]
    start = leaning.inside((-1234.0, 987.0))
    assert (np.array(start) >= low).all() and (np.array(start) <= low + leaning.size).all()
    cells = (np.array(start) - (-1234.0, 987.0)) @ np.linalg.inv(leaning.vectors)
    assert cells == pytest.approx(np.round(cells), abs=1e-9)


def test_the_picture_shows_each_start_in_its_tone(opened: Window) -> None:
    panel = opened.map_panel
    made, frame = panel.map, panel.view.frame
    assert made is not None and frame is not None
    image = image_of(made, Measure.CUTS, frame, 120, 120)
    for x, y in ((10, 20), (60, 60), (110, 95)):
        start = frame.start_at(((x + 0.5) / 120, 1 - (y + 0.5) / 120))
        i, j = np.round(made.places(np.array(start))).astype(int) % made.cuts.shape
        share = float(scale_of(made, Measure.CUTS).shares(np.array(float(made.cuts[i, j]))))
        assert image.pixelColor(x, y).name() == "#" + bytes(tones()[round(share * 255)]).hex()
    assert Scale(5.0, 5.0).shares(np.array([5.0])).tolist() == [1.0]
