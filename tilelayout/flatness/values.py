"""What a measuring of flatness finds: chords, and the worst of them over each length.

Heights are mm out of the surface: up from a floor, out from a wall. A chord is a straight line between two
points of the surface; its length is measured along the surface, which at the slopes of floors is the length
of the straightedge to less than a hundredth of a mm.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

Spot = tuple[float, float]


@dataclass(frozen=True)
class Chord:
    """A straight line from a point to a point of the surface, and how far from it the surface is `at` one."""

    start: Spot
    end: Spot
    at: Spot
    depth: float

    @property
    def length(self) -> float:
        """How far apart the two points are."""
        return float(np.hypot(self.end[0] - self.start[0], self.end[1] - self.start[1]))

    @property
    def share(self) -> float:
        """Where along the chord `at` lies: 0 at its start, 1 at its end."""
        reached = np.hypot(self.at[0] - self.start[0], self.at[1] - self.start[1])
        return float(reached / self.length)


@dataclass(frozen=True)
class Variation:
    """The worst over a length: `gap` below a straightedge, `rise` above a chord; no chord where it is 0.

    Neither can be more than `gap_at_most` and `rise_at_most`, which is proved.
    """

    over: float
    gap: float
    rise: float
    gap_chord: Chord | None = None
    rise_chord: Chord | None = None
    gap_at_most: float = 0.0
    rise_at_most: float = 0.0

    @property
    def worst(self) -> float:
        """The larger of gap and rise."""
        return max(self.gap, self.rise)

    @property
    def by(self) -> str:
        """Which of the two is the larger."""
        return "rise" if self.rise > self.gap else "gap"

    @property
    def chord(self) -> Chord | None:
        """Where the worst is."""
        return self.rise_chord if self.by == "rise" else self.gap_chord

    @property
    def at_most(self) -> float:
        """What the worst cannot exceed."""
        return max(self.gap_at_most, self.rise_at_most)
