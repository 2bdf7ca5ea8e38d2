"""Which tile of one file is which tile of another, and how what is on hand of the two adds up.

Two tiles are the same if they are called the same and measured the same: not if one was measured again and
came out larger, since pieces sawn from it would not fit.
"""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import asdict, replace

from tilelayout.job.stock import OffcutOnHand
from tilelayout.job.values import Tile

_NOT_MEASURED = frozenset(
    {"id", "name", "per_box", "price_per_box", "whole_on_hand", "lot", "offcuts", "mixed_lots", "spare"}
)
"""What may differ between two tiles that are one: how it is named, bought and stored."""


def is_same_tile(one: Tile, other: Tile) -> bool:
    """Tell whether two tiles are measured the same, and share a name, or the id where one has no name."""
    is_named_so = one.title == other.title or (one.id == other.id and not (one.name and other.name))
    return is_named_so and type(one) is type(other) and _measured(one) == _measured(other)


def same_tile(tile: Tile, among: Iterable[Tile]) -> Tile | None:
    """Return the first of some tiles that is the same as `tile`; None if there is none."""
    return next((each for each in among if is_same_tile(tile, each)), None)


def has_stock(tile: Tile) -> bool:
    """Tell whether anything of the tile is on hand; if nothing is, all of it is bought."""
    return bool(tile.whole_on_hand or tile.offcuts)


def may_be_laid_together(tile: Tile, other: Tile) -> bool:
    """Tell whether what is on hand of `other` may be laid among what there is of `tile`: lots are equal,
    or may be mixed, or nothing is said yet.
    """
    is_open = not tile.lot and not has_stock(tile)
    return is_open or tile.mixed_lots or tile.lot == other.lot


def with_stock_of(tile: Tile, other: Tile) -> Tile:
    """Return `tile` with what is on hand of `other` added to what is on hand of it."""
    changed: Tile = replace(
        tile,
        lot=tile.lot if has_stock(tile) or tile.lot else other.lot,
        whole_on_hand=tile.whole_on_hand + other.whole_on_hand,
        offcuts=counted_together((*tile.offcuts, *other.offcuts)),
    )
    return changed


def counted_together(offcuts: Iterable[OffcutOnHand]) -> tuple[OffcutOnHand, ...]:
    """Return the offcuts with those that are alike counted as one kind, in the order of the first of each."""
    counts: dict[OffcutOnHand, int] = {}
    for each in offcuts:
        alike = replace(each, count=1)
        counts[alike] = counts.get(alike, 0) + each.count
    return tuple(replace(alike, count=count) for alike, count in counts.items())


def _measured(tile: Tile) -> dict[str, object]:
    return {key: value for key, value in asdict(tile).items() if key not in _NOT_MEASURED}
