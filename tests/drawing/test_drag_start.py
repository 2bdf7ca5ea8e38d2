"""The start of a layout is dragged, nudged and typed; full tiles, centred ones and joints are snapped to."""

from __future__ import annotations

from dataclasses import replace

import pytest
from msgspec.structs import replace as changed

from tests.drawing.play import L_ROOM, PX_PER_MM, Play, room
from tilelayout.drawing.context import Context, PlacedPattern
from tilelayout.drawing.events import Entered, Escaped, Field, Nudged, PointerReleased, Typed
from tilelayout.drawing.tools.drag_start import drag_start
from tilelayout.job.values import Edge, EdgeRole, HexagonTile, Job, Layout, Point
from tilelayout.layout.laying import Laid, lay


def laid(job: Job) -> Laid:
    return lay(job.surfaces[0], job.tiles[0], job.layouts[0])


def dragging(job: Job) -> Play:
    """A play whose context gives the pattern as a window would: from the layout as it is laid."""

    def with_pattern(context: Context) -> Context:
        def pattern() -> PlacedPattern:
            now = laid(context.read_job())
            return PlacedPattern(now.placed_faces, now.placed_vectors)

        return replace(context, pattern=pattern)

    return Play(drag_start, job, with_pattern)


def start(play: Play) -> Point:
    return play.session.job.layouts[0].start


def layout(job: Job, **changes: object) -> Job:
    return changed(job, layouts=(changed(job.layouts[0], **changes),))


def test_a_full_tile_at_a_wall_leaves_the_gap_and_is_named() -> None:
    play = dragging(room())
    play.press(1000, 1000)
    play.move(900, 1130)
    play.move(1000 - 90, 1130)
    assert "full tile at wall 4" in play.marked
    assert start(play)[0] == pytest.approx(6.0)


def test_the_start_snapped_to_makes_full_tiles_along_that_wall() -> None:
    play = dragging(room())
    play.drag((1000.0, 1000.0), (950.0, 1100.0), (910.0, 911.0))
    assert "full tile at wall 1 and full tile at wall 4" in _words(play)
    assert start(play) == pytest.approx((6.0, 6.0))
    pieces = [piece for piece in laid(play.session.job).pieces() if piece.whole]
    assert min(float(piece.outline[:, 0].min()) for piece in pieces) == pytest.approx(6.0)
    assert min(float(piece.outline[:, 1].min()) for piece in pieces) == pytest.approx(6.0)


def _words(play: Play) -> str:
    """The words that the last move of the same drag showed."""
    again = dragging(room())
    again.press(1000, 1000)
    again.move(950, 1100)
    again.move(910, 911)
    return " and ".join(sorted(again.marked.split(" and ")))


def test_a_centred_tile_leaves_equal_borders_on_both_sides() -> None:
    play = dragging(room())
    play.press(1000, 1000)
    play.move(1000 + 1800 - 597 / 2 - 100 - 15, 1000)
    assert "tile centred between wall 2 and wall 4" in play.marked
    faces = [piece.outline for piece in laid(play.session.job).pieces() if piece.whole]
    left = min(float(face[:, 0].min()) for face in faces)
    right = max(float(face[:, 0].max()) for face in faces)
    assert left == pytest.approx(3600 - right)


def test_a_centred_joint_leaves_equal_borders_too() -> None:
    play = dragging(room(((0.0, 0.0), (3800.0, 0.0), (3800.0, 2400.0), (0.0, 2400.0))))
    play.press(1000, 1000)
    play.move(1200, 1000)
    play.move(1010, 1000)
    assert "joint centred between wall 2 and wall 4" in play.marked
    assert start(play)[0] == pytest.approx(3800 / 2 - 3 * 600 + 1.5)


def test_a_doorway_has_no_gap_so_the_full_tile_starts_on_its_line() -> None:
    play = dragging(room(edges=(Edge(at=3, role=EdgeRole.DOORWAY),)))
    play.press(1000, 1000)
    play.move(905, 1130)
    assert "full tile at doorway 4" in play.marked
    assert start(play)[0] == pytest.approx(0.0)


