"""The layout a search goes out from: one that the job has for the surface and tile, else a plain one."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tilelayout.base.errors import LayoutError
from tilelayout.base.units import INCH
from tilelayout.job.values import Job, Layout, Tile
from tilelayout.layout import patterns

_PLAIN = "rows"


def basis_of(job: Job, surface_id: str, tile_id: str | None = None) -> Layout:
    """Return the layout that says pattern, joint, gap and angle. Its start is of no account.

    A layout of the surface with the tile comes first, then one of the surface whose pattern takes the tile,
    then a plain layout. LayoutError naming what there is, if the job has no such surface or tile.
    """
    _check_surface(job, surface_id)
    of_surface = [layout for layout in job.layouts if layout.surface == surface_id]
    if tile_id is None and of_surface:
        return of_surface[0]
    tile = _tile(job, tile_id)
    for layout in of_surface:
        if layout.tile == tile.id:
            return layout
    for layout in of_surface:
        if _takes(layout.pattern, tile):
            return replace(layout, tile=tile.id)
    return _plain(job, surface_id, tile)


def _plain(job: Job, surface_id: str, tile: Tile) -> Layout:
    """A plain layout, with joint and gap of the job's last layout or else of usual sizes."""
    name = _PLAIN if _takes(_PLAIN, tile) else next(name for name in patterns.names() if _takes(name, tile))
    plain = Layout(id="A", surface=surface_id, tile=tile.id, pattern=name)
    if job.layouts:
        return replace(plain, joint=job.layouts[-1].joint, gap=job.layouts[-1].gap)
    if not job.show_lengths.is_metric:
        return replace(plain, joint=float(INCH / 8), gap=float(INCH / 4))
    return plain


def _takes(name: str, tile: Tile) -> bool:
    return patterns.shape_of(tile) in patterns.pattern(name).SHAPES


def _check_surface(job: Job, surface_id: str) -> None:
    if all(surface.id != surface_id for surface in job.surfaces):
        what = f'The job has no surface "{surface_id}".' if job.surfaces else "The job has no surface."
        raise LayoutError(what, _there_are(surface.id for surface in job.surfaces))


def _tile(job: Job, tile_id: str | None) -> Tile:
    if tile_id is None and len(job.tiles) == 1:
        return job.tiles[0]
    for tile in job.tiles:
        if tile.id == tile_id:
            return tile
    if tile_id is None and job.tiles:
        raise LayoutError(
            "No tile is named, and the surface has no layout.", _there_are(t.id for t in job.tiles)
        )
    what = f'The job has no tile "{tile_id}".' if job.tiles else "The job has no tile."
    raise LayoutError(what, _there_are(tile.id for tile in job.tiles))


def _there_are(ids: Iterable[str]) -> str:
    named = ", ".join(f'"{id}"' for id in ids)
    return f"Name one that is there: {named}." if named else "Add one in the window first."
