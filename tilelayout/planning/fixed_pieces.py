"""What no start changes of a layout: the pieces of its border. A search for a start knows the field alone."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from msgspec.structs import replace

from tilelayout.job.values import Job, Layout
from tilelayout.layout.slivers import are_slivers
from tilelayout.planning.plan import plan


@dataclass(frozen=True)
class FixedPieces:
    """The narrowest cut of the border in mm, infinite if there is none, and how many slivers are in it."""

    narrowest: float = math.inf
    slivers: int = 0


NONE_FIXED = FixedPieces()


def fixed_pieces(job: Job, layout: Layout) -> FixedPieces:
    """Return what the border of a layout has, wherever its field starts. LayoutError if it cannot be laid."""
    if layout.border is None:
        return NONE_FIXED
    strips = plan(replace(job, layouts=(layout,)), layout.id).laid.components[1:]
    widths = (strip.narrowest_cut for strip in strips)
    narrowest = min((width for width in widths if width is not None), default=math.inf)
    return FixedPieces(narrowest, sum(int(np.count_nonzero(are_slivers(strip))) for strip in strips))
