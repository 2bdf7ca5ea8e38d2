"""What the trade's rules find, in the window: the foot, the list with sources, the fields they ask for."""

from __future__ import annotations

import re
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QTableWidget, QWidget

from tests.app.opened import click, settle, sheet_of
from tilelayout.app.bench import Stage
from tilelayout.app.progress import Level
from tilelayout.app.rule_findings import FindingsSheet, findings_in_front
from tilelayout.app.rule_keys import KEY_OF_CODE
from tilelayout.app.rule_places import FIELDS
from tilelayout.app.samples import samples
from tilelayout.app.sheet import Sheet
from tilelayout.app.window import Window
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits import heights
from tilelayout.job.ground import Adhesive
from tilelayout.job.kinds import Background, Exposure, Practice, Wetness
from tilelayout.practice import subjects


def show_shed(window: Window, stage: Stage) -> None:
    window.bench.session.replace(next(job for path, job in samples() if path.stem == "potting_shed"))
    window.bench.show(stage=stage)
    settle()


def level(window: Window) -> Level:
    return window.foot.finding.level


def text_at(table: QTableWidget, row: int, column: int) -> str:
    item = table.item(row, column)
    assert item is not None
    return item.text()


def test_a_broken_rule_comes_to_the_foot_and_goes_when_it_is_mended(window: Window) -> None:
    show_shed(window, Stage.MEASURE)
    assert level(window) is Level.WELL
    click(window.measure.ground.unfold)
    window.measure.ground.grade.enter("D1")
    window.measure.ground.wetness.choose(Wetness.WET)
    settle()
    assert level(window) is Level.STOP
    assert "mastic softens in water" in window.foot.finding.words
    window.bench.show(stage=Stage.CUT)
    click(window.foot.words)
    assert window.bench.stage is Stage.MEASURE
    assert window.focusWidget() is window.measure.ground.grade.line
    window.bench.session.undo()
    settle()
    assert "mastic softens" not in window.foot.finding.words


def test_all_findings_are_listed_with_their_sources(window: Window) -> None:
    show_shed(window, Stage.SET_OUT)
    found = findings_in_front(window.bench)
    assert window.foot.all.text() == f"{len(found)} findings"
    click(window.foot.all)
    sheet = next(each for each in window.findChildren(Sheet) if each.isVisible())
    table = sheet.findChildren(QTableWidget)[0]
    rows = [[text_at(table, row, column) for column in range(3)] for row in range(table.rowCount())]
    assert rows == [["Advice", each.sentence, each.source.words] for each in found]
    sheet.reject()


def test_what_is_worse_stands_first_in_the_list(window: Window) -> None:
    show_shed(window, Stage.MEASURE)
    window.measure.ground.wetness.choose(Wetness.WET)
    window.measure.ground.background.choose(Background.PLASTERBOARD)
    found = findings_in_front(window.bench)
    made = FindingsSheet(window, window.bench.look, found, lambda _finding: None)
    assert text_at(made.findChildren(QTableWidget)[0], 0, 0) == "Stop"
    made.reject()


def test_an_empty_job_has_nothing_to_list(window: Window) -> None:
    assert findings_in_front(window.bench) == ()
    assert not window.foot.all.isVisible()


def test_what_is_under_the_tile_is_entered_and_forgotten_again(window: Window) -> None:
    show_shed(window, Stage.MEASURE)
    ground = window.measure.ground
    click(ground.unfold)
    ground.background.choose(Background.CONCRETE)
    ground.exposure.choose(Exposure.SUNLIT)
    ground.most.enter('1/4"')
    ground.least.enter('3/8"')
    ground.grade.enter("c9")
    surface = window.bench.surface
    assert surface is not None
    assert (surface.background, surface.exposure) == (Background.CONCRETE, Exposure.SUNLIT)
    assert surface.adhesive == Adhesive(bed=(9.525, 9.525))
    assert "no class of an adhesive" in window.foot.words.accessibleName()
    ground.least.enter("")
    ground.background.choose(None)
    surface = window.bench.surface
    assert surface is not None
    assert (surface.background, surface.adhesive) == (None, None)


