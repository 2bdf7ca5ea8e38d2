"""Border and planks as a person chooses them on the third card."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from tests.app.opened import bare_window, close, settle, type_in
from tests.rooms import PLAIN, SQUARE, layout_of
from tilelayout.app.access_keys import key_of
from tilelayout.app.bench import Stage
from tilelayout.app.window import Window
from tilelayout.job.kinds import BorderBegin, BorderCorners
from tilelayout.job.values import Border, Job, Layout, RectangleTile
from tilelayout.planning.draw_planks import drawn_for_its_room

BAND = RectangleTile(id="band", length=297, width=97)
LONG = RectangleTile(id="long", length=1197, width=197)


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window on a floor laid with squares, and with planks, at the third card."""
    planks = Layout(id="B", surface="floor", tile="long", pattern="random_planks", settings={"seed": 3})
    job = Job(surfaces=(PLAIN,), tiles=(SQUARE, BAND, LONG), layouts=(layout_of(SQUARE), planks))
    made = bare_window(tmp_path / "settings", job)
    made.bench.show(layout="A", stage=Stage.SET_OUT)
    settle()
    yield made
    made.set_out.planks.stop()
    close(made)


def border_of(window: Window) -> Border | None:
    assert window.bench.layout is not None
    return window.bench.layout.border


def test_a_border_is_chosen_changed_and_undone(window: Window) -> None:
    rows = window.set_out.border
    assert not rows.rows.isVisible()
    rows.tile.choose("band")
    settle()
    type_in(rows.rows, "2")
    rows.corners.choose(BorderCorners.BUTTED)
    rows.begin.choose(BorderBegin.CORNER)
    type_in(rows.inset, "5 cm")
    type_in(rows.left_out, "3, 1")
    settle()
    wanted = Border(
        tile="band",
        rows=2,
        corners=BorderCorners.BUTTED,
        begin=BorderBegin.CORNER,
        inset=50.0,
        left_out=(0, 2),
    )
    assert border_of(window) == wanted
    assert rows.left_out.line.text() == "1, 3"
    assert window.bench.plan is not None and len(window.bench.plan.by_tile) == 2
    rows.tile.choose(None)
    settle()
    assert border_of(window) is None and not rows.rows.isVisible()
    window.bench.session.undo()
    assert border_of(window) == wanted


@pytest.mark.parametrize("text", ["x", "0", "1.5", "-2"])
def test_what_is_no_edge_is_said_at_the_box(window: Window, text: str) -> None:
    rows = window.set_out.border
    rows.tile.choose("band")
    settle()
    type_in(rows.left_out, text)
    assert "no list of edges" in rows.left_out.wrong.text()
    assert border_of(window) == Border(tile="band")


def test_the_keys_of_what_is_on_screen_differ(window: Window) -> None:
    window.set_out.border.tile.choose("band")
    settle()
    labels = [each for each in window.set_out.findChildren(QLabel) if each.buddy() and each.isVisible()]
    keys = [key_of(each.text()) for each in labels]
    assert "" not in keys and len(set(keys)) == len(keys)


def test_planks_are_drawn_again_and_with_another_stagger(window: Window) -> None:
    window.bench.show(layout="B", stage=Stage.SET_OUT)
    settle()
    planks = window.set_out.planks
    planks.again.click()
    settle()
    assert window.bench.job.layout("B").settings == {"seed": 4}
    type_in(planks.stagger, "300")
    assert window.bench.job.layout("B").settings == {"seed": 4, "least_stagger": 300.0}
    type_in(planks.stagger, "700")
    settle()
    assert window.bench.plan is None
    type_in(planks.stagger, "")
    settle()
    assert window.bench.plan is not None


def test_with_a_least_end_the_rows_are_drawn_for_the_room(window: Window, qtbot: QtBot) -> None:
    window.bench.show(layout="B", stage=Stage.SET_OUT)
    settle()
    type_in(window.set_out.planks.least_end, "250")
    qtbot.waitUntil(lambda: "shifts" in window.bench.job.layout("B").settings, timeout=10_000)
    assert window.set_out.planks.said.text() == "No row has a piece shorter than 250 mm."
    before = window.bench.job.layout("B").settings["shifts"]
    window.set_out.planks.again.click()
    qtbot.waitUntil(lambda: window.bench.job.layout("B").settings.get("shifts") != before, timeout=10_000)
    assert window.bench.job.layout("B").settings["seed"] == 4


def test_rows_follow_a_start_that_is_moved_and_undo_brings_the_old_ones_back(
    window: Window, qtbot: QtBot
) -> None:
    window.bench.show(layout="B", stage=Stage.SET_OUT)
    settle()
    type_in(window.set_out.planks.least_end, "250")
    qtbot.waitUntil(lambda: "shifts" in window.bench.job.layout("B").settings, timeout=10_000)
    before = window.bench.job
    old = before.layout("B").settings["shifts"]
    type_in(window.set_out.from_left, "333 mm")
    assert window.bench.job.layout("B").start[0] == 333.0
    qtbot.waitUntil(lambda: window.bench.job.layout("B").settings["shifts"] != old, timeout=10_000)
    assert window.set_out.planks.said.text() == "No row has a piece shorter than 250 mm."
    assert drawn_for_its_room(window.bench.job, window.bench.job.layout("B")) == window.bench.job.layout("B")
    after = window.bench.job
    window.bench.session.undo()
    window.bench.session.undo()
    qtbot.wait(800)
    assert window.bench.job == before
    window.bench.session.redo()
    window.bench.session.redo()
    qtbot.wait(800)
    assert window.bench.job == after
