"""A layout of a job, laid and measured: the one call that window, sheets and command line share.

Each figure is worked out when it is first asked for and then kept, so the board can follow a dragged
start without paying for the cut list. Laying is shared between plans whose surface, tile and layout are
the same objects.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from tilelayout.base.errors import LayoutError
from tilelayout.base.said_lengths import error_in
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import BORDER_ROLE, Job, Layout, Saw, Surface, Tile
from tilelayout.layout.bordered import lay_bordered
from tilelayout.layout.borders import BorderCut, border_cuts
from tilelayout.layout.chips import face_area
from tilelayout.layout.cuts import cuts_of
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.mosaic import LaidMosaic
from tilelayout.layout.region import region_of
from tilelayout.layout.roles import MoreTiles
from tilelayout.layout.slivers import are_slivers, sliver_limit
from tilelayout.layout.values import Cell, Cut, Piece, Points, Region
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.offcuts.sharing import Sharing, share_at_once, share_steps
from tilelayout.offcuts.tile_counts import TileCount, boxes_needed, by_tile
from tilelayout.planning.cut_list import CutRow, rows_of
from tilelayout.planning.kept import Kept
from tilelayout.planning.saw_sizes import saw_style


@dataclass(frozen=True, eq=False)
class Plan:
    """Everything that follows from one layout. Lengths in mm, areas in mm2."""

    surface: Surface
    tile: Tile
    layout: Layout
    style: LengthStyle
    more: MoreTiles = field(default_factory=dict)
    saw: Saw = field(default_factory=Saw)

    @cached_property
    def laid(self) -> Laid:
        """The pieces. LayoutError, in the job's lengths, if the layout cannot be laid."""
        try:
            return _laid.get((self.surface, self.tile, self.layout, *self.more.values()), self._lay)
        except LayoutError as error:
            raise error_in(error, self.style) from None

    def _lay(self) -> Laid:
        if self.layout.border is not None:
            return lay_bordered(self.surface, self.tile, self.layout, self.more[BORDER_ROLE], self.more)
        region = _region(self.surface, self.layout.gap)
        return lay(self.surface, self.tile, self.layout, region, self.more)

    @property
    def region(self) -> Region:
        """The part of the surface that takes tile."""
        return self.laid.region

    @property
    def field_region(self) -> Region:
        """The part of the region that the pattern fills: all of it, but for a border."""
        return self.laid.components[0].region

    @property
    def region_area(self) -> float:
        """Area of the part of the surface that takes tile."""
        return self.region.area

    @cached_property
    def covered_area(self) -> float:
        """Area that the pieces cover, joints not counted."""
        whole = sum(face_area(tile) * count for tile, count in self.laid.whole_tiles.items())
        return whole + float(self.laid.cut_parts.areas.sum())

    @property
    def tiles(self) -> tuple[Tile, ...]:
        """The tiles that are laid: the layout's own first, then those in the roles of its pattern."""
        return self.laid.tiles

    @cached_property
    def by_tile(self) -> tuple[TileCount, ...]:
        """What is needed of each of the tiles."""
        return by_tile(self.tiles, self.laid.whole_tiles, self.sharing)

    @property
    def whole(self) -> int:
        """How many whole tiles are laid."""
        return self.laid.whole_count

    @property
    def cut(self) -> int:
        """How many cut pieces are laid."""
        return len(self.laid.cut_parts)

    @property
    def chips(self) -> Laid | None:
        """The chips of laid mosaic sheets; None if the tile is no mosaic."""
        field = self.laid.components[0]
        return field.chips if isinstance(field, LaidMosaic) else None

    @property
    def joint_cell(self) -> Cell:
        """The cell of the joints that are seen: of mosaic sheets those between their chips."""
        return self.laid.cell if self.chips is None else self.chips.cell

    @property
    def left_to_joint(self) -> int:
        """How many parts are too narrow to be pieces."""
        return self.laid.left_to_joint

    @property
    def bare_patches(self) -> tuple[Points, ...]:
        """Where a tile would have so thin a neck that it is no piece and leaves its place bare."""
        return self.laid.bare_patches

    @cached_property
    def slivers(self) -> tuple[Piece, ...]:
        """The pieces that are too narrow to look well or to hold."""
        return self.laid.cut_pieces(self.are_slivers)

    @cached_property
    def are_slivers(self) -> Flags:
        """Which of the laid `cut_parts` are slivers."""
        return are_slivers(self.laid)

    @cached_property
    def sliver_ids(self) -> frozenset[str]:
        """The ids of the slivers."""
        return frozenset(piece.id for piece in self.slivers)

    @property
    def sliver_limit(self) -> float:
        """The narrowest place that is still no sliver, of the layout's own tile."""
        return sliver_limit(self.tile)

    @cached_property
    def narrowest(self) -> float | None:
        """The narrowest place of all pieces; None if there is no piece."""
        if self.cut:
            return self.laid.narrowest_cut
        whole = self.laid.whole_tiles.items()
        return min((tile_width(tile) for tile, count in whole if count), default=None)

    @cached_property
    def cuts_by_piece(self) -> dict[str, tuple[Cut, ...]]:
        """The cuts that make each cut piece, by its id."""
        return {piece.id: cuts_of(piece, self.laid) for piece in self.laid.cut}

    @cached_property
    def cut_rows(self) -> tuple[CutRow, ...]:
        """The cut list: one row for each distinct cut piece, in the order of the saw."""
        return rows_of(self.laid, self.cuts_by_piece, self.sliver_ids, saw_style(self.style))

    @cached_property
    def borders(self) -> tuple[BorderCut, ...]:
        """The border cut at each straight edge of the outline."""
        return border_cuts(self.laid.components[0])

    @cached_property
    def sharing(self) -> Sharing:
        """Which piece is sawn from which tile, with the proof. It may take a second: not for a drag."""
        return list(self.sharing_steps())[-1]

    @property
    def sharing_so_far(self) -> Sharing:
        """The sharing if it is known, else a plan that takes no searching and may need a tile more."""
        return self.__dict__.get("sharing") or self._shared_at_once

    @property
    def is_shared(self) -> bool:
        """Whether `sharing`, and all that follows from it, is known already."""
        return "sharing" in self.__dict__

    @property
    def boxes_so_far(self) -> int | None:
        """How many boxes hold the tiles of `sharing_so_far`."""
        return boxes_needed(by_tile(self.tiles, self.laid.whole_tiles, self.sharing_so_far))

    @cached_property
    def _shared_at_once(self) -> Sharing:
        return share_at_once(*self._to_share)

    def sharing_steps(self) -> Iterator[Sharing]:
        """Yield ever better plans of the tiles; the last is `sharing`, and is kept once it is found."""
        if self.is_shared:
            yield self.sharing
            return
        for found in share_steps(*self._to_share):
            yield found
        self.__dict__["sharing"] = found

    @property
    def _to_share(self) -> tuple[dict[str, tuple[Piece, ...]], dict[Tile, int], Saw]:
        return {self.layout.id: self.laid.cut}, dict(self.laid.whole_tiles), self.saw

    @property
    def cut_from(self) -> tuple[OpenedTile, ...]:
        """Which tile each cut piece is sawn from."""
        return self.sharing.opened

    @property
    def tiles_needed(self) -> int:
        """How many tiles are opened, whole or to be cut."""
        return self.sharing.tiles_needed

    @property
    def boxes_needed(self) -> int | None:
        """How many boxes hold the tiles that are opened; None if it is not known how many are in one."""
        return boxes_needed(self.by_tile)

    @property
    def tiles_needed_at_least(self) -> int:
        """A number of tiles that no plan can go below."""
        return self.sharing.tiles_needed_at_least


