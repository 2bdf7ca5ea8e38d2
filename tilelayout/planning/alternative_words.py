"""Says in one sentence why a layout is worth keeping, and what no start was found to give."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.layout.faces import tile_width
from tilelayout.planning.alternative_figures import Figures, seen
from tilelayout.planning.plan import Plan
from tilelayout.planning.seek_words import laid_as

_HALF_SURELY = 0.5
"""How much less than half a tile, in mm, is still half a tile."""


def why_kept(figures: Figures, everything: list[Figures], style: LengthStyle) -> str:
    """Return what a layout is best at of all that are kept, then its other figures; without a full stop."""
    best = list(_best_at(figures, everything, style))
    return f"{', '.join(best) if best else 'a middle way'}; {_plainly(figures, style)}"


def _best_at(figures: Figures, everything: list[Figures], style: LengthStyle) -> Iterator[str]:
    """Yield what no other is as good at; of what several are best at nothing is said."""
    names: tuple[tuple[str, Callable[[Figures], float], str], ...] = (
        ("fewest slivers of all", lambda one: float(one.slivers), str(figures.slivers)),
        ("widest cuts of all", lambda one: -seen(one.narrowest), _length(figures.narrowest, style)),
        ("opposite borders nearest to equal", lambda one: seen(one.unequal), _off(figures.unequal, style)),
        ("fewest cuts of all", lambda one: float(one.cuts), str(figures.cuts)),
        ("fewest tiles of all", lambda one: float(one.tiles_needed), str(figures.tiles_needed)),
        ("fewest settings of the saw", lambda one: float(one.saw_settings), str(figures.saw_settings)),
        (
            "widest pieces at the door",
            lambda one: -seen(one.from_the_door or 0.0),
            _length(figures.from_the_door or 0.0, style),
        ),
    )
    others = [other for other in everything if other is not figures]
    for name, figure, words in names:
        if others and figure(figures) < min(map(figure, others)):
            yield f"{name}: {words}"


def _off(unequal: float, style: LengthStyle) -> str:
    return "no difference" if seen(unequal) == 0.0 else f"{_length(unequal, style)} apart"


def _plainly(figures: Figures, style: LengthStyle) -> str:
    count = figures.slivers
    slivers = f"{count or 'no'} sliver{'s'[: count != 1]}"
    narrowest = f"narrowest cut {_length(figures.narrowest, style)}"
    return f"{narrowest}, {slivers}, {figures.cuts} pieces to cut, {figures.tiles_needed} tiles to open"


def _length(length: float, style: LengthStyle) -> str:
    return format_length(length, style)


def what_cannot_be_had(plan: Plan, widest: float, at_most: float | None) -> tuple[str, ...]:
    """Return sentences about what no start of a way of laying gives.

    `plan` is one laid that way, `widest` the widest narrowest cut found, `at_most` a proved bound, None if
    none was proved.
    """
    half = tile_width(plan.tile) / 2.0
    if widest >= half - _HALF_SURELY:
        return ()
    where, best = laid_as(plan.layout), format_length(widest, plan.style)
    if at_most is not None and at_most < half - _HALF_SURELY:
        most = "" if at_most - widest < _HALF_SURELY else f", and none over {_length(at_most, plan.style)}"
        return (f"No start leaves half a tile in {where} here; the best is {best}{most}.",)
    return (f"No start that leaves half a tile in {where} was found; the best found is {best}.",)
