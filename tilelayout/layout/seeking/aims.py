"""What makes one start better than another, for each aim.

A bare place in the floor is worse than anything else. Then comes the aim itself, then what a tiler would look
at next.
"""

from __future__ import annotations

from enum import StrEnum

from tilelayout.layout.seeking.trials import Trial

Merit = tuple[float, ...]


class Aim(StrEnum):
    """What to seek: the names that the command line takes."""

    BALANCED = "balanced"
    WIDEST_CUT = "widest-cut"
    FEWEST_TILES = "fewest-tiles"
    FEWEST_CUTS = "fewest-cuts"


def merit_of(aim: Aim, trial: Trial, unequal: float, tiles: int | None = None) -> Merit:
    """Return the merit of a start: the greater, the better.

    `unequal` is by how many mm opposite border cuts differ; `tiles` how many tiles it takes, if that is known
    better than the trial knows it.
    """
    tiles = trial.tiles if tiles is None else tiles
    narrowest, equal = round(trial.narrowest, 4), -round(unequal, 1)
    if aim is Aim.WIDEST_CUT:
        return -trial.bare, narrowest, -trial.slivers, equal, -tiles, -trial.cuts
    if aim is Aim.FEWEST_TILES:
        return -trial.bare, -tiles, -trial.slivers, equal, narrowest, -trial.cuts
    if aim is Aim.FEWEST_CUTS:
        return -trial.bare, -trial.cuts, -trial.slivers, equal, narrowest, -tiles
    return -trial.bare, -trial.slivers, equal, -tiles, narrowest, -trial.cuts
