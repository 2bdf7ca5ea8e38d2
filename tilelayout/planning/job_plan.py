"""The whole job as one stock of tiles: what one surface leaves may be laid on the next, or sawn into trim.

Of each surface the first layout is taken, the one to be laid, with the trims of the surface. All their pieces
are shared together with the offcuts on hand, with the same rules and the same proof as for one layout.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from tilelayout.base.counts import so_many
from tilelayout.job.values import Job, Layout, Tile
from tilelayout.layout.trim_pieces import strip_pieces
from tilelayout.layout.values import Piece
from tilelayout.materials.breakage import Delicacy
from tilelayout.materials.tiles import TilesToBuy
from tilelayout.offcuts.sharing import Sharing, share_steps
from tilelayout.offcuts.tile_counts import TileCount, boxes_needed, by_tile
from tilelayout.planning.kept import Kept
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.shortage import Shortage, shortages_of
from tilelayout.planning.to_buy import bought_of, delicacies
from tilelayout.planning.trims import trims_of


@dataclass(frozen=True, eq=False)
class JobPlan:
    """The plans of the layouts to be laid, and the tiles that they and the trims take together."""

    job: Job
    plans: tuple[Plan, ...]

    @cached_property
    def strips(self) -> dict[str, tuple[Piece, ...]]:
        """The strips of trim by the layout of their surface. LayoutError if a tile gives no strip."""
        return {made.layout.id: self._strips_of(made) for made in self.plans}

    def _strips_of(self, made: Plan) -> tuple[Piece, ...]:
        trims = trims_of(self.job, made.layout.id)
        kinds = [trim.trim.kind for trim in trims]
        names = [
            f"{kind} {kinds[:at].count(kind) + 1}." if kinds.count(kind) > 1 else kind.value
            for at, kind in enumerate(kinds)
        ]
        return tuple(
            piece
            for trim, name in zip(trims, names, strict=True)
            for piece in strip_pieces(trim.strips, trim.tile, name)
        )

    @property
    def strip_count(self) -> int:
        """How many strips of trim there are."""
        return sum(len(strips) for strips in self.strips.values())

    @cached_property
    def whole(self) -> Counter[Tile]:
        """How many of each tile are laid whole."""
        return sum((Counter(made.laid.whole_tiles) for made in self.plans), Counter())

    @cached_property
    def sharing(self) -> Sharing:
        """Which piece is sawn from which tile, over all surfaces, with the proof. It may take seconds."""
        return list(self.sharing_steps())[-1]

    def sharing_steps(self) -> Iterator[Sharing]:
        """Yield ever better plans of the tiles; the last is `sharing`, and is kept once it is found."""
        if "sharing" in self.__dict__:
            yield self.sharing
            return
        pieces = {made.layout.id: (*made.laid.cut, *self.strips[made.layout.id]) for made in self.plans}
        for found in share_steps(pieces, self.whole, self.job.saw):
            yield found
        self.__dict__["sharing"] = found

    @cached_property
    def by_tile(self) -> tuple[TileCount, ...]:
        """What is needed of each of the tiles, in the order of the job."""
        laid = {tile.id for made in self.plans for tile in made.tiles}
        laid |= {piece.tile.id for strips in self.strips.values() for piece in strips}
        tiles = [tile for tile in self.job.tiles if tile.id in laid]
        return by_tile(tiles, self.whole, self.sharing)

    @property
    def tiles_needed(self) -> int:
        """How many tiles are opened, whole or to be sawn."""
        return self.sharing.tiles_needed

    @property
    def tiles_needed_at_least(self) -> int:
        """A number of tiles that no plan of the whole job can go below."""
        return self.sharing.tiles_needed_at_least

    @cached_property
    def apart(self) -> int:
        """How many tiles there would be with every layout and every trim by itself."""
        trims = sum(trim.tiles for made in self.plans for trim in trims_of(self.job, made.layout.id))
        return sum(made.tiles_needed for made in self.plans) + trims

    @property
    def boxes_needed(self) -> int | None:
        """How many boxes hold the tiles that are opened; None if it is not known how many are in one."""
        return boxes_needed(self.by_tile)

    @cached_property
    def shortages(self) -> tuple[Shortage, ...]:
        """What is missing of each tile of which something is on hand."""
        return shortages_of(self.by_tile, self.sharing)

    @cached_property
    def to_buy(self) -> tuple[tuple[Tile, TilesToBuy], ...]:
        """What to have and to buy of each tile; a strip of trim is a straight cut."""
        return tuple(
            (count.tile, bought_of(count, self._delicacies(count.tile), self.job.breakage))
            for count in self.by_tile
        )

    def _delicacies(self, tile: Tile) -> list[Delicacy]:
        strips = sum(piece.tile.id == tile.id for pieces in self.strips.values() for piece in pieces)
        return [
            *(each for made in self.plans for each in delicacies(made, tile)),
            *[Delicacy.STRAIGHT] * strips,
        ]

    @property
    def words(self) -> str:
        """One sentence without a full stop: "120 tiles for 2 surfaces, the fewest possible; each ..."."""
        proof = (
            "the fewest possible" if self.sharing.is_fewest else f"no fewer than {self.tiles_needed_at_least}"
        )
        saved = f"; each surface by itself would take {self.apart}" if self.apart > self.tiles_needed else ""
        return f"{so_many(self.tiles_needed, 'tile')} for {self.what}, {proof}{saved}"

    @property
    def what(self) -> str:
        """What is laid: "2 surfaces and 5 strips of trim"."""
        trim = f" and {so_many(self.strip_count, 'strip')} of trim" if self.strip_count else ""
        return f"{so_many(len(self.plans), 'surface')}{trim}"


def layouts_to_lay(job: Job) -> tuple[Layout, ...]:
    """Return the first layout of each surface, in the order of the surfaces."""
    first = {layout.surface: layout for layout in reversed(job.layouts)}
    return tuple(first[surface.id] for surface in job.surfaces if surface.id in first)


def job_plan(job: Job) -> JobPlan:
    """Return the plan of the whole job; nothing is laid before it is asked for.

    It is kept for as long as what is laid stays: ticking off a cut or another title costs nothing.
    """
    parts = (*job.surfaces, *job.tiles, *job.layouts, job.saw, job.breakage, job.show_lengths)
    return _kept.get(parts, lambda: JobPlan(job, tuple(plan(job, each.id) for each in layouts_to_lay(job))))


_kept: Kept[JobPlan] = Kept(4)
