"""Where a place on a surface stands on the paper: one scale and one origin, nothing else."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.reports.figure import Place, Points


@dataclass(frozen=True)
class View:
    """A drawing at 1:`one_to`; the surface's point `origin` stands at `at` on the paper."""

    one_to: float
    origin: Place
    at: Place = (0.0, 0.0)

    def on_paper(self, points: Points) -> Points:
        """Return surface points (..., 2) in mm of paper."""
        return np.asarray((np.asarray(points) - np.array(self.origin)) / self.one_to + np.array(self.at))

    def place(self, point: tuple[float, float]) -> Place:
        """Return one surface point in mm of paper."""
        x, y = self.on_paper(np.array(point, dtype=float))
        return float(x), float(y)

    def length(self, on_surface: float) -> float:
        """Return how long a length of the surface is on the paper."""
        return on_surface / self.one_to
