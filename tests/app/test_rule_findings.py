"""What the trade's rules find, in the window: the foot, the list with sources, the fields they ask for."""

from __future__ import annotations

from PySide6.QtWidgets import QTableWidget

from tests.app.opened import click, settle
from tilelayout.app.bench import Stage
from tilelayout.app.progress import Level
from tilelayout.app.rule_findings import findings_in_front, findings_sheet
from tilelayout.app.samples import samples
from tilelayout.app.sheet import Sheet
from tilelayout.app.window import Window
from tilelayout.job.ground import Adhesive
from tilelayout.job.kinds import Background, Exposure, Practice, Wetness


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
    click(window.foot.words)
    assert window.bench.stage is Stage.TILE
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
    made = findings_sheet(window, window.bench.look, findings_in_front(window.bench))
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
    tile = window.bench.tile
    assert tile is not None
    assert (tile.weight_kg, tile.absorption_percent) == (3.9, 0.3)
    assert (tile.warpage, tile.spread) == (25.4 / 32, 25.4 / 16)
    more.weight.enter("")
    assert window.bench.tile is not None
    assert window.bench.tile.weight_kg is None
