"""What makes a reference line one that cannot be: it names what is not there or lacks what its kind needs."""

from __future__ import annotations

from collections.abc import Iterator
from math import dist

from tilelayout.job import limits
from tilelayout.job.kinds import LineKind
from tilelayout.job.limits import Problem, inside
from tilelayout.job.values import Point, ReferenceLine, Surface

_SHORTEST = 1.0
"""The ends of a line nearer than this, in mm, do not tell which way it runs."""

_NEEDS = {
    LineKind.CENTRE: ("point", "edge", "cutout"),
    LineKind.JOINT: ("line",),
    LineKind.FULL_TILE: ("edge",),
    LineKind.NO_JOINT: ("cutout",),
}
_PLACES = ("point", "edge", "cutout", "line")


def lines_problems(lines: tuple[ReferenceLine, ...], surface: Surface) -> Iterator[Problem]:
    """Return what is wrong with the reference lines of a layout on this surface, with places inside it."""
    for index, line in enumerate(lines):
        yield from inside(f"lines[{index}]", line_problems(line, surface))


def line_problems(line: ReferenceLine, surface: Surface) -> Iterator[Problem]:
    """Return what is wrong with one reference line on this surface."""
    needs = _NEEDS[line.kind]
    given = [place for place in _PLACES if getattr(line, place) is not None]
    if len(given) != 1 or given[0] not in needs:
        what = f"A line that is “{line.kind.value}” has {' and '.join(given) or 'no place'}."
        yield Problem("", what, f"Give it {' or '.join(needs)}, and nothing else.")
    if line.edge is not None and not 0 <= line.edge < len(surface.outline):
        mend = f"The edges of this outline are 0 to {len(surface.outline) - 1}."
        yield Problem("edge", f"There is no edge {line.edge}.", mend)
    if line.cutout is not None:
        yield from _cutout_problems(line.cutout, surface)
    yield from limits.KEPT_AWAY.problems(line.within, "within")
    yield from _point_problems(line.point, "point")
    for at, end in enumerate(line.line or ()):
        yield from _point_problems(end, f"line[{at}]")
    if line.line is not None and dist(*line.line) < _SHORTEST:
        yield Problem("line", "The two points of the line are the same.", "Give two points apart.")


def _cutout_problems(name: str, surface: Surface) -> Iterator[Problem]:
    names = [cutout.name for cutout in surface.cutouts if cutout.name]
    if name not in names:
        mend = f"Use one of {', '.join(names)}." if names else "Give the cutout a name first."
        yield Problem("cutout", f"There is no cutout “{name}” on this surface.", mend)
    elif names.count(name) > 1:
        yield Problem("cutout", f"Two cutouts are called “{name}”.", "Give each a name of its own.")


def _point_problems(point: Point | None, place: str) -> Iterator[Problem]:
    for axis, value in enumerate(point or ()):
        yield from limits.COORDINATE.problems(value, f"{place}[{axis}]")
