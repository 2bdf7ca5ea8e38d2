"""The table beside the linked views."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.app.compared import front, job_with, wait
from tests.app.opened import bare_window, close, settle
from tilelayout.app.bench import Stage
from tilelayout.app.window import Window
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits.layouts import replace_layout
from tilelayout.planning.compare import Part, compare
from tilelayout.planning.plan import plan


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
