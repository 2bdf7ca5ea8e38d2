"""The frame of a map of a surface: the largest standard scale that fits, and the scale bar below."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Surface
from tilelayout.reports.figure import Figure, Mark
from tilelayout.reports.figures.scale_bar_marks import scale_bar_marks
from tilelayout.reports.figures.surface_marks import outline_of, surface_marks
from tilelayout.reports.figures.view import View
from tilelayout.reports.scales import fitting_scale

_RIM, _BAR = 6.0, 9.0


@dataclass(frozen=True)
class FittedMap:
    """A surface at a scale at which it fits in some room: `view` puts it on mm of paper."""

    surface: Surface
    style: LengthStyle
    view: View
    one_to: float
    size: tuple[float, float]

    def figure(self, marks: Iterable[Mark]) -> Figure:
        """Return the map: walls and cutouts first, then the marks, then the scale bar."""
        bar = scale_bar_marks(self.one_to, self.style, (_RIM, 2.0))
        wide, high = (side / self.one_to + 2 * _RIM for side in self.size)
        return Figure((*surface_marks(self.surface, self.view), *marks, *bar), wide, high + _BAR, self.one_to)


def fitted_map(surface: Surface, room: tuple[float, float], style: LengthStyle) -> FittedMap:
    """Return the frame of a surface's map in `room` mm, scale bar and all."""
    outline = outline_of(surface)
    low = outline.min(axis=0)
    wide, high = (float(side) for side in outline.max(axis=0) - low)
    one_to = fitting_scale((wide, high), (room[0] - 2 * _RIM, room[1] - 2 * _RIM - _BAR), style)
    view = View(one_to, (float(low[0]), float(low[1])), (_RIM, _RIM + _BAR))
    return FittedMap(surface, style, view, one_to, (wide, high))
