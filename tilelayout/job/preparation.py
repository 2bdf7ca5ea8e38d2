"""How a surface is to be made flat: which way, with what product, how much may be ground off."""

from __future__ import annotations

from enum import StrEnum

from tilelayout.job.value import Length, Value


class PreparationWay(StrEnum):
    """What a surface is brought to: the tolerance, one level, one plane of any tilt, or ground and filled."""

    LEAST_FILL = "least-fill"
    LEVEL = "level"
    PLANE = "plane"
    GRIND_AND_FILL = "grind-and-fill"


class Preparation(Value, frozen=True, kw_only=True):
    """A way, and the product by the figures on its bag; None where nobody looked.

    `bag_litres` is what one bag makes, `thinnest` and `deepest` the range of one pour, `most_ground` how much
    may be taken off anywhere.
    """

    way: PreparationWay = PreparationWay.LEAST_FILL
    bag_litres: float | None = None
    thinnest: Length | None = None
    deepest: Length | None = None
    most_ground: Length | None = None
