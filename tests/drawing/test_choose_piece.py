"""Choosing laid pieces without changing anything."""

from __future__ import annotations

from collections.abc import Callable

from tilelayout.drawing.context import Context
from tilelayout.drawing.events import Chosen, Escaped, PointerLeft, PointerMoved, PointerPressed
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
