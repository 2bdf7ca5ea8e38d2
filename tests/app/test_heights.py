"""Layers and finished heights in the window: on the card, on their sheet, by mouse and keyboard."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton

from tests.app.opened import click, press, settle, sheet_of, type_in
from tests.app.test_rule_findings import show_shed
from tilelayout.app.bench import Stage
from tilelayout.app.heights.sheet import HeightsSheet
from tilelayout.app.look import GRAB
from tilelayout.app.window import Window
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.ground import Layer
from tilelayout.job.kinds import CutoutKind, LayerRole
from tilelayout.job.values import Surface

DOOR = 2
"""The edge of the shed's door."""

IN = 25.4


def front(window: Window) -> Surface:
    surface = window.bench.surface
    assert surface is not None
    return surface


def opened(window: Window, place: Pick | None = None) -> HeightsSheet:
    """Open the sheet as a person does: from the card of what is chosen."""
    show_shed(window, Stage.MEASURE)
    button = window.measure.heights
    if place is not None:
        window.bench.choose(place)
        settle()
        button = window.measure.edge.heights
    click(button)
    sheet = sheet_of(window)
    assert isinstance(sheet, HeightsSheet)
    return sheet


def at_door(window: Window) -> Pick:
    show_shed(window, Stage.MEASURE)
    return Pick(PickKind.EDGE, front(window).id, DOOR)


def test_the_card_of_a_doorway_takes_the_floor_beyond_and_says_the_step(window: Window) -> None:
    pick = at_door(window)
    window.bench.choose(pick)
    settle()
    edge = window.measure.edge
    assert edge.next_floor.isVisible()
    assert "Say how high the floor beyond" in edge.step.text()
    window.measure.ground.least.enter('1/8"')
    type_in(edge.next_floor, '1/4"')
    assert front(window).edge(DOOR).meets == IN / 4
    assert (
        edge.step.text() == '1/4" above the floor beyond'.replace("1/4", '1/4"')[:0]
        or "above" in edge.step.text()
    )
    type_in(edge.next_floor, "")
    assert front(window).edge(DOOR).meets is None
    window.bench.session.undo()
    settle()
    assert front(window).edge(DOOR).meets == IN / 4


def test_a_wall_has_no_floor_beyond(window: Window) -> None:
    pick = at_door(window)
    window.bench.choose(Pick(PickKind.EDGE, pick.surface, 5))
    settle()
    assert window.measure.edge.length.isVisible()
    assert not window.measure.edge.next_floor.isVisible()


def test_layers_are_added_named_raised_and_removed_by_the_keyboard(window: Window) -> None:
    sheet = opened(window)
    sheet.layers.add.setFocus()
    QTest.keyClick(sheet.layers.add, Qt.Key.Key_Space)
    settle()
    row = sheet.layers.rows[0]
    assert row.thickness.line.hasFocus()
    type_in(row.thickness, '1/2"')
    QTest.keyClick(sheet.layers.add, Qt.Key.Key_Space)
    sheet.layers.rows[0].role.choose(LayerRole.MEMBRANE)
    type_in(sheet.layers.rows[0].name, "sheet membrane")
    type_in(sheet.layers.rows[0].thickness, "0.5 mm")
    assert front(window).layers == (
        Layer(role=LayerRole.BOARD, thickness=IN / 2),
        Layer(role=LayerRole.MEMBRANE, name="sheet membrane", thickness=0.5),
    )
    assert not sheet.layers.rows[0].up.isEnabled()
    click(sheet.layers.rows[1].up)
    assert [layer.role for layer in front(window).layers] == [LayerRole.MEMBRANE, LayerRole.BOARD]
    click(sheet.layers.rows[0].remove)
    assert [layer.role for layer in front(window).layers] == [LayerRole.MEMBRANE]
    QTest.keySequence(sheet, "Ctrl+Z")
    settle()
    assert len(front(window).layers) == len(sheet.layers.rows) == 2
    press(sheet, "Close")