def test_the_country_of_the_rules_is_chosen(window: Window) -> None:
    show_shed(window, Stage.MEASURE)
    window.measure.practice.choose(Practice.DE)
    assert window.bench.job.practice is Practice.DE


def test_weight_water_and_warpage_are_entered_at_the_tile(window: Window) -> None:
    show_shed(window, Stage.TILE)
    more = window.tile.more
    click(more.unfold)
    more.weight.enter("3.9")
    more.absorption.enter("0.3 %")
    more.warpage.enter('1/32"')
    more.spread.enter('1/16"')
    more.nominal.enter('24"')
    tile = window.bench.tile
    assert tile is not None
    assert (tile.weight_kg, tile.absorption_percent) == (3.9, 0.3)
    assert tile.nominal == 609.6
    more.nominal.enter("")
    assert window.bench.tile is not None and window.bench.tile.nominal is None
    assert (tile.warpage, tile.spread) == (25.4 / 32, 25.4 / 16)
    more.weight.enter("")
    assert window.bench.tile is not None
    assert window.bench.tile.weight_kg is None


def test_every_code_and_every_key_that_is_asked_for_has_a_field(window: Window) -> None:
    """Read from the rules themselves, so that a new one cannot be forgotten."""
    folder = Path(str(subjects.__file__)).parent
    text = "\n".join(path.read_text("utf-8") for path in sorted(folder.glob("*.py")))
    asked = set(re.findall(r'"((?:surface|tile|layout|edge|cutout)\.[a-z_.]+)"', text))
    codes = set(re.findall(r'(?:Finding\(|_at_least\(case, \w+, )\s*"([a-z-]+)"', text))
    assert {"surface.wetness", "tile.weight_kg", "cutout.tall"} <= asked
    assert {"trip-edge", "joint-least", "membrane"} <= codes
    assert asked <= set(FIELDS)
    assert codes <= set(KEY_OF_CODE)
    assert set(KEY_OF_CODE.values()) <= set(FIELDS)
    assert all(isinstance(field.of(window), QWidget) for field in FIELDS.values())


def test_a_finding_of_the_list_leads_to_its_field_by_the_keyboard(window: Window) -> None:
    show_shed(window, Stage.CUT)
    click(window.foot.all)
    sheet = sheet_of(window)
    assert isinstance(sheet, FindingsSheet)
    keys = [each.asks for each in findings_in_front(window.bench)]
    sheet.table.setCurrentCell(keys.index(("tile.spread",)), 1)
    QTest.keyClick(sheet.table, Qt.Key.Key_Return)
    settle()
    assert window.bench.stage is Stage.TILE
    assert window.tile.more.spread.isVisible()
    assert window.focusWidget() is window.tile.more.spread.line


def test_a_caution_has_no_place_to_go_to(window: Window) -> None:
    show_shed(window, Stage.SET_OUT)
    click(window.foot.all)
    sheet = sheet_of(window)
    assert isinstance(sheet, FindingsSheet)
    codes = [each.code for each in findings_in_front(window.bench)]
    sheet.table.setCurrentCell(codes.index("caution-dust"), 1)
    assert not sheet.buttons[0].isEnabled()
    sheet.table.setCurrentCell(codes.index("wetness-unknown"), 1)
    assert sheet.buttons[0].isEnabled()
    sheet.reject()


def test_a_trip_edge_leads_to_its_doorway(window: Window) -> None:
    show_shed(window, Stage.CUT)
    bench = window.bench
    surface = bench.surface
    assert surface is not None
    bench.apply("bed", lambda job: heights.set_bed_end(job, surface.id, 3.0, is_least=True))
    bench.apply("floor", lambda job: heights.set_next_floor(job, surface.id, 2, 0.0))
    settle()
    assert "trips people" in window.foot.finding.words
    click(window.foot.words)
    assert bench.chosen == Pick(PickKind.EDGE, surface.id, 2)
    assert window.focusWidget() is window.measure.edge.next_floor.line
