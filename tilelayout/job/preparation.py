"""How a surface is to be made flat: which way, what it has to meet, with what product, at what cost."""

from __future__ import annotations

from enum import StrEnum

from tilelayout.job.value import Length, Point, Value


class PreparationWay(StrEnum):
    """What a surface is brought to: the tolerance, one level, one plane of any tilt, or ground and filled."""

    LEAST_FILL = "least-fill"
    LEVEL = "level"
    PLANE = "plane"
    GRIND_AND_FILL = "grind-and-fill"


class GivenHeight(Value, frozen=True, kw_only=True):
    """A place whose height the plane has to meet: a point, or a line `to` another, as a doorway's edge is.

    `height` is counted as the readings are. With a `fall_percent` the surface falls to the place from all
    sides, so many mm in 100, from its rim: `across` is how wide it is, as a drain is. Without a `height` it
    falls to the place as low as the surface lets it.
    """

    name: str = ""
    at: Point
    to: Point | None = None
    across: Length = 0.0
    height: Length | None = None
    fall_percent: float | None = None


class Preparation(Value, frozen=True, kw_only=True):
    """A way, and the product by the figures on its bag; None where nobody looked.

    `bag_litres` is what one bag makes, `thinnest` and `deepest` the range of one pour, `most_ground` how much
    may be taken off anywhere; `fill_cost` and `grind_cost` are what a litre filled and a litre ground off
    costs. `meets` are the heights that a plane has to meet.
    """

    way: PreparationWay = PreparationWay.LEAST_FILL
    bag_litres: float | None = None
    thinnest: Length | None = None
    deepest: Length | None = None
    most_ground: Length | None = None
    fill_cost: float | None = None
    grind_cost: float | None = None
    meets: tuple[GivenHeight, ...] = ()
