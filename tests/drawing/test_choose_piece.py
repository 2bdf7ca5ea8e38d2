"""Choosing laid pieces without changing anything."""

from __future__ import annotations

from collections.abc import Callable

from tilelayout.drawing.context import Context
from tilelayout.drawing.events import (
    Chosen,
    Escaped,
    Event,
    FieldStepped,
    Nudged,
    PointerLeft,
    PointerMoved,
    PointerPressed,
)
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.running import ToolRun
from tilelayout.drawing.tools.choose_piece import choose_piece
from tilelayout.job.values import Job, Point


class NoBench:
    """A bench on which nothing may be done."""

    def apply(self, label: str, edit: Callable[[Job], Job], gesture: object | None = None) -> None:
        raise AssertionError(f"{label} was applied")


def at(point: Point) -> str | None:
    return f"A{int(point[0] // 300) + 1}" if point[1] >= 0 else None


def run() -> ToolRun:
    return ToolRun(choose_piece, Context(read_job=Job, surface_id="floor", piece_at=at), NoBench())


def ids(tool: ToolRun) -> list[str]:
    return [pick.id for pick in tool.preview.chosen]


def test_a_press_chooses_the_piece_under_the_pointer_alone() -> None:
    tool = run()
    tool.send(PointerPressed((10, 10), 1.0))
    tool.send(PointerPressed((310, 10), 1.0))
    assert ids(tool) == ["A2"]
    tool.send(PointerPressed((310, -10), 1.0))
    assert ids(tool) == []


def test_the_key_that_adds_adds_and_takes_out() -> None:
    tool = run()
    for x in (10, 310, 610, 310):
        tool.send(PointerPressed((x, 10), 1.0, adds=True))
    assert ids(tool) == ["A1", "A3"]


def test_what_a_press_would_choose_is_shown_while_the_pointer_is_there() -> None:
    tool = run()
    tool.send(PointerMoved((310, 10), 1.0))
    assert tool.preview.under == Pick(PickKind.PIECE, "floor", id="A2")
    tool.send(PointerLeft())
    assert tool.preview.under is None


def test_escape_lets_go_first_and_then_ends() -> None:
    tool = run()
    tool.send(Chosen(Pick(PickKind.PIECE, "floor", id="B3")))
    assert "B3" in tool.preview.hint
    tool.send(Escaped())
    assert (ids(tool), tool.is_over) == ([], False)
    tool.send(Escaped())
    assert tool.is_over


def walked(*sent: Event) -> list[str]:
    """The pieces that are chosen one after the other among five cut pieces round a whole tile."""
    middles = [
        ("A1", (0.0, 0.0)),
        ("A2", (300.0, 0.0)),
        ("A3", (600.0, 0.0)),
        ("B1", (0.0, 300.0)),
        ("B3", (600.0, 300.0)),
    ]
    context = Context(read_job=Job, surface_id="floor", piece_at=at, cut_pieces=lambda: middles)
    tool = ToolRun(choose_piece, context, NoBench())
    found = []
    for event in sent:
        tool.send(event)
        found += ids(tool)
    return found


def test_keys_go_from_cut_to_cut_in_order_and_round() -> None:
    assert walked(FieldStepped(), FieldStepped(), FieldStepped(back=True)) == ["A1", "A2", "A1"]
    assert walked(FieldStepped(back=True), FieldStepped()) == ["B3", "A1"]


def test_an_arrow_goes_to_the_nearest_cut_that_way_and_stays_where_there_is_none() -> None:
    first = FieldStepped()
    assert walked(first, Nudged(1, 0), Nudged(1, 0), Nudged(0, 1)) == ["A1", "A2", "A3", "B3"]
    assert walked(first, Nudged(-1, 0), Nudged(0, -1)) == ["A1", "A1", "A1"]
    assert walked(first, Nudged(0, 1), Nudged(1, 0)) == ["A1", "B1", "B3"], "past the whole tile between"


def test_from_a_whole_tile_an_arrow_goes_to_the_first_cut() -> None:
    whole = Chosen(Pick(PickKind.PIECE, "floor", id="B2"))
    assert walked(whole, Nudged(1, 0)) == ["B2", "A1"]


def test_keys_choose_nothing_where_nothing_is_cut() -> None:
    tool = run()
    tool.send(FieldStepped())
    tool.send(Nudged(1, 0))
    assert ids(tool) == []
