"""What makes a survey one that cannot be: no reading, a height beyond reason, a place read twice."""

from __future__ import annotations

from collections.abc import Iterator
from math import dist

import shapely

from tilelayout.job import limits
from tilelayout.job.limits import Problem, inside
from tilelayout.job.preparation_checks import preparation_problems
from tilelayout.job.values import StraightedgeReading, Survey


def survey_problems(survey: Survey) -> Iterator[Problem]:
    """Return what is wrong with a survey, with places inside it ("points[2][0]")."""
    if not survey.points and not survey.straightedge:
        yield Problem("points", "There is no reading here.", "Add [x, y, height], or leave the survey out.")
    yield from limits.RESOLUTION.problems(survey.resolution, "resolution")
    for index, (x, y, height) in enumerate(survey.points):
        yield from limits.COORDINATE.problems(x, f"points[{index}][0]")
        yield from limits.COORDINATE.problems(y, f"points[{index}][1]")
        yield from limits.READING_HEIGHT.problems(height, f"points[{index}][2]")
    yield from _repeated(survey)
    if survey.preparation is not None:
        yield from inside("preparation", preparation_problems(survey.preparation))
    for index, laid in enumerate(survey.straightedge):
        yield from inside(f"straightedge[{index}]", _straightedge_problems(laid))


def _repeated(survey: Survey) -> Iterator[Problem]:
    """Say which reading stands where an earlier one does."""
    if not survey.points:
        return
    points = shapely.points([point[:2] for point in survey.points])
    pairs = shapely.STRtree(points).query(points, "dwithin", distance=limits.NEAREST_READINGS)
    later = sorted((int(j), int(i)) for i, j in pairs.T if i < j)
    for after, before in later[:1]:
        what = f"This reading stands where reading {before} does."
        yield Problem(f"points[{after}]", what, "Keep the one that is right.")


def _straightedge_problems(laid: StraightedgeReading) -> Iterator[Problem]:
    for end, point in (("from", laid.start), ("to", laid.end)):
        for axis, value in enumerate(point):
            yield from limits.COORDINATE.problems(value, f"{end}[{axis}]")
    length = dist(laid.start, laid.end)
    yield from limits.STRAIGHTEDGE.problems(length, "to")
    if not 0.0 < laid.along < length:
        what = f"The gap is read {laid.along:g} mm along a straightedge of {length:g} mm."
        yield Problem("along", what, "Give a place between its ends, measured from the first.")
    yield from limits.READING_HEIGHT.problems(laid.gap, "gap")
    if laid.gap < 0.0:
        yield Problem("gap", "The gap is negative.", "A straightedge rests on the surface: give 0 or more.")
