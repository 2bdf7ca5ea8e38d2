"""What is left once the whole job is laid: whole tiles and offcuts that the next job may use.

It is counted as the buying list counts: whole boxes are bought, as many tiles break as is allowed for, and
the spare ones are put by for repairs and are not in it. Offcuts on hand that were not needed are still there.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from tilelayout.job.edits.ids import free_id
from tilelayout.job.same_tile import counted_together, has_stock, is_same_tile
from tilelayout.job.stock import OffcutOnHand
from tilelayout.job.stock_files import Stock
from tilelayout.job.values import Job, Point, Tile
from tilelayout.layout.faces import hand_of
from tilelayout.offcuts.kept import worth_keeping
from tilelayout.offcuts.on_hand import part_of
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.planning.job_plan import JobPlan


def what_is_left(whole_job: JobPlan) -> Stock:
    """Return of each tile of the job what is left; tiles of which nothing is are not in it.

    The whole job is shared for it, which may take seconds. LayoutError if a layout cannot be laid. Of a tile
    that comes in both hands the offcuts of the left one are told, since only these can be said.
    """
    job, opened = whole_job.job, whole_job.sharing.opened
    bought = {tile.id: count for tile, count in whole_job.to_buy}
    left = []
    for tile in job.tiles:
        whole = bought[tile.id].left if tile.id in bought else tile.whole_on_hand
        own = [each for each in opened if each.tile.id == tile.id and hand_of(each.tile, tile) != "right"]
        offcuts = counted_together(_offcuts_left(tile, own))
        changed: Tile = replace(tile, whole_on_hand=whole, offcuts=offcuts, spare=None)
        left.append(changed)
    return Stock(title=job.title, tiles=tuple(filter(has_stock, left)))


def with_the_rest(left: Stock, job: Job, before: Stock) -> Stock:
    """Return what a job leaves together with what a stock held before of tiles that the job does not have.

    So nothing is lost when it is written over an older stock of which the job took only some.
    """
    tiles = list(left.tiles)
    for tile in before.tiles:
        if not any(is_same_tile(tile, own) and tile.lot == own.lot for own in job.tiles):
            tiles.append(replace(tile, id=free_id([each.id for each in tiles], tile.id), name=tile.title))
    return replace(left, tiles=tuple(tiles))


def _offcuts_left(tile: Tile, own: Iterable[OpenedTile]) -> Iterator[OffcutOnHand]:
    """Yield what was on hand and is not used, and what sawing leaves, each with its lot."""
    sawn: dict[tuple[Point, ...], list[OpenedTile]] = defaultdict(list)
    for each in own:
        sawn[each.blank.part].append(each)
    for offcut in tile.offcuts:
        there = sawn[part_of(tile, offcut)] if offcut in tile.offcuts_to_use else []
        used, there[:] = there[: offcut.count], there[offcut.count :]
        if len(used) < offcut.count:
            yield replace(offcut, count=offcut.count - len(used))
        yield from _kept_of(used, offcut.lot)
    yield from _kept_of(sawn[()], tile.lot)


def _kept_of(sawn: Iterable[OpenedTile], lot: str) -> Iterator[OffcutOnHand]:
    return (replace(offcut, lot=lot) for each in sawn for offcut in worth_keeping(each))
