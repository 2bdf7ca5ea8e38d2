"""Layouts of one surface side by side: every figure of each, which is better, and by how much.

A figure is compared as a person reads it: what the job's lengths show as no difference is none. Each row
knows whether more or less of it is better; what cannot be compared (a count of other tiles) is shown and not
judged.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from tilelayout.base.units import LengthStyle, format_area, format_length
from tilelayout.layout.borders import BorderCut
from tilelayout.layout.chips import face_area
from tilelayout.layout.values import CutKind
from tilelayout.planning.from_the_door import is_anything_looked_at, narrowest_from_the_door
from tilelayout.planning.plan import Plan
from tilelayout.planning.saw_sizes import saw_sizes, saw_style
from tilelayout.planning.wall_names import edge_name

FEWEST, MOST = 2, 4
"""How many layouts stand side by side."""

_SET_ONCE = (CutKind.RIP, CutKind.CROSS, CutKind.CORNER, CutKind.OBLIQUE)
"""The cuts that one setting of fence and angle makes."""

_SAME_DEPTH = 0.05
"""Border cuts that differ by less, in mm, are one size (as along one wall of a layout)."""


class Part(StrEnum):
    """What a row is about; rows of one part stand together."""

    LOOKS = "How it looks"
    BORDERS = "Border cut at each wall"
    WORK = "Work and tiles"


@dataclass(frozen=True)
class Cell:
    """One figure of one layout.

    `value` is a count, mm or mm2, None where there is nothing to measure. `is_better` claims that no other
    layout of the row beats it and one is worse; `difference` says in words what parts it from the best.
    """

    value: float | None
    words: str
    is_better: bool = False
    difference: str = ""


@dataclass(frozen=True)
class Row:
    """One figure of all layouts, in their order. `is_judged` claims that the figures can be compared."""

    part: Part
    figure: str
    cells: tuple[Cell, ...]
    is_judged: bool = True

    @property
    def is_equal(self) -> bool:
        """Whether no layout is better than another in this."""
        return self.is_judged and not any(cell.is_better for cell in self.cells)


@dataclass(frozen=True, eq=False)
class Comparison:
    """The layouts in their order, the rows, and in `remarks` what could not be compared and why."""

    plans: tuple[Plan, ...]
    rows: tuple[Row, ...]
    remarks: tuple[str, ...]


@dataclass(frozen=True)
class _Kind:
    """How a figure is written, and which of two is better."""

    shown: Callable[[float], str]
    more_is_better: bool
    words: tuple[str, str]
    """For more and for less of it."""

    def difference(self, value: float, best: float) -> str:
        """Return what parts a value from the best in words, "" if a person sees none."""
        apart = self.shown(abs(value - best))
        return "" if apart == self.shown(0.0) else f"{apart} {self.words[value < best]}"


@dataclass(frozen=True)
class _Figure:
    """A figure to measure: `values` are of the layouts in order, `words` stand in place of a shown value."""

    part: Part
    name: str
    kind: _Kind
    values: tuple[float | None, ...]
    words: tuple[str, ...] = ()
    is_judged: bool = True


def compare(plans: tuple[Plan, ...]) -> Comparison:
    """Return two to four layouts of one surface side by side. LayoutError if one of them cannot be laid."""
    if not FEWEST <= len(plans) <= MOST:
        raise ValueError(f"{FEWEST} to {MOST} layouts can stand side by side, not {len(plans)}")
    rows = tuple(_row(figure) for figure in _figures(plans))
    return Comparison(plans, rows, tuple(_remarks(plans)))


def saw_settings(plan: Plan) -> tuple[tuple[float, ...], ...]:
    """Return how the saw is set for the straight cuts of the cut list, each setting once, largest first.

    A rip and a cross cut of one size (mm) are one setting of the fence; a slanted cut is set by its two.
    """
    found = {
        tuple(sorted(saw_sizes(cut, row.pieces[0], plan.style)))
        for row in plan.cut_rows
        for cut in row.cuts
        if cut.kind in _SET_ONCE
    }
    return tuple(sorted(found, reverse=True))


def area_lost(plan: Plan) -> float:
    """Return the area in mm2 of the tiles that are opened and not laid."""
    opened = sum(count.needed * face_area(count.tile) for count in plan.by_tile)
    return opened - plan.covered_area


def _figures(plans: tuple[Plan, ...]) -> Iterator[_Figure]:
    style = plans[0].style
    fewer, wider = _count(more_is_better=False), _length(style)
    yield _Figure(Part.LOOKS, "Slivers", fewer, tuple(len(plan.slivers) for plan in plans))
    yield _Figure(Part.LOOKS, "Narrowest piece", wider, tuple(plan.narrowest for plan in plans))
    if is_anything_looked_at(plans[0].surface):
        seen = tuple(narrowest_from_the_door(plan) for plan in plans)
        yield _Figure(Part.LOOKS, "Seen from the door", wider, seen)
    if any(plan.bare_patches for plan in plans):
        yield _Figure(Part.LOOKS, "Places left bare", fewer, tuple(len(plan.bare_patches) for plan in plans))
    yield from _border_figures(plans)
    yield from _work_figures(plans)


def _border_figures(plans: tuple[Plan, ...]) -> Iterator[_Figure]:
    """Yield the narrowest border cut at each wall; a wall broken by a doorway is one wall."""
    surface, kind = plans[0].surface, _length(plans[0].style)
    edges = sorted({border.edge for plan in plans for border in plan.borders})
    for name in dict.fromkeys(edge_name(surface, edge) for edge in edges):
        walls = [
            [border for border in plan.borders if edge_name(surface, border.edge) == name] for plan in plans
        ]
        values = tuple(min((border.least for border in wall), default=None) for wall in walls)
        words = tuple("whole" if wall and all(map(_is_whole, wall)) else "" for wall in walls)
        yield _Figure(Part.BORDERS, name[:1].upper() + name[1:], kind, values, words)


def _is_whole(border: BorderCut) -> bool:
    return border.is_whole and border.usual - border.least < _SAME_DEPTH


def _work_figures(plans: tuple[Plan, ...]) -> Iterator[_Figure]:
    more, fewer = _count(more_is_better=True), _count(more_is_better=False)
    is_one_tile = _is_one_tile(plans)
    for name, kind, values, is_judged in (
        ("Whole tiles", more, [plan.whole for plan in plans], is_one_tile),
        ("Cut pieces", fewer, [plan.cut for plan in plans], True),
        ("Different cut pieces", fewer, [len(plan.cut_rows) for plan in plans], True),
        ("Settings of the saw", fewer, [len(saw_settings(plan)) for plan in plans], True),
        ("Tiles needed", fewer, [plan.tiles_needed for plan in plans], is_one_tile),
        ("Least tiles possible", fewer, [plan.tiles_needed_at_least for plan in plans], is_one_tile),
        ("Area lost", _area(plans[0].style), [area_lost(plan) for plan in plans], True),
    ):
        yield _Figure(Part.WORK, name, kind, tuple(values), is_judged=is_judged)


def _remarks(plans: tuple[Plan, ...]) -> Iterator[str]:
    if not is_anything_looked_at(plans[0].surface):
        yield "No doorway is marked, so what is seen from the door is not compared."
    if not _is_one_tile(plans):
        yield "The tiles differ, so how many there are is shown and not judged."


def _is_one_tile(plans: tuple[Plan, ...]) -> bool:
    return all(_tile_ids(plan) == _tile_ids(plans[0]) for plan in plans)


def _tile_ids(plan: Plan) -> set[str]:
    return {tile.id for tile in plan.tiles}


def _count(*, more_is_better: bool) -> _Kind:
    return _Kind(lambda count: f"{count:.0f}", more_is_better, ("more", "fewer"))


def _length(style: LengthStyle) -> _Kind:
    """Sizes of pieces, told as they are set on the saw: in mm where rooms are told in metres."""
    told = saw_style(style)
    return _Kind(lambda length: format_length(length, told), True, ("more", "less"))


def _area(style: LengthStyle) -> _Kind:
    return _Kind(lambda size: format_area(size, style), False, ("more", "less"))


def _row(figure: _Figure) -> Row:
    kind, words = figure.kind, figure.words or ("",) * len(figure.values)
    shown = [
        said or ("none" if value is None else kind.shown(value))
        for value, said in zip(figure.values, words, strict=True)
    ]
    apart = _apart(figure, words) if figure.is_judged else [""] * len(shown)
    is_any_worse = any(apart)
    cells = (
        Cell(value, said, is_any_worse and value is not None and not difference, difference)
        for value, said, difference in zip(figure.values, shown, apart, strict=True)
    )
    return Row(figure.part, figure.name, tuple(cells), figure.is_judged)


def _apart(figure: _Figure, words: tuple[str, ...]) -> list[str]:
    """Return for each layout what parts it from the best; a whole tile is better than any cut."""
    if any(words) and not all(words):
        return [
            "" if said or value is None else "cut" for value, said in zip(figure.values, words, strict=True)
        ]
    known = [value for value in figure.values if value is not None]
    if not known or all(words):
        return ["" for _ in figure.values]
    best = max(known) if figure.kind.more_is_better else min(known)
    return ["" if value is None else figure.kind.difference(value, best) for value in figure.values]
