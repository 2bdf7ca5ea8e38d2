"""What to buy of each tile of a plan: counted from what is laid, each allowance a line of its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tilelayout.base.counts import so_many
from tilelayout.job.ground import Breakage
from tilelayout.job.values import Job, Tile
from tilelayout.materials.breakage import (
    WORDS,
    BreakageAllowance,
    BreakageShare,
    Delicacy,
    allowance,
    counted,
    delicacy_of,
)
from tilelayout.materials.tiles import TilesToBuy, tiles_to_buy
from tilelayout.offcuts.tile_counts import TileCount
from tilelayout.planning.plan import Plan


@dataclass(frozen=True)
class BuyingLine:
    """One line: what, how many, and why. `is_sum` claims that the lines above add up to it."""

    name: str
    count: int
    why: str = ""
    is_sum: bool = False


def to_buy(job: Job, plan: Plan) -> tuple[tuple[Tile, TilesToBuy], ...]:
    """Return what to have and to buy of each tile of a plan, the layout's own first."""
    return tuple(
        (count.tile, bought_of(count, delicacies(plan, count.tile), job.breakage)) for count in plan.by_tile
    )


def delicacies(plan: Plan, tile: Tile) -> list[Delicacy]:
    """Return of each cut piece of a tile what makes it likely to break."""
    return [
        delicacy_of((cut.kind for cut in plan.cuts_by_piece[piece.id]), piece.id in plan.sliver_ids)
        for piece in plan.laid.cut
        if piece.tile.id == tile.id
    ]


def bought_of(count: TileCount, kinds: Iterable[Delicacy], breakage: Breakage | None) -> TilesToBuy:
    """Return what to have and to buy of a tile, for cut pieces of these kinds."""
    return tiles_to_buy(
        (count.whole, count.cut, count.needed - count.whole),
        allowance(counted(kinds), breakage, count.needed),
        spare=count.tile.spare,
        other_hand=0 if count.hands is None else 2 * max(count.hands) - sum(count.hands),
        on_hand=count.tile.whole_on_hand,
        per_box=count.tile.per_box,
    )


def buying_lines(bought: TilesToBuy) -> tuple[BuyingLine, ...]:
    """Return the lines that add up to what there must be, then what is on hand, bought and given back."""
    return (*_needed_lines(bought), *_bought_lines(bought))


def _needed_lines(bought: TilesToBuy) -> Iterator[BuyingLine]:
    yield BuyingLine("laid whole", bought.whole)
    yield BuyingLine("opened to cut", bought.opened, f"for {so_many(bought.cut, 'piece')}")
    yield BuyingLine("breakage", bought.breakage.tiles, _breakage_words(bought.breakage, bought))
    yield BuyingLine("spare", bought.spare, "for repairs, of the same lot and calibre")
    if bought.other_hand:
        yield BuyingLine("other hand", bought.other_hand, "come along: as many left as right in a box")


def _bought_lines(bought: TilesToBuy) -> Iterator[BuyingLine]:
    if bought.on_hand:
        yield BuyingLine("tiles to have", bought.needed, is_sum=True)
        yield BuyingLine("on hand", bought.on_hand, "if lot and calibre are the same")
    yield BuyingLine("tiles to buy", bought.to_buy, is_sum=True)
    if bought.boxes is not None and bought.boxes_to_return is not None:
        yield BuyingLine("boxes", bought.boxes, f"of {bought.per_box}, all of one lot and calibre")
        yield BuyingLine("left over", bought.left, "if as many break as is allowed for")
        if bought.boxes_to_return:
            yield BuyingLine("to return", bought.boxes_to_return, "unopened boxes, if nothing breaks")


def _breakage_words(breakage: BreakageAllowance, bought: TilesToBuy) -> str:
    if breakage.percent is not None:
        return f"{breakage.percent:g} % of {so_many(bought.whole + bought.opened, 'tile')}, as set"
    if breakage.is_set:
        return "as set"
    words = ", ".join(_share_words(share) for share in breakage.shares if share.one_in)
    expected = sum(share.expected for share in breakage.shares)
    return f"{words}: {expected:.1f}" if words else ""


def _share_words(share: BreakageShare) -> str:
    return f"1 in {share.one_in} of {so_many(share.count, *WORDS[share.kind])}"
