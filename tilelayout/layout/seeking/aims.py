"""What makes one start better than another, for each aim.

A bare place in the floor is worse than anything else. Then come the reference lines that are missed, then the
aim itself, then what a tiler would look at next: slivers first, then what the aim saves, tiles or cuts, and
how wide the narrowest cut is. Equal borders lead only where they are asked for: they fix the start to a tenth
of a millimetre, so whatever stood behind them would never be looked at.
"""

from __future__ import annotations

from enum import StrEnum

from tilelayout.layout.seeking.trials import Merit, Trial


class Aim(StrEnum):
    """What to seek: the names that the command line takes."""

    BALANCED = "balanced"
    WIDEST_CUT = "widest-cut"
    FEWEST_TILES = "fewest-tiles"
    FEWEST_CUTS = "fewest-cuts"


def merit_of(
    aim: Aim, trial: Trial, unequal: float, tiles: int | None = None, off_lines: float = 0.0
) -> Merit:
    """Return the merit of a start: the greater, the better.

    `unequal` is by how many mm opposite border cuts differ; `tiles` how many tiles it takes, if that is known
    better than the trial knows it; `off_lines` by how many mm the reference lines are missed.
    """
    tiles = trial.tiles if tiles is None else tiles
    narrowest, equal = round(trial.narrowest, 4), -round(unequal, 1)
    first = -float(trial.bare), -round(off_lines, 1)
    if aim is Aim.WIDEST_CUT:
        return *first, narrowest, -trial.slivers, equal, -tiles, -trial.cuts
    if aim is Aim.FEWEST_TILES:
        return *first, -tiles, -trial.slivers, -trial.cuts, narrowest, equal
    if aim is Aim.FEWEST_CUTS:
        return *first, -trial.cuts, -trial.slivers, -tiles, narrowest, equal
    return *first, -trial.slivers, equal, -tiles, narrowest, -trial.cuts
