"""A doorway made in a wall from its card, and a cutout that keeps what it is when it is moved or sized."""

from __future__ import annotations

from tests.app.opened import click, settle, type_in
from tests.app.test_rule_findings import show_shed
from tilelayout.app.bench import Stage
from tilelayout.app.window import Window
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.kinds import CutoutKind
from tilelayout.job.values import EdgeRole, Surface


def plain(window: Window) -> Surface:
    """Make a floor of 3 x 2.4 m by the card."""
    window.measure.room.wide.enter("3 m")
    window.measure.room.deep.enter("2.4 m")
    window.measure.add_floor.click()
    settle()
    surface = window.bench.surface
    assert surface is not None
    return surface


def test_a_doorway_is_typed_into_a_wall_and_undone_in_one_step(window: Window) -> None:
    surface = plain(window)
    window.bench.choose(Pick(PickKind.EDGE, surface.id, 2))  # the top wall, which runs from right to left
    settle()
    doorway = window.measure.edge.doorway
    assert doorway.end_words.text() == "from left"
    assert doorway.begin.line.text() == "1100 mm"
    type_in(window.measure.edge.length, "2.5 m")
    assert doorway.begin.line.text() == "850 mm"
    window.bench.session.undo()
    settle()
    type_in(doorway.wide, "900")
    type_in(doorway.begin, "300")
    click(doorway.add)
    made = window.bench.surface
    assert made is not None
    assert made.outline[3:5] == ((1200.0, 2400.0), (300.0, 2400.0))
    assert made.edge(3).role is EdgeRole.DOORWAY
    assert window.bench.chosen == Pick(PickKind.EDGE, surface.id, 3)
    assert window.measure.edge.next_floor.isVisible()
    assert not doorway.add.isVisible()
    window.bench.session.undo()
    settle()
    assert window.bench.surface == surface


def test_a_doorway_that_does_not_fit_is_refused_in_words(window: Window) -> None:
    surface = plain(window)
    window.bench.choose(Pick(PickKind.EDGE, surface.id, 1))
    settle()
    doorway = window.measure.edge.doorway
    assert doorway.end_words.text() == "from below"
    type_in(doorway.begin, "2 m")
    click(doorway.add)
    assert "does not fit in this wall" in window.foot.words.accessibleName()
    assert window.bench.surface == surface


def test_a_flange_that_is_moved_or_sized_by_typing_stays_a_flange(window: Window) -> None:
    show_shed(window, Stage.MEASURE)
    for add in (window.measure.add_round, window.measure.add_box):
        window.bench.choose(None)
        settle()
        click(add)
        face = window.measure.cutout
        face.what.choose(CutoutKind.FLANGE)
        type_in(face.meets, '1"')
        type_in(face.x, '20"')
        type_in(face.diameter if face.diameter.isVisible() else face.width, '5"')
        surface = window.bench.surface
        assert surface is not None
        assert (surface.cutouts[-1].kind, surface.cutouts[-1].meets) == (CutoutKind.FLANGE, 25.4)
