"""A layout of a job, laid and measured: the one call that window, sheets and command line share.

Each figure is worked out when it is first asked for and then kept, so the board can follow a dragged
start without paying for the cut list. Laying is shared between plans whose surface, tile and layout are
the same objects.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from tilelayout.base.errors import LayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.geometry.rings import area
from tilelayout.job.values import Job, Layout, Surface, Tile
from tilelayout.layout.borders import BorderCut, border_cuts
from tilelayout.layout.cuts import cuts_of
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.kernel.arrays import Flags
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.region import region_of
from tilelayout.layout.slivers import are_slivers, sliver_limit
from tilelayout.layout.values import Cut, Piece, Points, Region
from tilelayout.offcuts import one_each
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

    @cached_property
    def laid(self) -> Laid:
        """The pieces. LayoutError if the layout cannot be laid."""
        return _laid.get((self.surface, self.tile, self.layout), self._lay)

    def _lay(self) -> Laid:
        return lay(self.surface, self.tile, self.layout, _region(self.surface, self.layout.gap))

    @property
    def region(self) -> Region:
        """The part of the surface that takes tile."""
        return self.laid.region

    @property
    def region_area(self) -> float:
        """Area of the part of the surface that takes tile."""
        return self.region.area

    @cached_property
    def covered_area(self) -> float:
        """Area that the pieces cover, joints not counted."""
        return self.whole * area(tile_outline(self.tile)) + float(self.laid.cut_parts.areas.sum())

    @property
    def whole(self) -> int:
        """How many whole tiles are laid."""
        return self.laid.whole_count

    @property
    def cut(self) -> int:
        """How many cut pieces are laid."""
        return len(self.laid.cut_parts)

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
        """The narrowest place that is still no sliver."""
        return sliver_limit(self.tile)

    @cached_property
    def narrowest(self) -> float | None:
        """The narrowest place of all pieces; None if there is no piece."""
        if self.cut:
            return self.laid.narrowest_cut
        return next((piece.narrowest for piece in self.laid.pieces()), None)

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
        return border_cuts(self.laid)

    @cached_property
    def cut_from(self) -> tuple[one_each.OpenedTile, ...]:
        """Which tile each cut piece is sawn from."""
        return one_each.cut_from(self.laid)

    @property
    def tiles_needed(self) -> int:
        """How many tiles are opened, whole or to be cut."""
        return one_each.tiles_needed(self.laid)

    @property
    def boxes_needed(self) -> int | None:
        """How many boxes hold the tiles that are opened; None if it is not known how many are in one."""
        return one_each.boxes_needed(self.laid)

    @property
    def tiles_needed_at_least(self) -> int:
        """A number of tiles that no plan can go below."""
        return one_each.tiles_needed_at_least(self.laid)


def plan(job: Job, layout_id: str) -> Plan:
    """Return the plan of one layout. LayoutError, naming those there are, if the job has no such layout."""
    layout = layout_named(job, layout_id)
    surface, tile = job.surface(layout.surface), job.tile(layout.tile)
    parts = (surface, tile, layout, job.show_lengths)
    return _plans.get(parts, lambda: Plan(surface, tile, layout, job.show_lengths))


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
