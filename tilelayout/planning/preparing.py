"""What to do about a surface that is not flat: how much filler, how many bags, how deep, what to dam.

The figures of a product stand on its bag. Where nobody gave them, a usual yield is taken and said so: a 50 lb
bag that covers 25 sq ft a quarter of an inch deep (a maker's data sheet for a self-levelling underlayment),
which is 14.75 litres. Yields of such bags differ by a fifth, so the bag's own figure comes first.
"""

from __future__ import annotations

import math
from collections.abc import Generator, Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from msgspec.structs import replace

from tilelayout.base.heights import format_height
from tilelayout.base.stepping import last_of
from tilelayout.base.units import FOOT, INCH, LengthStyle
from tilelayout.flatness.fill import Fill, Prices, level_fill
from tilelayout.flatness.given_plane import Grinding
from tilelayout.flatness.mesh import Numbers
from tilelayout.flatness.verdicts import Verdict
from tilelayout.job.preparation import Preparation, PreparationWay
from tilelayout.job.values import EdgeRole, Surface, SurfaceKind
from tilelayout.planning.given_heights import Missed, filled_to_meet
from tilelayout.planning.surface import Flatness
from tilelayout.planning.wall_names import edge_name

USUAL_BAG_LITRES = 25 * 144 * 0.25 * float(INCH) ** 3 / 1e6
"""25 sq ft at 1/4 in from a bag, in litres."""

USUAL_MOST_GROUND = 3.0
"""How much is ground off at most if nobody said, mm: our own choice, as little as shows."""

_LITRE = 1e6
_AS_DEEP_AS_PAYS = 50.0
"""Grinding so deep (mm) is allowed where only its price is to decide."""

_MARGIN = 1.1
"""A tenth more than the volume: filler stays in the bucket and runs into cracks (common practice)."""

_OPEN = {EdgeRole.DOORWAY, EdgeRole.OPEN}
_NOTHING = 1.0

_THIN = 0.5
"""A fill thinner than this (mm) runs out to nothing."""

_LEVEL = 1.0
"""A floor that falls by less than this (mm) over all its length is level for whoever pours it."""

WAY_WORDS = {
    PreparationWay.LEAST_FILL: "Fill the least",
    PreparationWay.LEVEL: "Level with the highest point",
    PreparationWay.PLANE: "Fill to one plane or fall",
    PreparationWay.GRIND_AND_FILL: "Grind high spots, fill the rest",
}
UPRIGHT_WAY_WORDS = WAY_WORDS | {
    PreparationWay.LEVEL: "Plumb with the furthest point",
    PreparationWay.PLANE: "One plane, leaning as it may",
}


@dataclass(frozen=True, eq=False)
class Prepared:
    """A surface's preparation: its fill, and what follows for the bags. Volumes in litres.

    `missed` are the given heights that it does not meet. The verdicts on the filled surface are worked out
    when they are first asked for.
    """

    asked: Preparation
    fill: Fill
    one: Flatness
    missed: tuple[Missed, ...] = ()

    @property
    def surface(self) -> Surface:
        """The surface that is made flat."""
        return self.one.surface

    @property
    def verdicts(self) -> tuple[Verdict, ...]:
        """The filled surface judged again for the tile to be laid."""
        return last_of(self.checking())

    def checking(self) -> Generator[float, None, tuple[Verdict, ...]]:
        """Yield which share of the straightedges is laid on the filled surface; return its verdicts."""
        if not self._checked:
            self._checked.append((yield from self.one.judging_after(self.heights_after)))
        return self._checked[0]

    @cached_property
    def _checked(self) -> list[tuple[Verdict, ...]]:
        """The verdicts, once they are known."""
        return []

    @cached_property
    def with_grinding(self) -> Prepared | None:
        """The plane if as much is ground off as pays, where that takes less than half as much filler.

        None where it does not, or where it was allowed or ruled out already.
        """
        if self.asked.way is not PreparationWay.PLANE or self.has_falls or self.asked.most_ground is not None:
            return None
        other = prepared(self.one, replace(self.asked, most_ground=_AS_DEEP_AS_PAYS))
        is_less = other is not None and other.fill.volume < self.fill.volume / 2.0
        return other if is_less and self.fill.volume > _NOTHING else None

    @property
    def heights_after(self) -> Numbers:
        """The heights (v,) of the corners of the survey's mesh once all is done."""
        return self.one.surveyed.heights + self.fill.change[: len(self.one.surveyed.heights)]

    @property
    def is_upright(self) -> bool:
        """Whether it is a wall, which takes coats and no pours."""
        return self.surface.kind is SurfaceKind.WALL

    @property
    def slopes(self) -> bool:
        """Whether it is filled to a floor that does not lie level."""
        is_to_plane = self.asked.way is PreparationWay.PLANE and not self.is_upright
        return is_to_plane and self.is_needed and float(np.ptp(self.heights_after)) > _LEVEL

    @property
    def has_falls(self) -> bool:
        """Whether it falls to drains, and so is no plane."""
        return self.asked.way is PreparationWay.PLANE and any(
            each.fall_percent is not None for each in self.asked.meets
        )

    @property
    def litres_removed(self) -> float:
        """How much is ground off."""
        return self.fill.volume_removed / _LITRE

    @property
    def cost(self) -> float | None:
        """What filling and grinding costs together; None if nobody gave what a litre of it costs."""
        parts = ((self.litres, self.asked.fill_cost), (self.litres_removed, self.asked.grind_cost))
        costs = [None if price is None else litres * price for litres, price in parts if litres > 1e-6]
        return None if None in costs or not costs else sum(each for each in costs if each is not None)

    @property
    def grinds_too_deep(self) -> bool:
        """Whether more would have to be ground off somewhere than was allowed."""
        most = self.asked.most_ground
        return most is not None and self.fill.most_removed > most + 1e-4

    @property
    def is_needed(self) -> bool:
        """Whether anything is to be added or taken off at all."""
        return self.fill.volume + self.fill.volume_removed > _NOTHING

    @property
    def litres(self) -> float:
        """How much filler."""
        return self.fill.volume / _LITRE

    @property
    def bag_litres(self) -> float:
        """What a bag makes: the product's figure, else the usual one."""
        return self.asked.bag_litres or USUAL_BAG_LITRES

    @property
    def bags(self) -> int:
        """Whole bags for the volume and a tenth more."""
        return math.ceil(self.litres * _MARGIN / self.bag_litres - 1e-9)

    @property
    def pours(self) -> int:
        """In how many pours the deepest place is filled."""
        if self.asked.deepest is None:
            return 1
        return max(1, math.ceil(self.fill.deepest / self.asked.deepest - 1e-9))

    @property
    def primed_area(self) -> float:
        """The area that gets primer, mm2: all that the readings reach, as a pour runs where it likes."""
        return self.fill.ground.area

    @property
    def dams(self) -> tuple[str, ...]:
        """Where a pour would run out: openings in the walls, and cutouts."""
        surface = self.surface
        edges = [at for at in range(len(surface.outline)) if surface.edge(at).role in _OPEN]
        cutouts = [each.name or f"cutout {at + 1}" for at, each in enumerate(surface.cutouts)]
        return (*(edge_name(surface, at) for at in edges), *cutouts)


