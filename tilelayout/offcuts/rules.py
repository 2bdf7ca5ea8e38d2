"""What may be done to share a tile between pieces, and the tile in which it is done.

The fixed rule: a side of a piece that lies on the side of its face keeps a factory edge, nothing is mirrored,
and a blade's width is lost between two pieces. All that follows depends on the tile's outline and on by how
much it may be turned.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from tilelayout.geometry.rings import counter_clockwise, following, is_convex, signed_area
from tilelayout.geometry.turns import turning
from tilelayout.job.values import Point, RectangleTile, RoundMosaicTile, Saw, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.tile_turns import middle_of, tile_turns
from tilelayout.layout.values import Points

_DEPTH_OF_ARC = 0.07
"""A sixth of a circle stands out of its chord by less than so much of the diameter."""


@dataclass(frozen=True)
class Blank:
    """A tile to be sawn, or an offcut of one that is on hand; angles in degrees, counter-clockwise.

    `part` are the corners of the offcut in the coordinates of its tile; none if the tile is whole. A place in
    it is a place in the tile that lies within the part, so the rule of factory edges is the same.
    """

    tile: Tile
    saw: Saw
    part: tuple[Point, ...] = ()

    @cached_property
    def outline(self) -> Points:
        """The tile's outline (n, 2)."""
        return tile_outline(self.tile)

    @cached_property
    def shape(self) -> shapely.Polygon:
        """What is sawn, as a polygon."""
        return shapely.Polygon(self._ring)

    @cached_property
    def plain_outline(self) -> Points:
        """The outline with straight sides in place of the arcs round the chips of a sheet.

        What is left over is measured on it: it has a tenth of the corners and no side is off by more than
        an arc is deep.
        """
        if not isinstance(self.tile, RoundMosaicTile):
            return self.outline
        plain = shapely.Polygon(self.outline).simplify(_DEPTH_OF_ARC * self.tile.diameter)
        return np.asarray(shapely.get_coordinates(plain)[:-1])

    @property
    def plain_shape(self) -> shapely.Polygon:
        """The same of what is sawn, as a polygon."""
        return self.shape if self.part else shapely.Polygon(self.plain_outline)

    @property
    def _ring(self) -> Points:
        return counter_clockwise(np.array(self.part, dtype=float)) if self.part else self.outline

    @cached_property
    def hull(self) -> Points:
        """The smallest convex outline (n, 2) that holds what is sawn."""
        return hull_of(self._ring)

    @cached_property
    def is_convex(self) -> bool:
        """Whether what is sawn bends inwards nowhere."""
        return is_convex(self._ring)

    @cached_property
    def middle(self) -> Points:
        """The point (2,) about which the tile is turned."""
        return middle_of(self.outline)

    @cached_property
    def own_turns(self) -> tuple[int, ...]:
        """The turns that bring what is sawn onto itself; of an offcut none is looked for."""
        return (0,) if self.part else tile_turns(self.tile)

    @cached_property
    def turns(self) -> tuple[int, ...]:
        """The turns that a piece may have in the tile.

        A dressed edge need be no factory edge, so a rectangle then gives pieces along and across.
        """
        is_turned = self.saw.dressed and isinstance(self.tile, RectangleTile) and not self.tile.directional
        return (0, 90, 180, 270) if is_turned else tile_turns(self.tile)

    @cached_property
    def first_turns(self) -> tuple[int, ...]:
        """Those turns of which every other is made by turning the tile onto itself."""
        step = 360 // len(self.own_turns)
        return tuple(degrees for degrees in self.turns if degrees < step)

    def turned(self, points: Points, degrees: float) -> Points:
        """Return points of the tile turned about its middle."""
        return np.asarray((points - self.middle) @ turning(degrees) + self.middle)

    @cached_property
    def room(self) -> float:
        """The area that pieces and blade have to share: see `with_kerf`."""
        return with_kerf(self.hull, self.saw.kerf)


def with_kerf(hull: Points, kerf: float) -> float:
    """Return the area of a convex outline (n, 2) grown by half a kerf all round (J. Steiner's formula).

    Pieces a kerf apart and so grown do not overlap and lie in the tile so grown: their sum is no larger. In
    one direction this is the law of the saw, that the sum of (width + kerf) is at most the stock + kerf.
    """
    sides = following(hull) - hull
    around = float(np.hypot(sides[:, 0], sides[:, 1]).sum())
    return signed_area(hull) + around * kerf / 2 + float(np.pi) * kerf**2 / 4


def hull_of(ring: Points) -> Points:
    """Return the corners (n, 2) of the smallest convex outline that holds a ring, counter-clockwise."""
    hull = shapely.convex_hull(shapely.Polygon(ring))
    return counter_clockwise(shapely.get_coordinates(hull)[:-1])
