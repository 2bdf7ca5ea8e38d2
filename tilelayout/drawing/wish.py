"""What a layout's start may be moved to: one coordinate of it at a time, since two of them fix it."""

from __future__ import annotations

from dataclasses import dataclass

from tilelayout.drawing.placing import Direction
from tilelayout.job.values import Point


@dataclass(frozen=True)
class Wish:
    """The start stands at `at`, give or take whole `repeat`s, measured along the unit `direction`.

    `line` is what it is about, to be shown.
    """

    direction: Direction
    at: float
    repeat: float
    words: str
    line: tuple[Point, Point]

    def shift(self, start: Point) -> float:
        """Return how far along `direction` the start has to go for the nearest fulfilment."""
        along = start[0] * self.direction[0] + start[1] * self.direction[1]
        away = (self.at - along) % self.repeat
        return away if away <= self.repeat / 2 else away - self.repeat
