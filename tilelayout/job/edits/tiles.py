"""Edits of the tiles of a job."""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.base.errors import EditError
from tilelayout.job.checks import id_problems, tile_problems
from tilelayout.job.edits.parts import allowed, changed, with_id, without
from tilelayout.job.values import Job, Tile


def add_tile(job: Job, tile: Tile) -> Job:
    """Return the job with one more tile. EditError if its id is taken or its sizes cannot be."""
    tiles = (*job.tiles, allowed(tile, tile_problems(tile)))
    allowed(tiles, id_problems("tiles", "tile", [tile.id for tile in tiles]))
    return replace(job, tiles=tiles)


def replace_tile(job: Job, id: str, tile: Tile) -> Job:
    """Return the job with `tile`, perhaps of another shape, under the id of an old one."""
    new = tile if tile.id == id else replace(tile, id=id)
    allowed(new, tile_problems(new))
    return replace(job, tiles=changed(job.tiles, id, "tile", lambda _: new))


def remove_tile(job: Job, id: str) -> Job:
    """Return the job without the tile. EditError, naming it, if a layout lays it or a trim is cut from it."""
    tile = with_id(job.tiles, id, "tile")
    users = ", ".join(layout.id for layout in job.layouts if id in layout.tiles)
    if users:
        what = f"The tile “{tile.title}” is still laid by layout {users}."
        raise EditError(what, "Give that layout another tile first, or remove it.")
    for surface in job.surfaces:
        if any(trim.tile == id for trim in surface.trims):
            what = f"The trim of {surface.title} is still cut from the tile “{tile.title}”."
            raise EditError(what, "Give that trim another tile first, or remove it.")
    return replace(job, tiles=without(job.tiles, id, "tile"))
