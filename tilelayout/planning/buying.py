"""The buying list of a layout, or of the whole job: line by line, with what sharing the tiles saves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilelayout.base.counts import so_many
from tilelayout.job.values import Job, Tile
from tilelayout.materials.tiles import TilesToBuy
from tilelayout.offcuts.sharing import Sharing
from tilelayout.planning.job_plan import job_plan
from tilelayout.planning.plan import plan
from tilelayout.planning.to_buy import BuyingLine, buying_lines, to_buy


@dataclass(frozen=True, eq=False)
class BuyingList:
    """What to buy for `what` ("layout A on Floor"), tile by tile, and how the tiles are shared."""

    what: str
    tiles: tuple[tuple[Tile, TilesToBuy], ...]
    sharing: Sharing

    def lines(self) -> Iterator[tuple[Tile, tuple[BuyingLine, ...]]]:
        """Yield each tile with its lines."""
        return ((tile, buying_lines(bought)) for tile, bought in self.tiles)

    @property
    def cost(self) -> float | None:
        """What all boxes cost, in the currency of the job; None if of a tile box or price are not known."""
        costs = [
            None if tile.price_per_box is None else bought.cost(tile.price_per_box)
            for tile, bought in self.tiles
        ]
        return None if None in costs or not costs else sum(cost for cost in costs if cost is not None)

    @property
    def sharing_words(self) -> str:
        """A sentence: "180 tiles are opened with offcuts shared, 182 without; no plan takes fewer."."""
        sharing = self.sharing
        needed = so_many(sharing.tiles_needed, "tile is", "tiles are")
        least = f"no plan can do with fewer than {sharing.tiles_needed_at_least}"
        proof = "no plan takes fewer" if sharing.is_fewest else least
        if not sharing.is_saving:
            return f"{needed} opened; {proof}."
        return f"{needed} opened with offcuts shared, {sharing.without_sharing} without; {proof}."


def buying_of_layout(job: Job, layout_id: str) -> Iterator[BuyingList | None]:
    """Yield None while the tiles are being shared, which may take seconds, then the list of one layout."""
    made = plan(job, layout_id)
    yield from (None for _ in made.sharing_steps())
    yield BuyingList(f"layout {layout_id} on {made.surface.title}", to_buy(job, made), made.sharing)


def buying_of_job(job: Job) -> Iterator[BuyingList | None]:
    """Yield None while the tiles are being shared, then the list of the whole job."""
    whole = job_plan(job)
    yield from (None for _ in whole.sharing_steps())
    yield BuyingList(f"the whole job: {whole.what}", whole.to_buy, whole.sharing)
