"""What the board shows of how tiles lie: all of them finely, those to worry about with what is wrong."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.base.heights import format_height
from tilelayout.flatness.plates import Shapes
from tilelayout.flatness.values import Spot
from tilelayout.geometry.rings import Points
from tilelayout.planning.sitting import Sitting
from tilelayout.planning.sitting_words import worry_words
from tilelayout.planning.worries import Trouble, Worry

Rings = tuple[Points, ...]


@dataclass(frozen=True, eq=False)
class Marked:
    """A tile to worry about: its rings, what to write on it and to say of it, the high spot if it rocks."""

    id: str
    rings: Rings
    words: str
    sentence: str
    needs_filler: bool
    high_spot: Spot | None


@dataclass(frozen=True, eq=False)
class SitSight:
    """All plates as `rings`, those not wholly on the readings as `unread`, the marked ones, the chosen id."""

    rings: Rings
    unread: Rings
    marked: tuple[Marked, ...]
    chosen: str = ""

    def at(self, place: Spot) -> Marked | None:
        """Return the marked tile at a place of the surface, if there is one."""
        point = shapely.Point(place)
        return next((each for each in self.marked if shapely.Polygon(each.rings[0]).covers(point)), None)


def sit_sight_of(found: Sitting, chosen: str) -> SitSight:
    """Return what to show of a layout on its surface."""
    shapes = found.plates.shapes
    unread = [shape for shape, is_read in zip(shapes, found.on.is_read, strict=True) if not is_read]
    marked = tuple(_marked(found, worry) for worry in found.worries)
    return SitSight(_rings(shapes), _rings(unread), marked, chosen)


def _marked(found: Sitting, worry: Worry) -> Marked:
    style = found.plan.style
    return Marked(
        id=worry.id,
        rings=_rings([found.plates.shapes[worry.plate]]),
        words=f"{worry.troubles[0]} {format_height(worry.amount, style)}",
        sentence=worry_words(worry, style),
        needs_filler=worry.needs_filler,
        high_spot=worry.rocks_on if Trouble.ROCKS in worry.troubles else None,
    )


def _rings(shapes: Sequence[shapely.Geometry] | Shapes) -> Rings:
    rings = shapely.get_rings(np.asarray(shapes, dtype=object))
    return tuple(shapely.get_coordinates(ring)[:-1] for ring in rings)
