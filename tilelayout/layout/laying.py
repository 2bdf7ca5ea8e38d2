"""Lays a tile on a surface: the one call for every shape, of mosaic sheets with their chips."""

from __future__ import annotations

from tilelayout.job.values import Layout, MosaicSheet, Surface, Tile
from tilelayout.layout.kernel.overlap import overlap
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.laid import Laid as Laid  # noqa: PLC0414  (part of what this module offers)
from tilelayout.layout.mosaic import with_chips
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.roles import NO_MORE, MoreTiles
from tilelayout.layout.values import Region


def lay(
    surface: Surface, tile: Tile, layout: Layout, region: Region | None = None, more: MoreTiles = NO_MORE
) -> Laid:
    """Lay `tile` on `surface` as `layout` says, and `more` in the roles that its pattern has beside it.

    `region` spares working out again what of the surface takes tile. LayoutError if a tile does not
    suit the pattern, JobFileError if the pattern's settings are wrong.
    """
    cell = cell_of(layout, tile, more)
    region = region or region_of(surface, layout.gap)
    set_down = placed(cell, layout.angle, layout.start)
    laid = Laid(surface, tile, layout, cell, region, set_down, overlap(region, set_down), more)
    return with_chips(laid, tile) if isinstance(tile, MosaicSheet) else laid
