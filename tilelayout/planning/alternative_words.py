"""Says in one sentence why a layout is worth keeping, and what no start was found to give."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.layout.faces import tile_width
from tilelayout.planning.alternative_figures import Figures, seen
from tilelayout.planning.plan import Plan
from tilelayout.planning.seek_words import laid_as, place_of_narrowest

_HALF_SURELY = 0.5
"""How much less than half a tile, in mm, is still half a tile."""


def reason_kept(figures: Figures, everything: list[Figures], style: LengthStyle) -> str:
    """Return why a layout is kept: what no other is as good at, or none as clean, or than the first.

    Without a full stop.
    """
    as_clean = [other for other in everything if other.slivers <= figures.slivers]
    best = list(_best_at(figures, everything, style, "of all"))
    best = best or list(_best_at(figures, as_clean, style, f"of those with {_at_most(figures.slivers)}"))
    return ", ".join(best or _over_the_first(figures, everything[0], style)) or "a middle way"


def _best_at(figures: Figures, everything: list[Figures], style: LengthStyle, of_which: str) -> Iterator[str]:
    """Yield what no other is as good at; of what several are best at nothing is said."""
    others = [other for other in everything if other is not figures]
    for one in _FIGURES:
        if others and one.weight(figures) < min(map(one.weight, others)):
            yield f"{one.best} {of_which}: {one.words(figures, style)}"


def _over_the_first(figures: Figures, first: Figures, style: LengthStyle) -> Iterator[str]:
    """Yield what is better than in the layout that is listed first."""
    for one in _FIGURES:
        if one.weight(figures) < one.weight(first):
            yield f"{one.better} than the first: {one.words(figures, style)}"


def _at_most(slivers: int) -> str:
    return "no slivers" if slivers == 0 else f"no more than {slivers} sliver{'s'[: slivers != 1]}"


def _off(unequal: float, style: LengthStyle) -> str:
    return "no difference" if seen(unequal) == 0.0 else f"{_length(unequal, style)} apart"


def figures_told(figures: Figures, style: LengthStyle) -> str:
    """Return the figures that every layout is told with, without a full stop."""
    count = figures.slivers
    slivers = f"{count or 'no'} sliver{'s'[: count != 1]}"
    narrowest = f"narrowest cut {_length(figures.narrowest_of_all, style)}"
    return f"{narrowest}, {slivers}, {figures.cuts} pieces to cut, {figures.tiles_needed} tiles to open"


def _width(figures: Figures, style: LengthStyle) -> str:
    """Return the narrowest cut that the start decides on; where the border has a narrower one, it says so."""
    is_in_border = figures.narrowest_of_all < figures.narrowest
    return f"{_length(figures.narrowest, style)}{' inside the border' if is_in_border else ''}"


def _length(length: float, style: LengthStyle) -> str:
    return format_length(length, style)


@dataclass(frozen=True)
class _Figure:
    """A figure that a layout may be best at: its words, its weight (the less the better), its value."""

    best: str
    better: str
    weight: Callable[[Figures], float]
    words: Callable[[Figures, LengthStyle], str]


_FIGURES = (
    _Figure("fewest slivers", "fewer slivers", lambda of: float(of.slivers), lambda of, _: str(of.slivers)),
    _Figure(
        "widest cuts",
        "wider cuts",
        lambda of: -seen(of.narrowest),
        _width,
    ),
    _Figure(
        "opposite borders nearest to equal",
        "opposite borders nearer to equal",
        lambda of: seen(of.unequal),
        lambda of, style: _off(of.unequal, style),
    ),
    _Figure("fewest cuts", "fewer cuts", lambda of: float(of.cuts), lambda of, _: str(of.cuts)),
    _Figure(
        "fewest tiles",
        "fewer tiles",
        lambda of: float(of.tiles_needed),
        lambda of, _: str(of.tiles_needed),
    ),
    _Figure(
        "fewest settings of the saw",
        "fewer settings of the saw",
        lambda of: float(of.saw_settings),
        lambda of, _: str(of.saw_settings),
    ),
    _Figure(
        "widest pieces at the door",
        "wider pieces at the door",
        lambda of: -seen(of.from_the_door or 0.0),
        lambda of, style: _length(of.from_the_door or 0.0, style),
    ),
)


def what_cannot_be_had(plan: Plan, widest: float, at_most: float | None) -> tuple[str, ...]:
    """Return sentences about what no start of a way of laying gives.

    `plan` is one laid that way, `widest` the widest narrowest cut found, `at_most` a proved bound, None if
    none was proved.
    """
    half = tile_width(plan.tile) / 2.0
    if widest >= half - _HALF_SURELY:
        return ()
    where, best = laid_as(plan.layout), _length(widest, plan.style) + _place_of(widest, plan)
    if at_most is not None and at_most < half - _HALF_SURELY:
        most = "" if at_most - widest < _HALF_SURELY else f", and none over {_length(at_most, plan.style)}"
        return (f"No start leaves half a tile in {where} here; the best is {best}{most}.",)
    return (f"No start that leaves half a tile in {where} was found; the best found is {best}.",)


def _place_of(widest: float, plan: Plan) -> str:
    """Return at which wall the narrowest cut stands, if it is one that the start decides on."""
    is_in_border = (plan.narrowest or 0.0) < widest - _HALF_SURELY
    return "" if is_in_border else place_of_narrowest(plan)
