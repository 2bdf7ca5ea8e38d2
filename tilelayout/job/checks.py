"""What makes a job one that cannot be, said with its place: the checks behind reading and every edit.

Only the first problem is to be believed, since a check presumes that the ones before it found nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from itertools import islice

from tilelayout.job import limits
from tilelayout.job.cut_checks import cut_made_problems
from tilelayout.job.limits import Problem, inside
from tilelayout.job.line_checks import lines_problems
from tilelayout.job.practice_checks import breakage_problems
from tilelayout.job.stock_checks import stock_problems
from tilelayout.job.surface_checks import surface_problems
from tilelayout.job.survey_checks import survey_problems
from tilelayout.job.tile_checks import shape_problems, use_problems
from tilelayout.job.values import Border, Job, Layout, Surface, Tile

_MOST_NAMES = 8
"""So many ids are named in an error; more would not be read."""


def job_problems(job: Job) -> Iterator[Problem]:
    """Return what is wrong with the job, with places as in its file ("surfaces[0].outline[2]")."""
    yield from limits.KERF.problems(job.saw.kerf, "saw.kerf")
    yield from limits.LEAST_OFFCUT.problems(job.saw.least_offcut, "saw.least_offcut")
    yield from inside("breakage", breakage_problems(job.breakage))
    yield from id_problems("surfaces", "surface", [surface.id for surface in job.surfaces])
    yield from id_problems("tiles", "tile", [tile.id for tile in job.tiles])
    yield from id_problems("layouts", "layout", [layout.id for layout in job.layouts])
    for index, surface in enumerate(job.surfaces):
        yield from inside(f"surfaces[{index}]", surface_problems(surface))
    for index, tile in enumerate(job.tiles):
        yield from inside(f"tiles[{index}]", tile_problems(tile))
    known = known_ids(job)
    for index, surface in enumerate(job.surfaces):
        yield from inside(f"surfaces[{index}]", tile_of_trim_problems(surface, known))
    for index, layout in enumerate(job.layouts):
        yield from inside(f"layouts[{index}]", layout_problems(layout, known))
        if layout.lines:
            yield from inside(f"layouts[{index}]", lines_problems(layout.lines, job.surface(layout.surface)))
    for index, survey in enumerate(job.surveys):
        unknown = _name_problems("surface", survey.surface, known.surfaces)
        yield from inside(f"surveys[{index}]", unknown)
        yield from inside(f"surveys[{index}]", survey_problems(survey))
    for index, cut in enumerate(job.cuts_made):
        yield from inside(f"cuts_made[{index}]", cut_made_problems(cut))


@dataclass(frozen=True)
class KnownIds:
    """The ids that a layout or a survey may name."""

    surfaces: Collection[str]
    tiles: Collection[str]


def known_ids(job: Job) -> KnownIds:
    """Return the ids of the job's surfaces and tiles, in order."""
    surfaces = dict.fromkeys(surface.id for surface in job.surfaces)
    return KnownIds(surfaces, dict.fromkeys(tile.id for tile in job.tiles))


def id_problems(place: str, kind: str, ids: list[str]) -> Iterator[Problem]:
    """Return the ids that are empty or used twice; `kind` is what bears them ("tile")."""
    first: dict[str, int] = {}
    for index, id in enumerate(ids):
        if not id.strip():
            yield Problem(f"{place}[{index}].id", "The id is empty.", "Give it a short name.")
        if first.setdefault(id, index) != index:
            what = f"The id “{id}” is used by {kind} {first[id]} and {kind} {index}."
            yield Problem(f"{place}[{index}].id", what, "Give one of them another id.")


def tile_problems(tile: Tile) -> Iterator[Problem]:
    """Return what is wrong with the sizes and counts of a tile."""
    yield from shape_problems(tile)
    yield from limits.TILE_THICKNESS.problems(tile.thickness, "thickness")
    yield from limits.PER_BOX.problems(tile.per_box, "per_box")
    yield from limits.PRICE_PER_BOX.problems(tile.price_per_box, "price_per_box")
    yield from limits.WHOLE_ON_HAND.problems(tile.whole_on_hand, "whole_on_hand")
    yield from use_problems(tile)
    yield from stock_problems(tile)


def layout_problems(layout: Layout, known: KnownIds) -> Iterator[Problem]:
    """Return what is wrong with a layout: what it names must be known, its sizes within limits."""
    yield from _name_problems("surface", layout.surface, known.surfaces)
    yield from _name_problems("tile", layout.tile, known.tiles)
    for role, tile in layout.more_tiles.items():
        for problem in _name_problems("tile", tile, known.tiles):
            yield replace(problem, place=f"more_tiles.{role}")
    yield from limits.JOINT.problems(layout.joint, "joint")
    yield from limits.ANGLE.problems(layout.angle, "angle")
    yield from limits.GAP.problems(layout.gap, "gap")
    yield from limits.LEAST_PIECE.problems(layout.least_piece, "least_piece")
    for axis, value in enumerate(layout.start):
        yield from limits.COORDINATE.problems(value, f"start[{axis}]")
    if layout.border is not None:
        yield from inside("border", _border_problems(layout.border, known))


def _border_problems(border: Border, known: KnownIds) -> Iterator[Problem]:
    yield from _name_problems("tile", border.tile, known.tiles)
    yield from limits.BORDER_ROWS.problems(border.rows, "rows")
    yield from limits.JOINT.problems(border.joint, "joint")
    yield from limits.INSET.problems(border.inset, "inset")


def tile_of_trim_problems(surface: Surface, known: KnownIds) -> Iterator[Problem]:
    """Return the trims of a surface whose tile the job does not have."""
    for index, trim in enumerate(surface.trims):
        yield from inside(f"trims[{index}]", _name_problems("tile", trim.tile, known.tiles))


def _name_problems(kind: str, id: str, known: Collection[str]) -> Iterator[Problem]:
    if id not in known:
        names = ", ".join(islice(known, _MOST_NAMES))
        mend = f"Use one of {names}, or add it." if names else f"Add the {kind} to the job."
        yield Problem(kind, f"There is no {kind} “{id}” in the job.", mend)