def test_a_joint_is_laid_on_the_line_of_a_wall_that_runs_on_inside() -> None:
    play = dragging(layout(room(L_ROOM), joint=10.0))
    play.press(1000, 1000)
    wanted = 1500 + 5 - 100
    play.move(1000 + wanted % 607 + 3, 1000)
    assert "joint on the line of wall 4" in play.marked


def test_half_bond_repeats_square_to_its_rows_by_half_a_tile() -> None:
    play = dragging(layout(room(), settings={"row_offsets": [0, 0.5]}))
    play.press(1000, 1000)
    play.move(1000 + 206 + 3, 1130)
    assert "full tile at wall 4" in play.marked
    assert start(play)[0] == pytest.approx(306.0)


def test_hexagons_are_centred_but_never_promise_a_full_tile_at_their_points() -> None:
    job = changed(
        room(),
        tiles=(HexagonTile(id="slab", across_flats=200.0),),
        layouts=(Layout(id="A", surface="floor", tile="slab", pattern="hexagon", start=(100.0, 100.0)),),
    )
    play = dragging(job)
    play.press(1000, 1000)
    seen = set()
    for step in range(0, 240, 4):
        play.move(1000 + step, 1000 + step * 0.77)
        seen |= set(play.marked.split(" and "))
    assert any(words.startswith("tile centred") for words in seen)
    flats = {words for words in seen if words.startswith("full tile")}
    assert flats
    assert flats <= {"full tile at wall 2", "full tile at wall 4"}


def test_a_pattern_at_an_odd_angle_has_nothing_to_snap_to_but_moves_freely() -> None:
    play = dragging(layout(room(), angle=17.3))
    play.drag((1000.0, 1000.0), (1100.0, 1000.0), (1211.0, 1090.0))
    assert start(play) == (311.0, 190.0)


def test_a_drag_moves_live_and_undoes_as_one() -> None:
    play = dragging(room())
    play.press(1000, 1000)
    play.move(1150, 1220)
    live = start(play)
    play.move(1380, 1400)
    assert live not in ((100.0, 100.0), start(play))
    play.send(PointerReleased((1380.0, 1400.0), PX_PER_MM))
    assert play.session.undo_label == "Move start"
    play.session.undo()
    assert start(play) == (100.0, 100.0)
    assert not play.session.can_undo


def test_a_suspended_drag_follows_the_pointer_to_the_last_digit() -> None:
    play = dragging(room())
    play.drag((1000.0, 1000.0), (1100.0, 1100.0), (910.25, 1130.125), snaps_suspended=True)
    assert start(play) == (10.25, 230.125)


def test_esc_in_a_drag_gives_the_start_back_and_leaves_no_step() -> None:
    play = dragging(room())
    play.press(1000, 1000)
    play.move(1400, 1100)
    play.send(Escaped())
    assert start(play) == (100.0, 100.0)
    assert not play.session.can_undo
    assert not play.run.is_over
    play.send(Escaped())
    assert play.run.is_over


def test_arrow_keys_nudge_the_start_as_one_step() -> None:
    play = dragging(room())
    play.send(Nudged(1, 0), Nudged(0, -1, big=True))
    assert start(play) == (101.0, 90.0)
    play.session.undo()
    assert not play.session.can_undo


def test_the_start_is_typed_from_left_and_bottom() -> None:
    outline = ((-500.0, 200.0), (3500.0, 200.0), (3500.0, 2500.0), (-500.0, 2500.0))
    play = dragging(room(outline))
    play.send(Typed(Field.X, "12.5"), Entered())
    assert start(play) == (-487.5, 100.0)


def test_there_is_no_start_to_move_without_a_layout() -> None:
    play = Play(drag_start, changed(room(), layouts=()))
    play.drag((0.0, 0.0), (500.0, 0.0), (900.0, 0.0))
    play.send(Nudged(1, 0), Entered())
    assert not play.session.can_undo
