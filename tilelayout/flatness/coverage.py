"""Whether a survey can show what a limit asks: close enough readings, a fine enough tool, all of the surface.

A straightedge of length L shows a gap only where three readings lie under it, so readings stand no more than
half of L apart. A tool must tell half of the limit. Both are common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.flatness.mesh import Mesh
from tilelayout.flatness.sentences import Sentence
from tilelayout.flatness.standards import FlatnessLimit
from tilelayout.flatness.surveyed import Surveyed

_MOST_SIDES = 0.8
"""The step is the distance that so large a share of neighbouring readings keep."""

_ROUNDED_STEP = 1.02
"""Steps are paced off with a tape: so much more than the half is still the half."""

_MOST_BARE = 0.1
"""So large a share of the surface may lie further than a step from the readings."""


@dataclass(frozen=True)
class Lack:
    """What a survey lacks to judge a limit; `spoils_failure` claims that not even a failure can be told."""

    sentence: Sentence
    spoils_failure: bool = False

    @property
    def words(self) -> str:
        """The sentence in mm."""
        return self.sentence.said()


def lacks(surveyed: Surveyed, limit: FlatnessLimit) -> tuple[Lack, ...]:
    """Return what the survey lacks to judge a limit; nothing if it can."""
    found = [_resolution(surveyed, limit)]
    if surveyed.mesh is None:
        found.append(Lack(_ONLY_LINES))
    else:
        found += [_step(surveyed.mesh, len(surveyed.readings), limit), _bare(surveyed, surveyed.mesh)]
    return tuple(lack for lack in found if lack is not None)


_ONLY_LINES = Sentence(
    "The readings lie in lines and say nothing of the rest: measure the whole surface in a grid."
)


def step_of(mesh: Mesh, count: int) -> float:
    """Return how far apart neighbouring readings stand, mm; `count` is the number of readings."""
    sides = mesh.edges[np.all(mesh.edges < count, axis=1)]
    along = mesh.places[sides[:, 1]] - mesh.places[sides[:, 0]]
    return float(np.quantile(np.hypot(along[:, 0], along[:, 1]), _MOST_SIDES, method="lower"))


def _resolution(surveyed: Surveyed, limit: FlatnessLimit) -> Lack | None:
    resolution = surveyed.survey.resolution
    if resolution is None or resolution <= limit.limit / 2.0:
        return None
    words = "A tool that shows {shown} cannot tell {limit}: measure with one that shows {wanted} or less."
    heights = {"shown": resolution, "limit": limit.limit, "wanted": limit.limit / 2.0}
    return Lack(Sentence(words, {}, heights), spoils_failure=True)


def _step(mesh: Mesh, count: int, limit: FlatnessLimit) -> Lack | None:
    step = step_of(mesh, count)
    if step <= limit.over / 2.0 * _ROUNDED_STEP:
        return None
    words = (
        "Readings {step} apart do not put three under a straightedge of {over}: "
        "measure every {wanted} or closer."
    )
    return Lack(Sentence(words, {"step": step, "over": limit.over, "wanted": limit.over / 2.0}))


def _bare(surveyed: Surveyed, mesh: Mesh) -> Lack | None:
    reached = shapely.buffer(mesh.domain, step_of(mesh, len(surveyed.readings)))
    bare = shapely.difference(surveyed.ground, reached)
    share = float(shapely.area(bare) / shapely.area(surveyed.ground))
    if share <= _MOST_BARE:
        return None
    middle = max(shapely.get_parts(bare), key=lambda part: part.area).representative_point()
    words = f"{share:.0%} of the surface lies beyond the readings: measure there too, as at ({{x}}, {{y}})."
    return Lack(Sentence(words, {"x": middle.x, "y": middle.y}))
