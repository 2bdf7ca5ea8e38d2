"""Any tile on any surveyed surface, before it is laid out: does it fit, fit after preparation, or not?

A tile fits where every limit of the job's practice is kept and a plain grid of it, laid dry, lies well or
can be set in the bed that the mortar takes. Else the surface is prepared for it in the way the job asks, and
the grid is laid on that. Tiles for which the limits are the same share one preparation.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

import numpy as np
import shapely

from tilelayout.flatness.mesh import Numbers, SurveyError
from tilelayout.flatness.plate_joints import joints_between, steps_at
from tilelayout.flatness.plates import Shapes, bearings
from tilelayout.flatness.resting_plates import rested
from tilelayout.flatness.verdicts import Verdict
from tilelayout.geometry.often_asked import OftenAsked
from tilelayout.job.preparation import Preparation, PreparationWay
from tilelayout.job.values import Job, Layout, MosaicSheet, Tile
from tilelayout.layout.chips import hard_outline
from tilelayout.planning.plates_laid import bow_of
from tilelayout.planning.preparing import Prepared, prepared
from tilelayout.planning.sitting import FACING
from tilelayout.planning.surface import Flatness, flatness
from tilelayout.planning.worries import SHOWN, Allowed, allowed
from tilelayout.practice.case import Case

_LEAST_LAID = 0.25
"""Of a grid at the rim, pieces of so large a share of a tile and more are looked at."""


class Fits(StrEnum):
    """How a tile and a surface go together."""

    FITS = "fits"
    PREPARED = "fits after preparation"
    DOES_NOT = "does not fit"
    UNKNOWN = "cannot be judged"


@dataclass(frozen=True)
class Grid:
    """A plain grid of a tile laid dry: how many pieces, how many of them rock or step too much, the most.

    `is_hollow` claims that the mortar does not take the bed that some of them need to be full.
    """

    count: int
    out: int
    rock: float
    step: float
    is_hollow: bool


@dataclass(frozen=True, eq=False)
class TileOnSurface:
    """A tile tried on survey `at` of the job. `why` says in a sentence what decided it.

    `made` is what the surface needs for it, None where it needs nothing or cannot be made flat; `grid` lies
    on the surface as it then is, None where it was not laid.
    """

    at: int
    one: Flatness
    tile: Tile
    fits: Fits
    why: str = ""
    made: Prepared | None = None
    grid: Grid | None = None


def tiles_on_surfaces(job: Job) -> tuple[TileOnSurface, ...]:
    """Return every tile of the job on every surveyed surface. SurveyError if readings lie outside theirs."""
    found: tuple[TileOnSurface, ...] = ()
    for found in tiles_on_surfaces_steps(job):  # noqa: B007  (the last is what counts)
        pass
    return found


def tiles_on_surfaces_steps(job: Job) -> Iterator[tuple[TileOnSurface, ...]]:
    """Yield all that is known so far, surface by surface in the order of the job's tiles at last."""
    found: list[TileOnSurface] = []
    order = {tile.id: k for k, tile in enumerate(job.tiles)}
    for at in range(len(job.surveys)):
        for tiles in _alike(flatness(job, at), job.tiles):
            found += _tried(job, at, tiles)
            found.sort(key=lambda each: (each.at, order[each.tile.id]))
            yield tuple(found)


def _alike(one: Flatness, tiles: tuple[Tile, ...]) -> Iterator[tuple[Tile, ...]]:
    """Yield the tiles in groups for which the same limits hold."""

    def figures(tile: Tile) -> list[tuple[float, float]]:
        return [(limit.over, limit.limit) for limit in one.limits(tile)]

    for _, group in groupby(sorted(tiles, key=figures), key=figures):
        yield tuple(group)


def _tried(job: Job, at: int, tiles: tuple[Tile, ...]) -> Iterator[TileOnSurface]:
    one = _judged_for(flatness(job, at), tiles)
    if one.surveyed.mesh is None:
        for tile in tiles:
            yield TileOnSurface(at, one, tile, *_on_lines(one, tile))
        return
    made, trouble = _made(one)
    for tile in tiles:
        verdicts = [each for each in one.verdicts if each.tile == tile.id]
        if any(each.ok is False for each in verdicts):
            yield _once_prepared(job, at, one, tile, made, trouble)
        else:
            yield _as_it_is(job, at, one, tile, verdicts)


def _judged_for(known: Flatness, tiles: tuple[Tile, ...]) -> Flatness:
    """The survey judged for tiles with the same limits: as it is, if they are those it is judged for."""
    is_known = all(tile in known.tiles for tile in tiles)
    same = bool(known.tiles) and known.limits(known.tiles[0]) == known.limits(tiles[0])
    if is_known and same:
        return known
    return Flatness(known.surface, known.survey, tiles, known.practice)


def _on_lines(one: Flatness, tile: Tile) -> tuple[Fits, str]:
    """Of a survey that is only lines no more is known than that it fails, or not even that."""
    failed = any(each.ok is False for each in one.verdicts if each.tile == tile.id)
    why = "Only lines are known: read heights over the whole surface."
    return Fits.UNKNOWN, f"It is not flat enough as it is. {why}" if failed else why


