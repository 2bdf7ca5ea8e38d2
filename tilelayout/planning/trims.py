"""The trims of a surface as they are sawn from their tile: strips, tiles, and why so many."""

from __future__ import annotations

from dataclasses import dataclass

from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.ground import Trim
from tilelayout.job.values import Job, Tile
from tilelayout.layout.trim import Strip, StripsOfATile, strips_of, strips_of_a_tile, tiles_for
from tilelayout.planning.plan import layout_named


@dataclass(frozen=True, eq=False)
class TrimPlan:
    """A trim with the strips it wants, how many one tile gives, and the tiles that takes."""

    trim: Trim
    tile: Tile
    strips: tuple[Strip, ...]
    of_a_tile: StripsOfATile
    tiles: int
    joint: float

    @property
    def length(self) -> float:
        """How long the strips are together, joints not counted."""
        return sum(strip.length for strip in self.strips)

    def words(self, style: LengthStyle) -> str:
        """One line: "base 75 mm high: 23 strips, 6.6 m, from 12 tiles; 2 to a tile, since ..."."""
        number = len(self.strips)
        height, length = format_length(self.trim.height, style), format_length(self.length, style)
        return (
            f"{self.trim.kind} {height} high: {number} strip{'s'[: number != 1]}, {length} in all, from "
            f"{self.tiles} tile{'s'[: self.tiles != 1]} of {self.tile.title}; {self._why()}"
        )

    def _why(self) -> str:
        per_tile = self.of_a_tile
        if not per_tile.wants_factory_edges:
            return f"{per_tile.count} to a tile"
        edge = "edge" if per_tile.count == 1 else "edges"
        return (
            f"{per_tile.count} to a tile, for each shows one of its {per_tile.count} factory {edge}; "
            f"{per_tile.if_all_sawn} if sawn edges may show"
        )


def trims_of(job: Job, layout_id: str) -> tuple[TrimPlan, ...]:
    """Return the trims of a layout's surface, jointed as it is. LayoutError if a tile gives no strip."""
    layout = layout_named(job, layout_id)
    surface, kerf = job.surface(layout.surface), job.saw.kerf
    made = []
    for trim in surface.trims:
        tile = job.tile(trim.tile)
        strips = strips_of(surface, trim, tile, layout.joint)
        per_tile = strips_of_a_tile(tile, trim, kerf)
        tiles = tiles_for(strips, tile, trim, kerf)
        made.append(TrimPlan(trim, tile, strips, per_tile, tiles, layout.joint))
    return tuple(made)