def prepared_steps(one: Flatness, asked: Preparation) -> Iterator[Prepared]:
    """Yield the preparation as it gets better; the last is the answer. Nothing if only lines are known.

    SurveyError if the limits cannot be kept, as with too little to grind off.
    """
    for fill, missed in _fills(one, asked):
        yield Prepared(asked, fill, one, missed)


def prepared(one: Flatness, asked: Preparation) -> Prepared | None:
    """Return the preparation; None if only lines are known or no tile is planned."""
    last = None
    for last in prepared_steps(one, asked):  # noqa: B007  (the last is what counts)
        pass
    return last


_Found = Iterator[tuple[Fill, tuple[Missed, ...]]]


def _fills(one: Flatness, asked: Preparation) -> _Found:
    if one.ground is None:
        return
    match asked.way:
        case PreparationWay.LEVEL:
            yield level_fill(one.ground, one.surveyed.heights), ()
        case PreparationWay.PLANE:
            yield filled_to_meet(one, asked.meets, _grinding(asked))
        case PreparationWay.GRIND_AND_FILL:
            yield from ((mixed, ()) for mixed in one.ground_and_filled_steps(prices_of(asked)))
        case PreparationWay.LEAST_FILL:
            yield from ((fill, ()) for fill in one.least_fill_steps())


def prices_of(asked: Preparation) -> Prices:
    """Return what is paid and allowed; what nobody gave as usual: grinding at five times the filling."""
    usual = Prices()
    fill = asked.fill_cost or (asked.grind_cost or usual.grind) * usual.fill / usual.grind
    grind = asked.grind_cost or fill * usual.grind / usual.fill
    most = USUAL_MOST_GROUND if asked.most_ground is None else asked.most_ground
    return Prices(fill, grind, most)


def _grinding(asked: Preparation) -> Grinding:
    """What a plane may take off: nothing unless somebody said so."""
    prices = prices_of(asked)
    return Grinding(asked.most_ground or 0.0, prices.grind / prices.fill)


def volume_words(litres: float, style: LengthStyle) -> str:
    """Return a volume of filler, in inch and foot jobs in cubic feet as well, as US bags say it.

    >>> volume_words(14.75, LengthStyle.MM), volume_words(14.75, LengthStyle.FEET)
    ('14.8 litres', '14.8 litres (0.52 cu ft)')
    """
    words = f"{litres:.1f} litres"
    return words if style.is_metric else f"{words} ({litres * _LITRE / float(FOOT) ** 3:.2f} cu ft)"


def product_words(made: Prepared, style: LengthStyle) -> tuple[str, ...]:
    """Return what to know about product and pour, in sentences."""
    return tuple(words for words in _product_words(made, style) if words)


def _product_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    asked = made.asked
    if asked.bag_litres is None:
        usual = volume_words(made.bag_litres, style)
        yield f"Bags are counted at {usual} each, a usual figure for 50 lb: see your bag."
    if made.pours > 1:
        most = format_height(asked.deepest or 0.0, style)
        pours = "coats" if made.is_upright else "pours"
        yield f"The deepest place needs {made.pours} {pours}: one may be {most} deep."
    yield _rim_words(made, style)
    if made.slopes:
        yield "What levels itself makes no slope: draw this off along strips set to it, or with a screed."
    if not made.is_upright:
        yield _dam_words(made)


def _rim_words(made: Prepared, style: LengthStyle) -> str:
    thinnest, asked = made.fill.thinnest, made.asked.thinnest
    if asked and thinnest < asked - 1e-6:
        return (
            f"The fill runs out to less than {format_height(asked, style)}, which this product cannot: take "
            "a patch or a feather finish at the rim, or fill the whole surface higher."
        )
    if asked is None and thinnest < _THIN:
        return "The fill runs out to nothing at its rim: take a product that can be drawn to a feather edge."
    return ""


def _dam_words(made: Prepared) -> str:
    if not made.dams:
        return "No opening is drawn; still look for cracks and pipes a pour could run into."
    return f"Dam before pouring: {', '.join(made.dams)}."
