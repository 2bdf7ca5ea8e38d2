"""What makes a preparation one that cannot be: a bag that makes nothing, a pour deeper than it is thin."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.job.limits import Limit, Problem
from tilelayout.job.preparation import Preparation

BAG_LITRES = Limit("What a bag makes", 0.1, 1000.0, " litres")
POUR = Limit("The depth of a pour", 0.0, 300.0)
MOST_GROUND = Limit("What may be ground off", 0.0, 50.0)


def preparation_problems(asked: Preparation) -> Iterator[Problem]:
    """Return what is wrong with a preparation, with places inside it ("bag_litres")."""
    yield from BAG_LITRES.problems(asked.bag_litres, "bag_litres")
    yield from POUR.problems(asked.thinnest, "thinnest")
    yield from POUR.problems(asked.deepest, "deepest")
    yield from MOST_GROUND.problems(asked.most_ground, "most_ground")
    if asked.deepest is not None and not asked.deepest > (asked.thinnest or 0.0):
        what = f"A pour of {asked.deepest:g} mm at most is no deeper than its thinnest."
        yield Problem("deepest", what, "Give the range as it stands on the bag, the thinnest first.")