def test_without_the_bed_the_sheet_asks_and_with_it_the_section_is_drawn(window: Window) -> None:
    sheet = opened(window, at_door(window))
    assert sheet.place.value == f"edge {DOOR}"
    assert not sheet.section.isVisible()
    type_in(sheet.edge.next_floor, '1/8"')
    assert "say how thick the bed of the adhesive is" in sheet.says.text()
    type_in(sheet.least, '1/8"')
    type_in(sheet.most, '1/4"')
    assert sheet.section.isVisible()
    assert "above the floor beyond" in sheet.says.text()
    assert "ADA Standards, 303" in sheet.says.text()
    assert sheet.section.accessibleDescription() == " ".join(sheet.says.text().split("\n"))
    sheet.reject()


def test_the_section_is_painted_with_the_door_and_the_floor_beyond(window: Window) -> None:
    sheet = opened(window, at_door(window))
    type_in(sheet.least, '1/8"')
    type_in(sheet.edge.next_floor, '1/8"')
    without = sheet.section.grab().toImage()
    type_in(sheet.edge.door, '3/4"')
    assert front(window).edge(DOOR).door == 19.05
    image = sheet.section.grab().toImage()
    assert image != without
    chalk = QColor(window.bench.look.colour("chalk")).rgb()
    assert any(image.pixel(x, y) == chalk for x in range(0, image.width(), 2) for y in range(image.height()))
    sheet.reject()


def test_the_floor_beyond_in_layers_takes_the_place_of_its_height(window: Window) -> None:
    sheet = opened(window, at_door(window))
    type_in(sheet.edge.next_floor, '1/2"')
    click(sheet.edge.beyond.add)
    edge = front(window).edge(DOOR)
    assert edge.meets is None
    assert [layer.role for layer in edge.beyond] == [LayerRole.COVERING]
    assert sheet.edge.next_floor.line.text() == ""
    QTest.keyClick(sheet.edge.bevelled, Qt.Key.Key_Space)
    assert front(window).edge(DOOR).bevelled
    sheet.reject()


def test_what_cannot_be_is_said_on_the_sheet(window: Window) -> None:
    sheet = opened(window)
    click(sheet.layers.add)
    type_in(sheet.layers.rows[0].thickness, "3 m")
    assert "thickness of the layer" in sheet.wrong.text()
    assert sheet.wrong.isVisible()
    sheet.reject()


def test_a_drain_becomes_a_flange_with_a_height(window: Window) -> None:
    show_shed(window, Stage.MEASURE)
    click(window.measure.add_round)
    face = window.measure.cutout
    assert not face.meets.isVisible()
    face.what.choose(CutoutKind.FLANGE)
    settle()
    window.measure.ground.least.enter('1/8"')
    type_in(face.meets, '2"')
    assert front(window).cutouts[-1].meets == 2 * IN
    assert "Warning" in face.step.text()
    click(face.heights)
    sheet = sheet_of(window)
    assert isinstance(sheet, HeightsSheet)
    assert sheet.cutout.top.isVisible()
    assert not sheet.cutout.tall.isVisible()
    assert "bowl would rock" in sheet.says.text()
    sheet.reject()
    face.what.choose(CutoutKind.APPLIANCE)
    settle()
    assert front(window).cutouts[-1].meets is None


def test_everything_on_the_sheet_is_named_and_large_enough(window: Window) -> None:
    sheet = opened(window, at_door(window))
    click(sheet.layers.add)
    click(sheet.edge.beyond.add)
    for button in sheet.findChildren(QPushButton):
        assert button.accessibleName(), button.text()
        assert not button.isVisible() or button.height() >= GRAB
    names = [row.thickness.line.accessibleName() for row in (*sheet.layers.rows, *sheet.edge.beyond.rows)]
    assert names == ["Layer 1 under the tile: thickness", "Layer 1 beyond: thickness"]
    assert any("bare base" in label.text() for label in sheet.findChildren(QLabel))
    sheet.reject()
