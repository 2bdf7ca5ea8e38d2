"""What makes a preparation one that cannot be: a bag that makes nothing, a pour deeper than it is thin."""

from __future__ import annotations

from collections.abc import Iterator
from math import dist

from tilelayout.job import limits
from tilelayout.job.limits import Limit, Problem, inside
from tilelayout.job.preparation import GivenHeight, Preparation

BAG_LITRES = Limit("What a bag makes", 0.1, 1000.0, " litres")
POUR = Limit("The depth of a pour", 0.0, 300.0)
MOST_GROUND = Limit("What may be ground off", 0.0, 50.0)
COST = Limit("The cost of a litre", 0.01, 1_000_000.0, "")
FALL = Limit("The fall", 0.1, 20.0, " %")
ACROSS = Limit("The width of the place", 0.0, 2000.0)

SHORTEST_EDGE = 1.0
"""An edge of one height that is shorter than this (mm) is a point."""


def preparation_problems(asked: Preparation) -> Iterator[Problem]:
    """Return what is wrong with a preparation, with places inside it ("bag_litres")."""
    yield from BAG_LITRES.problems(asked.bag_litres, "bag_litres")
    yield from POUR.problems(asked.thinnest, "thinnest")
    yield from POUR.problems(asked.deepest, "deepest")
    yield from MOST_GROUND.problems(asked.most_ground, "most_ground")
    yield from COST.problems(asked.fill_cost, "fill_cost")
    yield from COST.problems(asked.grind_cost, "grind_cost")
    if asked.deepest is not None and not asked.deepest > (asked.thinnest or 0.0):
        what = f"A pour of {asked.deepest:g} mm at most is no deeper than its thinnest."
        yield Problem("deepest", what, "Give the range as it stands on the bag, the thinnest first.")
    for at, given in enumerate(asked.meets):
        yield from inside(f"meets[{at}]", _given_problems(given))


def _given_problems(given: GivenHeight) -> Iterator[Problem]:
    for key, point in (("at", given.at), ("to", given.to)):
        for axis, value in enumerate(point or ()):
            yield from limits.COORDINATE.problems(value, f"{key}[{axis}]")
    yield from limits.READING_HEIGHT.problems(given.height, "height")
    yield from FALL.problems(given.fall_percent, "fall_percent")
    yield from ACROSS.problems(given.across, "across")
    if given.to is not None and dist(given.at, given.to) < SHORTEST_EDGE:
        yield Problem("to", "The line ends where it begins.", "Leave `to` out for a single point.")
    if given.height is None and given.fall_percent is None:
        yield Problem("height", "This place has no height.", "Give one, or the fall towards it.")
