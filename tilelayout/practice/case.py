"""What a rule judges: one tile, laid in one layout on one surface, and the words and figures for it.

Lengths are judged as they can be read on a rule, to 0.1 mm or 1/64 in, so that what a sentence shows is
what was compared: 3 mm spacers are 1/8 in to a person who works in inches.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tilelayout.base.heights import height_style
from tilelayout.base.units import INCH, LengthStyle, format_fine, format_length, format_weight_per_area
from tilelayout.geometry.rings import area
from tilelayout.job.adhesive_class import AdhesiveClass, adhesive_class
from tilelayout.job.kinds import Practice
from tilelayout.job.values import Job, Layout, Surface, SurfaceKind, Tile
from tilelayout.layout.chips import hard_outline
from tilelayout.layout.faces import tile_outline
from tilelayout.practice.finding import NOTHING_TO_CITE, Figure, Finding, Level, Source
from tilelayout.practice.offset import offset_share

_FINEST = 64
_SMALL = float(INCH)
"""Lengths under an inch are said in 64ths, longer ones in 16ths."""

_LONG = 100.0
"""A length from here on is said in the job's own unit: nobody calls a joint 0.003 m."""


@dataclass(frozen=True)
class Case:
    """A tile laid on a surface. Lengths in mm, weights in kg/m2."""

    job: Job
    surface: Surface
    tile: Tile
    layout: Layout

    @property
    def style(self) -> LengthStyle:
        """How lengths are shown."""
        return self.job.show_lengths

    @property
    def practice(self) -> Practice:
        """Whose rules are asked for."""
        return self.job.practice

    @property
    def is_wall(self) -> bool:
        """Whether the surface is a wall."""
        return self.surface.kind is SurfaceKind.WALL

    @property
    def where(self) -> str:
        """What to call tile and surface in a sentence."""
        return f"{self.tile.title} on {self.surface.title}"

    @property
    def ids(self) -> tuple[str, ...]:
        """The ids of surface and tile, for what is so in every layout of theirs."""
        return (self.surface.id, self.tile.id)

    @property
    def layout_ids(self) -> tuple[str, ...]:
        """The ids of surface, tile and layout, for what depends on how the tile is laid."""
        return (*self.ids, self.layout.id)

    @cached_property
    def longest_side(self) -> float:
        """The longest side of the tile as measured, or of a chip of a mosaic sheet."""
        outline = hard_outline(self.tile)
        return float(np.hypot(*(np.roll(outline, -1, axis=0) - outline).T).max())

    @property
    def nominal_side(self) -> float:
        """The longest side as on the label; as measured if the label is not known."""
        return self.longest_side if self.tile.nominal is None else self.tile.nominal

    @cached_property
    def face_m2(self) -> float:
        """Area of one face in m2."""
        return area(tile_outline(self.tile)) / 1e6

    @property
    def kg_per_m2(self) -> float | None:
        """Weight of the tile in kg/m2; None if it is not known."""
        if self.tile.weight_kg is not None:
            return self.tile.weight_kg / self.face_m2
        return self.tile.weight_kg_per_m2

    @cached_property
    def adhesive(self) -> AdhesiveClass | None:
        """The class of the adhesive; None if it is not known."""
        adhesive = self.surface.adhesive
        return adhesive_class(adhesive.grade) if adhesive is not None else None

    @cached_property
    def offset(self) -> float:
        """The largest offset of neighbouring rows, as a share of a tile."""
        return offset_share(self.layout)

    def said(self, length: float) -> str:
        """Return a length in words; one of a few inches at the most in mm or inches in every style."""
        fraction = _FINEST if abs(length) < _SMALL else 16
        style = height_style(self.style) if abs(length) < _LONG else self.style
        return format_length(length, style, fraction=fraction)

    def said_finely(self, length: float) -> str:
        """Return a length that was worked out, and is too small for a rule, in words: "2.2 mm", '0.088"'."""
        return format_fine(length, self.style)

    def weighed(self, kg_per_m2: float) -> str:
        """Return a weight per area in words."""
        return format_weight_per_area(kg_per_m2, self.style)

    def is_less(self, length: float, limit: float) -> bool:
        """Tell whether a length is less than a limit, both as a rule shows them."""
        return self._steps(length) < self._steps(limit)

    def is_more(self, length: float, limit: float) -> bool:
        """Tell whether a length is more than a limit, both as a rule shows them."""
        return self.is_less(limit, length)

    def _steps(self, length: float) -> int:
        return round(length / (0.1 if self.style.is_metric else _SMALL / _FINEST) + 1e-9)

    def at_home(self, level: Level, source: Source) -> Level:
        """Return the level of a finding; a rule of another country is no more than an advice."""
        return level if source.country in (None, self.practice) else Level.ADVISE

    def limit(self, figure: Figure) -> float:
        """Return the length that a figure allows here."""
        return figure.in_style(self.style)

    def missing(
        self, code: str, to_judge: str, *unknown: tuple[str, str, object], place: str = ""
    ) -> Iterator[Finding]:
        """Yield a finding that names what is None of `unknown` (what to call it, key in the job, value)."""
        names = [name for name, _, value in unknown if value is None]
        if names:
            asks = tuple(key for _, key, value in unknown if value is None)
            listed = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
            words = f"{self.where}: to judge {to_judge}, find out {listed}."
            yield Finding(code, Level.ADVISE, self.ids, words, NOTHING_TO_CITE, place=place, asks=asks)
