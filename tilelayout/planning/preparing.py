"""What to do about a surface that is not flat: how much filler, how many bags, how deep, what to dam.

The figures of a product stand on its bag. Where nobody gave them, a usual yield is taken and said so: a 50 lb
bag that covers 25 sq ft a quarter of an inch deep (a maker's data sheet for a self-levelling underlayment),
which is 14.75 litres. Yields of such bags differ by a fifth, so the bag's own figure comes first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tilelayout.base.units import INCH, LengthStyle, format_length
from tilelayout.flatness.fill import Fill, Prices, level_fill
from tilelayout.flatness.hull_plane import resting_plane
from tilelayout.job.preparation import Preparation, PreparationWay
from tilelayout.job.values import EdgeRole, Surface
from tilelayout.planning.surface import Flatness
from tilelayout.planning.wall_names import edge_name

USUAL_BAG_LITRES = 25 * 144 * 0.25 * float(INCH) ** 3 / 1e6
"""25 sq ft at 1/4 in from a bag, in litres."""

USUAL_MOST_GROUND = 3.0
"""How much is ground off at most if nobody said, mm: our own choice, as little as shows."""

_LITRE = 1e6
_MARGIN = 1.1
"""A tenth more than the volume: filler stays in the bucket and runs into cracks (common practice)."""

_OPEN = {EdgeRole.DOORWAY, EdgeRole.OPEN}
_NOTHING = 1.0

WAY_WORDS = {
    PreparationWay.LEAST_FILL: "Fill the least",
    PreparationWay.LEVEL: "Level with the highest point",
    PreparationWay.PLANE: "Fill to one plane, tilted as it is",
    PreparationWay.GRIND_AND_FILL: "Grind high spots, fill the rest",
}
UPRIGHT_WAY_WORDS = WAY_WORDS | {
    PreparationWay.LEVEL: "Plumb with the furthest point",
    PreparationWay.PLANE: "One plane, leaning as it does",
}


@dataclass(frozen=True, eq=False)
class Prepared:
    """A surface's preparation: its fill, and what follows for the bags. Volumes in litres."""

    asked: Preparation
    fill: Fill
    surface: Surface

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
    for fill in _fills(one, asked):
        yield Prepared(asked, fill, one.surface)


def prepared(one: Flatness, asked: Preparation) -> Prepared | None:
    """Return the preparation; None if only lines are known or no tile is planned."""
    last = None
    for last in prepared_steps(one, asked):  # noqa: B007  (the last is what counts)
        pass
    return last


def _fills(one: Flatness, asked: Preparation) -> Iterator[Fill]:
    if one.ground is None:
        return
    match asked.way:
        case PreparationWay.LEVEL:
            yield level_fill(one.ground, one.surveyed.heights)
        case PreparationWay.PLANE:
            yield _to_plane(one)
        case PreparationWay.GRIND_AND_FILL:
            most = USUAL_MOST_GROUND if asked.most_ground is None else asked.most_ground
            mixed = one.ground_and_filled(Prices(most_ground=most))
            yield from () if mixed is None else (mixed,)
        case PreparationWay.LEAST_FILL:
            least = one.least_fill
            yield from () if least is None else (least,)


def _to_plane(one: Flatness) -> Fill:
    """The plane through the high points that takes the least: lowest over the middle of what is filled."""
    ground = one.ground
    assert ground is not None
    centres = ground.corners.mean(axis=1)
    middle = np.average(centres, axis=0, weights=ground.areas)
    plane = resting_plane(ground.mesh.places, one.surveyed.heights, middle)
    added = plane.heights(ground.mesh.places) - one.surveyed.heights
    return Fill(ground, added, np.zeros(len(added)))


def product_words(made: Prepared, style: LengthStyle) -> tuple[str, ...]:
    """Return what to know about product and pour, in sentences."""
    return tuple(words for words in _product_words(made, style) if words)


def _product_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    asked, deepest = made.asked, made.fill.deepest
    if asked.bag_litres is None:
        usual = f"{made.bag_litres:.1f} litres"
        yield f"Bags are counted at {usual} each, a usual figure for 50 lb: see your bag."
    if made.pours > 1:
        most = format_length(asked.deepest or 0.0, style)
        yield f"The deepest place needs {made.pours} pours: one may be {most} deep."
    if asked.thinnest and made.fill.thinnest < asked.thinnest - 1e-6:
        least = format_length(asked.thinnest, style)
        yield (
            f"The fill runs out to less than {least}, which this product cannot: take a patch or a feather "
            "finish at the rim, or level the whole surface higher."
        )
    elif asked.thinnest is None and deepest > 0.0:
        yield "The fill runs out to nothing at its rim: take a product that can be drawn to a feather edge."
    yield _dam_words(made)


def _dam_words(made: Prepared) -> str:
    if not made.dams:
        return "No opening is drawn; still look for cracks and pipes a pour could run into."
    return f"Dam before pouring: {', '.join(made.dams)}."
