"""What to buy of each tile of a plan: counted from what is laid, each allowance a line of its own."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

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
    """One line: what, how many, and why."""

    name: str
    count: int
    why: str = ""


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
        allowance(counted(kinds), breakage),
        spare=count.tile.spare,
        other_hand=0 if count.hands is None else 2 * max(count.hands) - sum(count.hands),
        on_hand=count.tile.whole_on_hand,
        per_box=count.tile.per_box,
    )


def buying_lines(bought: TilesToBuy) -> tuple[BuyingLine, ...]:
    """Return the lines that add up to what there must be, and what is bought for it."""
    lines = [
        BuyingLine("laid whole", bought.whole),
        BuyingLine("opened to cut", bought.opened, f"for {_counted(bought.cut, 'piece', 'pieces')}"),
        BuyingLine("breakage", bought.breakage.tiles, _breakage_words(bought.breakage)),
        BuyingLine("spare", bought.spare, "for repairs, of the same lot and calibre"),
    ]
    if bought.other_hand:
        lines.append(
            BuyingLine("other hand", bought.other_hand, "come along: as many left as right in a box")
        )
    if bought.on_hand:
        lines.append(BuyingLine("on hand", bought.on_hand, "if lot and calibre are the same"))
    lines.append(BuyingLine("tiles to buy", bought.to_buy))
    if bought.boxes is not None and bought.boxes_to_return is not None:
        returned = _counted(bought.boxes_to_return, "box", "boxes")
        left = _counted(bought.left, "tile", "tiles")
        why = f"of {bought.per_box}, one lot and calibre; {left} left; {returned} to return if nothing breaks"
        lines.append(BuyingLine("boxes", bought.boxes, why))
    return tuple(lines)


def _breakage_words(breakage: BreakageAllowance) -> str:
    if breakage.is_set:
        return "as set"
    words = ", ".join(_share_words(share) for share in breakage.shares if share.one_in)
    expected = sum(share.expected for share in breakage.shares)
    return f"{words}: {expected:.1f}" if words else ""


def _share_words(share: BreakageShare) -> str:
    return f"1 in {share.one_in} of {_counted(share.count, *WORDS[share.kind])}"


def _counted(number: int, one: str, several: str) -> str:
    return f"{number} {one if number == 1 else several}"