def _made(one: Flatness) -> tuple[Prepared | None, str]:
    """The surface prepared in the way the job asks; nothing, and why, if that cannot be done."""
    if all(each.ok is not False for each in one.verdicts):
        return None, ""
    try:
        return prepared(one, one.survey.preparation or Preparation()), ""
    except SurveyError as error:
        return None, str(error)


def _as_it_is(job: Job, at: int, one: Flatness, tile: Tile, verdicts: list[Verdict]) -> TileOnSurface:
    grid = grid_on(job, one, tile, one.surveyed.heights)
    open_ones = [each.why_in(job.show_lengths) for each in verdicts if each.ok is None]
    if grid.is_hollow:
        why = "It is flat enough by the limits, but the tile lies hollow by more than the mortar takes."
        return TileOnSurface(at, one, tile, Fits.DOES_NOT, why, grid=grid)
    if open_ones:
        return TileOnSurface(at, one, tile, Fits.UNKNOWN, open_ones[0], grid=grid)
    return TileOnSurface(at, one, tile, Fits.FITS, grid_words(grid), grid=grid)


def _once_prepared(
    job: Job, at: int, one: Flatness, tile: Tile, made: Prepared | None, trouble: str
) -> TileOnSurface:
    if made is None:
        return TileOnSurface(at, one, tile, Fits.DOES_NOT, trouble or "Nothing brings it within the limits.")
    grid = grid_on(job, one, tile, made.heights_after)
    why = _product_cannot(made) or _still_hollow(grid)
    if why:
        return TileOnSurface(at, one, tile, Fits.DOES_NOT, why, made, grid)
    return TileOnSurface(at, one, tile, Fits.PREPARED, grid_words(grid), made, grid)


def _product_cannot(made: Prepared) -> str:
    """Why the job's product cannot make this fill; "" if it can. What is deeper than a pour takes several."""
    thinnest = made.asked.thinnest
    runs_out = thinnest is not None and made.fill.thinnest < thinnest - 1e-6
    if runs_out and made.asked.way is not PreparationWay.GRIND_AND_FILL:
        return "The fill runs out thinner than this product can be laid: take a patch, or fill to one level."
    return ""


def _still_hollow(grid: Grid) -> str:
    return "Even then the tile lies hollow by more than the mortar takes." if grid.is_hollow else ""


def grid_words(grid: Grid) -> str:
    """Return how a plain grid lies: "" if every piece lies well."""
    if not grid.out:
        return ""
    return f"{grid.out} of {grid.count} in a plain grid rock or step too much laid dry: set them in the bed."


def grid_on(job: Job, one: Flatness, tile: Tile, heights: Numbers) -> Grid:
    """Lay a plain grid of a tile on a surface of `heights` (v,) and see how it lies."""
    mesh = one.surveyed.mesh
    assert mesh is not None
    layout = _plain(job, one, tile)
    may = allowed(Case(job, one.surface, tile, layout))
    shapes = _grid(one, tile, layout)
    on = bearings(mesh, heights, shapes) if len(shapes) else None
    if on is None or not len(on.kept):
        return Grid(0, 0, 0.0, 0.0, False)
    rest = rested(on)
    joints = joints_between(shapes[on.kept], layout.joint + FACING)
    steps = steps_at(joints, rest, np.full(len(on.kept), bow_of(tile)))
    worst = rest.rocks.copy()
    for side in (0, 1):
        np.maximum.at(worst, joints.pairs[:, side], steps.worst)
    out = int((worst > may.step.value + SHOWN).sum())
    hollow = float(rest.hollows.max())
    step = float(steps.worst.max(initial=0.0))
    return Grid(len(on.kept), out, float(rest.rocks.max()), step, _is_hollow(hollow, may, job))


def _is_hollow(hollow: float, may: Allowed, job: Job) -> bool:
    least, most = (figure.in_style(job.show_lengths) for figure in (may.least_bed, may.most_bed))
    return least + hollow > most + SHOWN


def _plain(job: Job, one: Flatness, tile: Tile) -> Layout:
    """A layout that says joint and gap: of this tile if it is laid anywhere, else of the last one laid."""
    like = [each for each in job.layouts if each.tile == tile.id] or list(job.layouts)
    joint = tile.chip_joint if isinstance(tile, MosaicSheet) else like[-1].joint if like else None
    plain = Layout(id="", surface=one.surface.id, tile=tile.id)
    return plain if joint is None else Layout(id="", surface=one.surface.id, tile=tile.id, joint=joint)


def _grid(one: Flatness, tile: Tile, layout: Layout) -> Shapes:
    """The outline side by side and row over row from the lower left, cut to the surface."""
    outline = hard_outline(tile)
    outline = outline - outline.min(axis=0)
    pitch = outline.max(axis=0) + layout.joint
    ground = one.surveyed.ground
    left, bottom, right, top = shapely.bounds(ground).tolist()
    across, up = np.meshgrid(np.arange(left, right, pitch[0]), np.arange(bottom, top, pitch[1]))
    corners = np.column_stack([across.ravel(), up.ravel()])
    faces = shapely.polygons(outline[None, :, :] + corners[:, None, :])
    cut = np.where(OftenAsked(ground).covers(faces), faces, shapely.intersection(faces, ground))
    parts = shapely.get_parts(cut)
    is_piece = shapely.get_type_id(parts) == shapely.GeometryType.POLYGON
    large = shapely.area(parts) >= _LEAST_LAID * shapely.Polygon(outline).area
    return np.asarray(parts[is_piece & large])
