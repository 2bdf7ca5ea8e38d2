"""Reference lines are pointed at, listed with their miss, snapped to and taken away."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from tests.app.boards import drag, job_with
from tests.app.opened import bare_window, click, close, on_board, settle, type_in
from tests.rooms import floor_of, round_cutout
from tilelayout.app.bench import Stage
from tilelayout.app.board.kept_lines import place_of
from tilelayout.app.cards.lines import TOOL_WORDS
from tilelayout.app.window import Window
from tilelayout.job.kinds import Centred, LineKind
from tilelayout.job.values import ReferenceLine

CORNERS = ((0.0, 0.0), (2400.0, 0.0), (2400.0, 1800.0), (0.0, 1800.0))


@pytest.fixture
def shown(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window where the start is the question, in a room with a round drain."""
    room = floor_of(*CORNERS, cutouts=(round_cutout(1500, 900, 100, 3),))
    window = bare_window(tmp_path / "settings", job_with(room, start=(40, 30)))
    window.bench.show(stage=Stage.SET_OUT)
    settle()
    yield window
    close(window)


def point_at(window: Window, tool: str, *places: tuple[float, float]) -> None:
    """Choose a kind of line on the card and press places on the board."""
    window.set_out.lines.kind.choose(tool)
    settle()
    assert window.board.tool == tool and window.hint.text()
    for x, y in places:
        at = on_board(window, x, y)
        QTest.mouseMove(window.board, at)
        settle()
        click(window.board, at)


def lines(window: Window) -> tuple[ReferenceLine, ...]:
    """The lines of the layout in front."""
    assert window.bench.layout is not None
    return window.bench.layout.lines


def rows(window: Window) -> list[str]:
    """What the card lists."""
    shown = window.set_out.lines.list
    return [shown.item(at).text() for at in range(shown.count())]


def test_each_kind_is_added_by_pointing_and_listed_with_its_miss(shown: Window) -> None:
    name = shown.bench.job.surfaces[0].cutouts[0].name
    point_at(shown, "centre_on", (1500, 900))
    point_at(shown, "full_tile_at", (2400, 700))
    point_at(shown, "no_joint_near", (1500, 900))
    point_at(shown, "joint_on_line", (700, 400), (700, 1400))
    made = lines(shown)
    assert [line.kind for line in made] == [
        LineKind.CENTRE,
        LineKind.FULL_TILE,
        LineKind.NO_JOINT,
        LineKind.JOINT,
    ]
    assert (made[0].cutout, made[1].edge, made[2].cutout, made[2].within) == (name, 1, name, 50.0)
    assert made[3].line is not None
    assert [x for x, _ in made[3].line] == pytest.approx([700, 700], abs=10)
    assert shown.board.tool == "drag_start", "the tool ends once its line is there"
    assert len(rows(shown)) == 4
    assert "mm off" in rows(shown)[1]
    assert len(shown.bench.session._history.past) == 4
    shown.bench.session.undo()
    assert len(lines(shown)) == len(rows(shown)) == 3


def test_a_corner_a_wall_and_a_bare_place_can_be_centred_on(shown: Window) -> None:
    for place in ((0, 1800), (1200, 0), (800, 700)):
        point_at(shown, "centre_on", place)
    first, second, third = lines(shown)
    assert (first.point, second.edge) == ((0.0, 1800.0), 0)
    assert third.point == pytest.approx((800, 700), abs=10)


def test_pointing_at_nothing_that_suits_says_what_would(shown: Window) -> None:
    point_at(shown, "full_tile_at", (800, 700))
    assert lines(shown) == () and "Point at the wall" in shown.foot.words.text()
    assert shown.board.tool == "full_tile_at"
    QTest.keyClick(shown.board, Qt.Key.Key_Escape)
    settle()
    assert shown.board.tool == "drag_start"
    point_at(shown, "joint_on_line", (700, 400))
    QTest.keyClick(shown.board, Qt.Key.Key_Escape)
    assert shown.board.tool == "joint_on_line", "the first point is given back"


def test_a_dragged_start_snaps_onto_the_lines_and_they_are_kept(shown: Window) -> None:
    point_at(shown, "joint_on_line", (700, 400), (700, 1400))
    line = lines(shown)[0].line
    assert line is not None
    tile = 597.0
    x = line[0][0] + 1.5 - tile  # where the joint beside the tile that starts there lies on the line
    start = on_board(shown, 1000, 1000)
    scale = shown.board.view.scale
    away = round((x + tile + 3 - 40) % 600 * scale)
    drag(shown.board, start, start + QPoint(away + 4, 60))
    settle()
    layout = shown.bench.layout
    assert layout is not None
    assert (layout.start[0] - 1.5 - line[0][0]) % 600 == pytest.approx(0.0, abs=1e-6) or (
        layout.start[0] - 1.5 - line[0][0]
    ) % 600 == pytest.approx(600.0, abs=1e-6)
    assert rows(shown) == ["1  A joint on the line drawn: kept"]


def test_one_is_changed_and_taken_away_by_the_row_below_the_list(shown: Window) -> None:
    point_at(shown, "no_joint_near", (1500, 900))
    point_at(shown, "centre_on", (1500, 900))
    card = shown.set_out.lines
    assert not card.one.isVisible()
    card.list.setCurrentRow(0)
    settle()
    assert card.within.isVisible() and not card.put.isVisible()
    type_in(card.within, "80")
    assert lines(shown)[0].within == 80.0 and "80 mm" in rows(shown)[0]
    card.list.setCurrentRow(1)
    settle()
    assert card.put.isVisible() and not card.within.isVisible()
    card.put.choose(Centred.TILE)
    assert lines(shown)[1].put is Centred.TILE
    click(card.remove)
    assert [line.kind for line in lines(shown)] == [LineKind.NO_JOINT]
    shown.bench.session.undo()
    assert len(lines(shown)) == 2


def test_the_menu_has_every_kind_and_takes_its_tool(shown: Window) -> None:
    for tool, words in TOOL_WORDS.items():
        action = shown.actions_.by_id[tool.replace("_", "-")]
        assert action.isEnabled() and action.text().replace("&", "") == f"{words}…"
        action.trigger()
        assert shown.board.tool == tool and action.isChecked()


def test_a_line_stands_on_the_board_where_it_was_pointed_at(shown: Window) -> None:
    before = shown.board.grab().toImage()
    point_at(shown, "joint_on_line", (700, 400), (700, 1400))
    shown.bench.show(stage=Stage.SET_OUT)
    settle()
    after = shown.board.grab().toImage()
    (line,) = lines(shown)
    place = place_of(line, shown.bench.job.surfaces[0])
    at = on_board(shown, *place.at)
    assert before != after
    ring = after.pixelColor(at.x() - 9, at.y())
    assert abs(ring.hueF() - shown.bench.look.colour("snap").hueF()) < 0.05
