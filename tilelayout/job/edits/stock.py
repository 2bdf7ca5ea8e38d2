"""Edits of what is on hand: the offcuts of a tile, and taking over what an earlier job left."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tilelayout.job.edits.ids import free_id
from tilelayout.job.edits.parts import left_out, put, with_id
from tilelayout.job.edits.tiles import add_tile, replace_tile
from tilelayout.job.same_tile import may_be_laid_together, same_tile, with_stock_of
from tilelayout.job.stock import OffcutOnHand
from tilelayout.job.values import Job, Tile


def add_offcut(job: Job, tile_id: str, offcut: OffcutOnHand) -> Job:
    """Return the job with one more kind of offcut on hand. EditError if it cannot be."""
    tile = with_id(job.tiles, tile_id, "tile")
    return _with_offcuts(job, tile, (*tile.offcuts, offcut))


def replace_offcut(job: Job, tile_id: str, at: int, offcut: OffcutOnHand) -> Job:
    """Return the job with another offcut at place `at` of those of a tile. EditError if it cannot be."""
    tile = with_id(job.tiles, tile_id, "tile")
    return _with_offcuts(job, tile, put(tile.offcuts, at, offcut, "offcut"))


def remove_offcut(job: Job, tile_id: str, at: int) -> Job:
    """Return the job without the offcut at place `at` of those of a tile."""
    tile = with_id(job.tiles, tile_id, "tile")
    return _with_offcuts(job, tile, left_out(tile.offcuts, at, "offcut"))


def take_stock(job: Job, tiles: Iterable[Tile]) -> Job:
    """Return the job with the stock of `tiles`: added to that of the same tile if the job has it.

    A tile that the job does not have, or has in another lot that may not be mixed, is added as one more.
    """
    for tile in tiles:
        own = _taking(tile, job.tiles)
        if own is None:
            job = add_tile(job, _of_its_own(tile, job.tiles))
        else:
            job = replace_tile(job, own.id, with_stock_of(own, tile))
    return job


def use_stock(job: Job, tiles: Iterable[Tile]) -> Job:
    """Return the job with the stock of those of `tiles` that it has already, and nothing of the others."""
    return take_stock(job, (tile for tile in tiles if _taking(tile, job.tiles) is not None))


def _taking(tile: Tile, among: Iterable[Tile]) -> Tile | None:
    return same_tile(tile, (each for each in among if may_be_laid_together(each, tile)))


def _of_its_own(tile: Tile, others: tuple[Tile, ...]) -> Tile:
    """Return the tile under a free id; the lot goes to the name if another tile is called the same."""
    is_called_so = any(each.title == tile.title for each in others)
    name = f"{tile.title}, lot {tile.lot}" if is_called_so and tile.lot else tile.name
    id = free_id((each.id for each in others), tile.id)
    renamed: Tile = replace(tile, id=id, name=name or (tile.title if id != tile.id else ""))
    return renamed


def _with_offcuts(job: Job, tile: Tile, offcuts: tuple[OffcutOnHand, ...]) -> Job:
    return replace_tile(job, tile.id, replace(tile, offcuts=offcuts))
