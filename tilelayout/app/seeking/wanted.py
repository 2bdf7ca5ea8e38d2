"""What a person wants sought: the aim, and what may vary besides the start. In words, and as a wish."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations

from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Layout, Tile
from tilelayout.layout.patterns import usual_settings
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.seek_ways import Wish

AIM_WORDS = {
    Aim.BALANCED: "Equal borders",
    Aim.WIDEST_CUT: "Widest cuts",
    Aim.FEWEST_TILES: "Fewest tiles",
    Aim.FEWEST_CUTS: "Fewest cut pieces",
}
_QUARTER, _HALF_OF_IT = 90.0, 45.0
_OFFSETS = "row_offsets"


class Varied(StrEnum):
    """What may vary besides the start."""

    ANGLE = "angle"
    ROWS = "rows"
    JOINT = "joint"


@dataclass(frozen=True)
class Wanted:
    """The aim, and whether the angle, the row offsets and the joint (least and greatest, mm) may vary."""

    aim: Aim = Aim.BALANCED
    may_turn: bool = False
    may_shift: bool = False
    joints: tuple[float, float] | None = None

    @property
    def varied(self) -> frozenset[Varied]:
        """What may vary besides the start."""
        allowed = {
            Varied.ANGLE: self.may_turn,
            Varied.ROWS: self.may_shift,
            Varied.JOINT: self.joints is not None,
        }
        return frozenset(thing for thing, may in allowed.items() if may)

    def wish(self, layout: Layout) -> Wish:
        """Return what to seek for a layout: its own way of laying first, then the others that are allowed."""
        return Wish(
            aim=self.aim,
            angles=_angles(layout) if self.may_turn else (),
            row_offsets=_offsets(layout) if self.may_shift and can_shift(layout) else (),
            joints=self.joints,
        )


def ways_to_vary(layout: Layout | None) -> list[frozenset[Varied]]:
    """Return what a person may let vary of a layout, the fewest things first."""
    things = [thing for thing in Varied if thing is not Varied.ROWS or (layout and can_shift(layout))]
    return [frozenset(some) for count in range(len(things) + 1) for some in combinations(things, count)]


def vary_words(some: frozenset[Varied]) -> str:
    """Return what may vary in words.

    >>> vary_words(frozenset()), vary_words(frozenset(Varied))
    ('Only the start', 'Start, angle, rows and joint')
    """
    *first, last = ("Start", *(thing for thing in Varied if thing in some))
    return f"{', '.join(first)} and {last}" if first else "Only the start"


def can_shift(layout: Layout) -> bool:
    """Tell whether a layout is laid in rows that can be shifted."""
    return any(_OFFSETS in settings for settings in usual_settings(layout.pattern).values())


def is_alike(one: Layout, other: Layout) -> bool:
    """Tell whether two layouts are laid alike, whatever they are called."""
    return _bare(one) == _bare(other)


def way_of_laying(layout: Layout, tile: Tile, surface: object, style: LengthStyle) -> tuple[object, ...]:
    """Return all that an answer depends on: everything but where the layout starts and what it is called."""
    return surface, tile, style, _bare(layout)[1:]


def _bare(layout: Layout) -> tuple[object, ...]:
    start = tuple(round(length, 6) for length in layout.start)
    keys = (key for key in layout.__struct_fields__ if key not in ("id", "name", "start"))
    return start, *(getattr(layout, key) for key in keys)


def _angles(layout: Layout) -> tuple[float, ...]:
    own = layout.angle
    return own, (own + _HALF_OF_IT) % 360.0, (own + _QUARTER) % 360.0


def _offsets(layout: Layout) -> tuple[tuple[float, ...], ...]:
    own = tuple(layout.settings.get(_OFFSETS, (0.0,)))
    usual = (settings.get(_OFFSETS, (0.0,)) for settings in usual_settings(layout.pattern).values())
    return tuple(dict.fromkeys((own, *map(tuple, usual))))
