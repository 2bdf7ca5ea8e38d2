"""A survey made ready to be measured: its readings as arrays, a surface or lines, and where they reach.

Readings that make a surface are joined to a mesh. Readings in one line, and the gaps read under each laying
of a straightedge, are profiles: lines of which only themselves are known.
"""

from __future__ import annotations

from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import Any

import numpy as np
import shapely

from tilelayout.base.stepping import last_of
from tilelayout.flatness.fill import Fill, Limits, preparing
from tilelayout.flatness.mesh import Mesh, Numbers, Points, lie_in_one_line, mesh_of
from tilelayout.flatness.mistyped import Mistyped, mistyped
from tilelayout.flatness.profiles import Profile, profile_of
from tilelayout.flatness.straightedge import variations_steps
from tilelayout.flatness.values import Variation
from tilelayout.flatness.volumes import Ground, ground_of
from tilelayout.geometry.arcs import circle_points
from tilelayout.job.shapes import outline_ring
from tilelayout.job.values import Cutout, StraightedgeReading, Surface, Survey

_FEW = 300
"""So many readings are searched for slips faster than a key is pressed."""


@dataclass(frozen=True, eq=False)
class Surveyed:
    """A surface and what was read on it."""

    surface: Surface
    survey: Survey

    @cached_property
    def places(self) -> Points:
        """Where the heights were read (n, 2)."""
        return np.array([point[:2] for point in self.survey.points], dtype=float).reshape(-1, 2)

    @cached_property
    def readings(self) -> Numbers:
        """The heights read (n,)."""
        return np.array([point[2] for point in self.survey.points], dtype=float)

    @cached_property
    def outline(self) -> shapely.Polygon:
        """The outline of the surface, arcs as chords."""
        return shapely.Polygon(outline_ring(self.surface))

    @cached_property
    def ground(self) -> shapely.Geometry:
        """The outline less its cutouts: what takes leveller."""
        taken = [_shape(cutout) for cutout in self.surface.cutouts]
        return shapely.difference(self.outline, shapely.union_all(taken)) if taken else self.outline

    @cached_property
    def mesh(self) -> Mesh | None:
        """The readings joined to a surface; None if they lie in one line. SurveyError if outside."""
        return None if lie_in_one_line(self.places) else mesh_of(self.places, self.outline)

    @cached_property
    def heights(self) -> Numbers:
        """The heights of the mesh's corners (v,); none if there is no mesh."""
        return np.empty(0) if self.mesh is None else self.mesh.heights(self.readings)

    @cached_property
    def profiles(self) -> tuple[Profile, ...]:
        """The lines of which only themselves are known."""
        laid = groupby(sorted(self.survey.straightedge, key=_ends), key=_ends)
        found = [_under_straightedge(list(readings)) for _, readings in laid]
        if self.mesh is None and len(self.places) > 1:
            found.append(profile_of(self.places, self.readings))
        return tuple(found)

    @cached_property
    def slips(self) -> tuple[Mistyped, ...]:
        """The readings that look mistyped."""
        return () if self.mesh is None else mistyped(self.mesh, self.readings)

    @property
    def is_searched(self) -> bool:
        """Whether the slips are known, or the readings are so few that they are known at once."""
        return "slips" in self.__dict__ or len(self.readings) <= _FEW

    @cached_property
    def levelled(self) -> Ground | None:
        """The ground that takes leveller; None where only lines are known."""
        return None if self.mesh is None else ground_of(self.mesh, self.ground)

    @cached_property
    def _known(self) -> dict[object, Any]:
        """What was worked out for lengths and limits: the same survey is asked by every tile and way."""
        return {}

    def variations(self, overs: Sequence[float]) -> tuple[Variation, ...]:
        """Return the worst over each length, of the surface and of every line; worked out once."""
        return last_of(self.measuring(overs))

    def measuring(self, overs: Sequence[float]) -> Generator[float, None, tuple[Variation, ...]]:
        """Yield which share of the straightedges is laid; return what `variations` does."""
        missing = tuple(over for over in overs if over not in self._known)
        if missing:
            found = yield from self._measured(missing)
            self._known.update(zip(missing, found, strict=True))
        return tuple(self._known[over] for over in overs)

    def least_fill(self, limits: Limits) -> Fill | None:
        """Return the least that brings every limit within tolerance; None where only lines are known."""
        last = None
        for last in self.least_fill_steps(limits):  # noqa: B007  (the last is the least)
            pass
        return last

    def least_fill_steps(self, limits: Limits) -> Iterator[Fill]:
        """Yield better and better fills, the last of which is the least; only that if it is known already."""
        asked, ground = tuple(limits), self.levelled
        if asked in self._known:
            yield self._known[asked]
        elif ground is not None:
            for fill in preparing(ground, self.readings, asked):
                yield fill
            self._known[asked] = fill

    def _measured(self, overs: Sequence[float]) -> Generator[float, None, tuple[Variation, ...]]:
        found = []
        if self.mesh is not None:
            found.append((yield from variations_steps(self.mesh, self.heights, overs)))
        found += [tuple(line.variation(over) for over in overs) for line in self.profiles]
        return tuple(_worst(over, [each[k] for each in found]) for k, over in enumerate(overs))


def _shape(cutout: Cutout) -> shapely.Polygon:
    if cutout.circle is not None:
        return shapely.Polygon(circle_points(cutout.circle.centre, cutout.circle.diameter / 2.0))
    return shapely.Polygon(cutout.polygon)


def _ends(laid: StraightedgeReading) -> tuple[float, ...]:
    return (*laid.start, *laid.end)


def _under_straightedge(laid: list[StraightedgeReading]) -> Profile:
    """The gaps read under one straightedge as heights: none at its ends, down between them."""
    start, end = np.array(laid[0].start), np.array(laid[0].end)
    length = float(np.hypot(*(end - start)))
    toward = (end - start) / length
    gaps = dict(sorted((reading.along, reading.gap) for reading in laid))
    along = np.array([0.0, *gaps, length])
    heights = -np.array([0.0, *gaps.values(), 0.0])
    return Profile(along, heights, (float(start[0]), float(start[1])), (float(toward[0]), float(toward[1])))


def _worst(over: float, found: list[Variation]) -> Variation:
    """The worst of several lines and surfaces over one length."""
    if not found:
        return Variation(over, 0.0, 0.0)
    below, above = max(found, key=lambda one: one.gap), max(found, key=lambda one: one.rise)
    bounds = max(one.gap_at_most for one in found), max(one.rise_at_most for one in found)
    return Variation(over, below.gap, above.rise, below.gap_chord, above.rise_chord, *bounds)
