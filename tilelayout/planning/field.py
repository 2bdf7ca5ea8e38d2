"""The part of a surface that a layout's pattern fills, for a search that lays it at many starts."""

from __future__ import annotations

from tilelayout.job.values import BORDER_ROLE, Job, Layout
from tilelayout.layout.bordered import field_of
from tilelayout.layout.region import region_of
from tilelayout.layout.values import Region


def field_region(job: Job, layout: Layout) -> Region:
    """Return what gap, cutouts and border leave to the pattern. LayoutError if that is nothing."""
    surface = job.surface(layout.surface)
    if layout.border is None:
        return region_of(surface, layout.gap)
    return field_of(surface, layout, job.more_tiles(layout)[BORDER_ROLE])
