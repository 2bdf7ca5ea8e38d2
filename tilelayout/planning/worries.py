"""A tile to worry about: how it lies when laid dry, the bed that it would need, and what is allowed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from tilelayout.flatness.values import Spot
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Figure
from tilelayout.practice.subjects.bedding import bed_range
from tilelayout.practice.subjects.lippage import allowed_step

SHOWN = 0.05
"""So much over a limit (mm) does not show in tenths of a mm, and no survey is so fine."""


class Trouble(StrEnum):
    """What is wrong with how a tile lies when it is laid dry."""

    ROCKS = "rocks"
    STEPS = "steps"
    HOLLOW = "hollow"


@dataclass(frozen=True)
class Allowed:
    """What a tile may do on its surface: step to its neighbour, and a bed so thin and so thick."""

    step: Figure
    least_bed: Figure
    most_bed: Figure

    @property
    def sources(self) -> tuple[str, ...]:
        """Whose figures they are, each once."""
        figures = (self.step, self.least_bed, self.most_bed)
        return tuple(dict.fromkeys(figure.source.words for figure in figures))


def allowed(case: Case) -> Allowed:
    """Return what the rules of the job's practice allow a tile on its surface."""
    return Allowed(allowed_step(case), *bed_range(case))


@dataclass(frozen=True)
class Step:
    """The step to a neighbour: what the surface makes of it and what the bow does, mm, and where."""

    to: str
    floor: float
    bow: float
    at: Spot

    @property
    def worst(self) -> float:
        """Both the same way."""
        return self.floor + self.bow

    @property
    def likely(self) -> float:
        """The root of the sum of their squares."""
        return float(np.hypot(self.floor, self.bow))


@dataclass(frozen=True)
class Worry:
    """A tile to worry about: how it lies when laid dry, and its bed when set to the common plane. All mm.

    `hollow` is the largest gap under it; the bed there is so much thicker than the least. `plate` is its
    number among the plates laid.
    """

    id: str
    plate: int
    troubles: tuple[Trouble, ...]
    rock: float
    rocks_on: Spot
    sinks_at: Spot
    step: Step | None
    hollow: float
    bed: tuple[float, float]
    allowed: Allowed
    most_bed: float

    @property
    def takes_bed(self) -> bool:
        """Claim that the mortar takes the bed that sets the tile to the common plane."""
        return self.bed[1] <= self.most_bed + SHOWN

    @property
    def amount(self) -> float:
        """What the first of its troubles measures, mm."""
        step = 0.0 if self.step is None else self.step.worst
        by_trouble = {Trouble.ROCKS: self.rock, Trouble.STEPS: step, Trouble.HOLLOW: self.hollow}
        return by_trouble[self.troubles[0]]

    @property
    def needs_filler(self) -> bool:
        """Claim that no bed that the mortar takes sets it right."""
        return not self.takes_bed or Trouble.HOLLOW in self.troubles

    @property
    def excess(self) -> float:
        """How bad it is: the largest of what was measured, as a share of what is allowed."""
        step = 0.0 if self.step is None else self.step.worst
        dry = max(self.rock, step) / self.allowed.step.value
        return max(dry, self.hollow / max(self.most_bed, 1e-9))
