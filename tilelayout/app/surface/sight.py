"""What the board shows of a survey: a map of heights or of fill depths, contours, readings, worst place."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QImage

from tilelayout.app.offset_map.tones import toned
from tilelayout.app.surface.sit_sight import SitSight
from tilelayout.base.errors import TileLayoutError
from tilelayout.base.heights import format_for, format_height_about
from tilelayout.base.units import LengthStyle
from tilelayout.flatness.contours import Contour, contours, levels_between
from tilelayout.flatness.mesh import Mesh, Numbers
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.flatness.values import Chord
from tilelayout.job.preparation import PreparationWay
from tilelayout.job.values import Point, StraightedgeReading
from tilelayout.planning.contour_steps import contour_step
from tilelayout.planning.preparing import Prepared
from tilelayout.planning.surface import Flatness
from tilelayout.planning.surface_words import given_words

_SAME = 1e-6
"""Heights nearer to each other than this (mm) are one."""

_FINE = 260
"""Pixels of the map along its longer side; between them it is smoothed."""


@dataclass(frozen=True, eq=False)
class HeightMap:
    """Heights or fill depths over a mesh: `values` (v,) at its corners."""

    mesh: Mesh
    values: Numbers
    style: LengthStyle
    is_depth: bool = False

    @property
    def low(self) -> float:
        """The least value."""
        return float(self.values.min())

    @property
    def high(self) -> float:
        """The most."""
        return float(self.values.max())

    @property
    def readings(self) -> Numbers:
        """Where the heights were read (n, 2)."""
        return self.mesh.places[: self.mesh.parents.max() + 1]

    @cached_property
    def step(self) -> float:
        """From contour to contour, a round figure in the job's lengths, mm."""
        return contour_step(self.low, self.high, self.style)

    @cached_property
    def contours(self) -> tuple[Contour, ...]:
        """The lines of equal value."""
        is_even = self.high - self.low < _SAME
        return (
            ()
            if is_even
            else contours(self.mesh, self.values, levels_between(self.low, self.high, self.step))
        )

    @cached_property
    def box(self) -> tuple[Numbers, Numbers]:
        """The lower left and upper right corner of the map."""
        return self.mesh.places.min(axis=0), self.mesh.places.max(axis=0)

    @cached_property
    def image(self) -> QImage:
        """The tones, the upper row first; see-through beside the survey."""
        low, high = self.box
        size = np.maximum(np.round((high - low) / (high - low).max() * _FINE), 2).astype(int)
        x, y = (low[k] + (np.arange(size[k]) + 0.5) / size[k] * (high[k] - low[k]) for k in (0, 1))
        places = np.stack(np.meshgrid(x, y[::-1]), axis=-1).reshape(-1, 2)
        found = self.mesh.heights_at(places, self.values).reshape(size[1], size[0])
        pixels = np.ascontiguousarray(np.dstack([self.tones(found), np.isfinite(found) * np.uint8(255)]))
        form = QImage.Format.Format_RGBA8888
        return QImage(pixels.tobytes(), int(size[0]), int(size[1]), 4 * int(size[0]), form).copy()

    def tones(self, values: Numbers) -> NDArray[np.uint8]:
        """Return the tones (..., 3) of values; high ground is light, and so is no fill."""
        span = self.high - self.low
        if span < _SAME:
            return toned(np.ones_like(values))
        shares = np.nan_to_num((values - self.low) / span)
        return toned(1.0 - shares if self.is_depth else shares)


@dataclass(frozen=True, eq=False)
class Mark:
    """A reading: where, what to write there, and whether it looks mistyped."""

    at: tuple[float, float]
    words: str
    is_odd: bool = False


@dataclass(frozen=True, eq=False)
class Given:
    """A height to meet: from where to where, and what to write there."""

    at: Point
    to: Point
    words: str


@dataclass(frozen=True, eq=False)
class Sight:
    """All of it. `chord` is the worst straightedge; `heights` is None where only lines are known.

    `meets` are the heights that the plane is to meet.
    """

    heights: HeightMap | None
    marks: tuple[Mark, ...]
    gaps: tuple[StraightedgeReading, ...]
    style: LengthStyle
    chord: Chord | None = None
    chord_words: str = ""
    sits: SitSight | None = None
    meets: tuple[Given, ...] = ()


def sight_of(
    one: Flatness, slips: tuple[Mistyped, ...], style: LengthStyle, made: Prepared | None, is_judged: bool
) -> Sight:
    """Return what to show: depths once a preparation is known, else heights; the worst chord once judged.

    `slips` are the readings that look mistyped.
    """
    try:
        mesh = one.surveyed.mesh
    except TileLayoutError:
        mesh = None
    heights = None if mesh is None else _map(one, mesh, style, made)
    worst = one.variations[0] if is_judged and made is None and one.variations else None
    words = f"{format_height_about(worst.worst, style)} {worst.by}" if worst and worst.chord else ""
    chord = worst.chord if worst else None
    marks, gaps = _marks(one, style, slips, made), one.survey.straightedge
    return Sight(heights, marks, gaps, style, chord, words, meets=_meets(made, style))


def _meets(made: Prepared | None, style: LengthStyle) -> tuple[Given, ...]:
    if made is None or made.asked.way is not PreparationWay.PLANE:
        return ()
    return tuple(Given(each.at, each.to or each.at, given_words(each, style)) for each in made.asked.meets)


def _map(one: Flatness, mesh: Mesh, style: LengthStyle, made: Prepared | None) -> HeightMap:
    if made is None:
        return HeightMap(mesh, one.surveyed.heights, style)
    return HeightMap(made.fill.ground.mesh, made.fill.change, style, True)


def _marks(
    one: Flatness, style: LengthStyle, slips: tuple[Mistyped, ...], made: Prepared | None
) -> tuple[Mark, ...]:
    odd = {slip.index for slip in slips}
    values = [height for _, _, height in one.survey.points]
    words = format_for(values, style)
    if made is not None:
        values, words = made.fill.change[: len(values)].tolist(), format_height_about
    return tuple(
        Mark((x, y), _bare(words(value, style)), at in odd)
        for at, ((x, y, _), value) in enumerate(zip(one.survey.points, values, strict=True))
    )


def _bare(words: str) -> str:
    """A height without its unit, which the legend names."""
    return words.removesuffix(" mm").removesuffix('"')
