"""A survey judged: the one call that command line and window share for the question "is it flat enough?".

It joins what flatness knows of readings with what the job knows of tiles: which are planned on the surface,
how long their longest edge is, whose rules are asked for. Each figure is worked out when it is first asked
for and then kept, for as long as surface, survey and tiles are the same objects.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tilelayout.flatness.fill import Fill, Prices, grind_and_fill, least_fill, level_fill, preparing
from tilelayout.flatness.mistyped import Mistyped, mistyped
from tilelayout.flatness.standards import FlatnessLimit, Standard, standards, standards_for, traps_of
from tilelayout.flatness.surveyed import Surveyed
from tilelayout.flatness.values import Variation
from tilelayout.flatness.verdicts import Verdict, verdict
from tilelayout.flatness.volumes import Ground, ground_of
from tilelayout.geometry.rings import following
from tilelayout.job.values import Job, Surface, Survey, Tile
from tilelayout.layout.chips import hard_outline
from tilelayout.planning.kept import Kept


def longest_edge(tile: Tile) -> float:
    """Return the length of the tile's longest edge, mm: by its label if that is longer."""
    outline = hard_outline(tile)
    sides = following(outline) - outline
    measured = float(np.hypot(sides[:, 0], sides[:, 1]).max())
    return max(measured, tile.nominal or 0.0)


@dataclass(frozen=True, eq=False)
class Flatness:
    """Everything that follows from one survey. Lengths in mm, volumes in mm3.

    `tiles` are those planned on the surface; the first is the one to be laid, which the fill is made for.
    """

    surface: Surface
    survey: Survey
    tiles: tuple[Tile, ...]
    practice: str

    @cached_property
    def surveyed(self) -> Surveyed:
        """The readings, ready to be measured."""
        return Surveyed(self.surface, self.survey)

    @property
    def title(self) -> str:
        """What to call the survey in front of a person."""
        return self.survey.name or self.surface.title

    @cached_property
    def standards(self) -> tuple[Standard, ...]:
        """The standards that the job's practice goes by."""
        return standards_for(self.practice)

    def limits(self, tile: Tile) -> tuple[FlatnessLimit, ...]:
        """Return the limits that decide for a tile, the longest length first."""
        return _of_standards(self.standards, self.surface, tile, advises=False)

    @cached_property
    def variations(self) -> tuple[Variation, ...]:
        """Gap and rise over each length that some limit asks about, the longest first."""
        overs = {limit.over for tile in self.tiles for limit in self.limits(tile)}
        return self.surveyed.variations(sorted(overs, reverse=True))

    @cached_property
    def slips(self) -> tuple[Mistyped, ...]:
        """The readings that look mistyped."""
        mesh = self.surveyed.mesh
        return () if mesh is None else mistyped(mesh, self.surveyed.readings)

    @cached_property
    def verdicts(self) -> tuple[Verdict, ...]:
        """The surface judged for every tile planned on it."""
        return tuple(
            self._judged(tile, limit, self.variations) for tile in self.tiles for limit in self.limits(tile)
        )

    @cached_property
    def compared(self) -> tuple[tuple[str, Verdict], ...]:
        """The same by other prints of the figures and by other practices' standards, with their names."""
        asked = [
            (standard.NAME, tile, limit)
            for standard in standards().values()
            for tile in self.tiles
            for limit in standard.limits(self.surface.kind, longest_edge(tile))
            if limit.advises or standard not in self.standards
        ]
        found = self.surveyed.variations(sorted({limit.over for _, _, limit in asked}, reverse=True))
        return tuple((name, self._judged(tile, limit, found)) for name, tile, limit in asked)

    def _judged(self, tile: Tile, limit: FlatnessLimit, found: tuple[Variation, ...]) -> Verdict:
        worst = next(one for one in found if one.over == limit.over)
        return verdict(self.surveyed, tile.id, limit, worst, self.slips)

    @property
    def traps(self) -> tuple[str, ...]:
        """What a person should know before relying on the standards used."""
        return tuple(trap for standard in self.standards for trap in traps_of(standard))

    @cached_property
    def ground(self) -> Ground | None:
        """The ground that takes leveller; None where only lines are known."""
        mesh = self.surveyed.mesh
        return None if mesh is None else ground_of(mesh, self.surveyed.ground)

    @cached_property
    def level_fill(self) -> Fill | None:
        """What brings the whole surface level with its highest point; None where only lines are known."""
        return None if self.ground is None else level_fill(self.ground, self.surveyed.heights)

    @cached_property
    def least_fill(self) -> Fill | None:
        """The least that brings every limit for the tile to be laid within tolerance.

        None where only lines are known, or no tile is planned.
        """
        if self.ground is None or not self.tiles:
            return None
        return least_fill(self.ground, self.surveyed.readings, self._to_keep())

    def least_fill_steps(self) -> Iterator[Fill]:
        """Yield better and better fills, to be pulled off the window's thread; the last is the least."""
        if self.ground is not None and self.tiles:
            yield from preparing(self.ground, self.surveyed.readings, self._to_keep())

    def ground_and_filled(self, prices: Prices) -> Fill | None:
        """Return the cheapest mix of grinding and filling. SurveyError if there is none within bounds."""
        if self.ground is None or not self.tiles:
            return None
        return grind_and_fill(self.ground, self.surveyed.readings, self._to_keep(), prices)

    def _to_keep(self) -> list[tuple[float, float]]:
        return [(limit.over, limit.limit) for limit in self.limits(self.tiles[0])]


def _of_standards(
    used: tuple[Standard, ...], surface: Surface, tile: Tile, *, advises: bool
) -> tuple[FlatnessLimit, ...]:
    edge = longest_edge(tile)
    found = [limit for standard in used for limit in standard.limits(surface.kind, edge)]
    kept = [limit for limit in found if limit.advises is advises]
    return tuple(sorted(kept, key=lambda limit: -limit.over))


def flatness(job: Job, at: int) -> Flatness:
    """Return what follows from survey `at` of the job."""
    survey = job.surveys[at]
    surface = job.surface(survey.surface)
    tiles = planned_tiles(job, surface.id)
    parts = (surface, survey, *tiles, job.practice)
    return _kept.get(parts, lambda: Flatness(surface, survey, tiles, str(job.practice)))


def planned_tiles(job: Job, surface_id: str) -> tuple[Tile, ...]:
    """Return the tiles of the layouts of a surface, each once, the one to be laid first."""
    laid = [layout for layout in job.layouts if layout.surface == surface_id]
    ids = dict.fromkeys(id for layout in laid for id in layout.tiles)
    return tuple(job.tile(id) for id in ids)


_kept: Kept[Flatness] = Kept(16)
