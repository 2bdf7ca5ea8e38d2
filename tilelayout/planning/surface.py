"""A survey judged: the one call that command line and window share for the question "is it flat enough?".

It joins what flatness knows of readings with what the job knows of tiles: which are planned on the surface,
how long their longest edge is, whose rules are asked for. Each figure is worked out when it is first asked
for and then kept, for as long as surface, survey and tiles are the same objects.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tilelayout.base.stepping import last_of
from tilelayout.flatness.f_numbers import FNumbers, f_numbers, lines_of
from tilelayout.flatness.fill import Fill, Prices, level_fill, preparing
from tilelayout.flatness.mesh import Numbers
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.flatness.plumb import Lean, lean
from tilelayout.flatness.standards import FlatnessLimit, Standard, standards, standards_for, traps_of
from tilelayout.flatness.straightedge import variations_steps
from tilelayout.flatness.surveyed import Surveyed
from tilelayout.flatness.values import Variation
from tilelayout.flatness.verdicts import Verdict, verdict
from tilelayout.flatness.volumes import Ground
from tilelayout.geometry.rings import following
from tilelayout.job.values import Job, Surface, SurfaceKind, Survey, Tile
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
        """The readings, ready to be measured: the same however the surface is to be made flat."""
        survey = self.survey
        parts = (self.surface, survey.points, survey.straightedge, survey.tool, survey.resolution)
        return _measured.get(parts, lambda: Surveyed(self.surface, survey))

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
        return last_of(self.judging())

    def judging(self) -> Generator[float, None, tuple[Variation, ...]]:
        """Yield which share of the straightedges is laid; after that the verdicts are known."""
        overs = {limit.over for tile in self.tiles for limit in self.limits(tile)}
        return (yield from self.surveyed.measuring(sorted(overs, reverse=True)))

    @property
    def slips(self) -> tuple[Mistyped, ...]:
        """The readings that look mistyped."""
        return self.surveyed.slips

    @cached_property
    def f_numbers(self) -> FNumbers | None:
        """FF and FL of a floor, as an indication; None without a line of readings at every 12 in (300 mm)."""
        if self.surface.kind is SurfaceKind.WALL:
            return None
        return f_numbers(*lines_of(self.surveyed.places, self.surveyed.readings))

    @cached_property
    def lean(self) -> Lean | None:
        """How far a wall is out of plumb; None for a floor, and where the readings do not tell."""
        if self.surface.kind is not SurfaceKind.WALL or not self.survey.points:
            return None
        return lean(self.surveyed.places, self.surveyed.readings)

    @cached_property
    def verdicts(self) -> tuple[Verdict, ...]:
        """The surface judged for every tile planned on it."""
        return tuple(
            self._judged(tile, limit, self.variations) for tile in self.tiles for limit in self.limits(tile)
        )

    @cached_property
    def compared(self) -> tuple[tuple[str, Verdict], ...]:
        """The same by other prints of the figures and by other practices' standards, with their names."""
        return last_of(self.comparing())

    def comparing(self) -> Generator[float, None, tuple[tuple[str, Verdict], ...]]:
        """Yield which share of the straightedges is laid; return what `compared` does."""
        asked = [
            (standard.NAME, tile, limit)
            for standard in standards().values()
            for tile in self.tiles
            for limit in standard.limits(self.surface.kind, longest_edge(tile))
            if limit.advises or standard not in self.standards
        ]
        overs = {limit.over for _, _, limit in asked}
        found = yield from self.surveyed.measuring(sorted(overs, reverse=True))
        return tuple((name, self._judged(tile, limit, found)) for name, tile, limit in asked)

    def judging_after(self, heights: Numbers) -> Generator[float, None, tuple[Verdict, ...]]:
        """Return the verdicts for the tile to be laid once the corners of the mesh have other `heights` (v,).

        Yields which share of the straightedges is laid meanwhile. Nothing where only lines are known or no
        tile is planned.
        """
        mesh, surveyed = self.surveyed.mesh, self.surveyed
        if mesh is None or not self.tiles:
            return ()
        limits = self.limits(self.tiles[0])
        found = yield from variations_steps(mesh, heights, [limit.over for limit in limits])
        pairs = zip(limits, found, strict=True)
        return tuple(verdict(surveyed, self.tiles[0].id, limit, worst) for limit, worst in pairs)

    def _judged(self, tile: Tile, limit: FlatnessLimit, found: tuple[Variation, ...]) -> Verdict:
        worst = next(one for one in found if one.over == limit.over)
        return verdict(self.surveyed, tile.id, limit, worst, self.slips)

    @property
    def traps(self) -> tuple[str, ...]:
        """What a person should know before relying on the standards used."""
        return tuple(trap for standard in self.standards for trap in traps_of(standard))

    @property
    def ground(self) -> Ground | None:
        """The ground that takes leveller; None where only lines are known."""
        return self.surveyed.levelled

    @cached_property
    def level_fill(self) -> Fill | None:
        """What brings the whole surface level with its highest point; None where only lines are known."""
        return None if self.ground is None else level_fill(self.ground, self.surveyed.heights)

    @property
    def least_fill(self) -> Fill | None:
        """The least that brings every limit for the tile to be laid within tolerance.

        None where only lines are known, or no tile is planned.
        """
        return self.surveyed.least_fill(self._to_keep()) if self.tiles else None

    def least_fill_steps(self) -> Iterator[Fill]:
        """Yield better and better fills; the last is the least."""
        if self.tiles:
            yield from self.surveyed.least_fill_steps(self._to_keep())

    def ground_and_filled_steps(self, prices: Prices) -> Iterator[Fill]:
        """Yield better and better mixes of grinding and filling; the last is the cheapest.

        SurveyError if there is none within bounds.
        """
        if self.ground is not None and self.tiles:
            yield from preparing(self.ground, self.surveyed.readings, self._to_keep(), prices)

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
_measured: Kept[Surveyed] = Kept(16)
