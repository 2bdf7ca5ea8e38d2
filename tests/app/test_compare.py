"""Which layouts are compared, and what is done with the one in front."""

from __future__ import annotations

from pathlib import Path

import pdfplumber
import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from tests.app.compared import front, ids, job_with, opened, wait
from tests.app.opened import bare_window, click, close, potting_shed, settle, type_in
from tilelayout.app.bench import Stage
from tilelayout.app.compare.another import another_layout
from tilelayout.app.progress import Level
from tilelayout.app.window import Window
from tilelayout.job.edits.layouts import replace_layout
from tilelayout.job.values import Job


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
    assert str(target) in two.foot.words.accessibleName()
    assert two.foot.mark.level is Level.WELL


def test_a_folder_that_is_not_there_is_said(two: Window, qtbot: QtBot, tmp_path: Path) -> None:
    with qtbot.waitSignal(two.compare_paper.refused, timeout=20_000) as said:
        two.compare_paper.write(tmp_path / "none" / "x.pdf")
    assert "no folder" in said.args[0]
    assert two.foot.mark.level is Level.STOP