def plan(job: Job, layout_id: str) -> Plan:
    """Return the plan of one layout. LayoutError, naming those there are, if the job has no such layout."""
    layout = layout_named(job, layout_id)
    surface, tile = job.surface(layout.surface), job.tile(layout.tile)
    more = job.more_tiles(layout)
    parts = (surface, tile, layout, job.show_lengths, job.saw, *more.values())
    return _plans.get(parts, lambda: Plan(surface, tile, layout, job.show_lengths, more, job.saw))


def layout_named(job: Job, layout_id: str) -> Layout:
    """Return the layout with this id. LayoutError, naming those there are, if there is none."""
    for layout in job.layouts:
        if layout.id == layout_id:
            return layout
    if not job.layouts:
        raise LayoutError("The job has no layout.", "Add one: a tile, a surface and a pattern.")
    there_are = ", ".join(f'"{layout.id}"' for layout in job.layouts)
    raise LayoutError(f'The job has no layout "{layout_id}".', f"Name one that is there: {there_are}.")


def _region(surface: Surface, gap: float) -> Region:
    return _regions.get((surface,), lambda: region_of(surface, gap), gap)


_plans: Kept[Plan] = Kept(64)
_laid: Kept[Laid] = Kept(32)
_regions: Kept[Region] = Kept(16)
