"""What laying works with and what it returns.

A pattern is a `Cell`: a few tile faces repeated along two lattice vectors. Laying is the lattice clipped
to a `Region`, and gives (in `laying`) a `Laid` of whole faces and cut pieces. Arrays of points are (n, 2)
floats in mm, rings do not repeat their first point, outer rings turn counter-clockwise.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import EdgeRole, Tile, Visibility

Points = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Face:
    """One tile face of a pattern's cell.

    `outline` (n, 2) stands in the pattern's own coordinates. A point p of the tile (lower left corner of
    its bounding box at (0, 0), length along x, face up) lies at rotate(p, `turn` degrees) + `corner`.
    `tile` is the tile laid there: the layout's own, or its mirror image where a pattern takes both hands.
    `course` tells the courses of one cell apart, counted from 0 upwards: see `Cell`.
    """

    outline: Points
    turn: float
    corner: tuple[float, float]
    tile: Tile
    course: int = 0


@dataclass(frozen=True, eq=False)
class Cell:
    """A pattern: `faces` repeated by every whole-number sum of the two rows of `vectors` (2, 2).

    The first vector runs along a course of tiles, the second leads to the same course of the next cell,
    on the left of the first. Pieces are lettered by course and numbered along it.
    """

    vectors: Points
    faces: tuple[Face, ...]
    joint: float

    @property
    def courses(self) -> int:
        """How many courses one cell holds."""
        return 1 + max(face.course for face in self.faces)


@dataclass(frozen=True)
class BorderEdge:
    """A stretch of the region's boundary: where it comes from, and its circle if it is curved.

    `source` is "edge 3" or "drain"; a piece cut along it is described by these.
    """

    source: str
    role: EdgeRole
    seen: Visibility
    centre: tuple[float, float] | None = None
    radius: float | None = None


@dataclass(frozen=True, eq=False)
class Region:
    """The part of a surface that takes tile: outline less gap less grown cutouts, arcs as chords.

    `rings` are the boundary rings ((n, 2), outer counter-clockwise, holes clockwise) and
    `borders[r][i]` says what the edge from corner i of ring r is. The region may fall into several parts.
    `within` are the regions that a border of tiles divides it into: pieces are cut along their edges too.
    """

    shape: shapely.Polygon | shapely.MultiPolygon
    rings: tuple[Points, ...]
    borders: tuple[tuple[BorderEdge, ...], ...]
    within: tuple[Region, ...] = ()

    @property
    def area(self) -> float:
        """Area in mm2."""
        return float(self.shape.area)


class CutKind(StrEnum):
    """The trade's names for cuts; `KNIFE` parts a sheet along the zigzag between its chips."""

    KNIFE = "knife line"
    RIP = "rip"
    CROSS = "cross cut"
    CORNER = "corner cut"
    NOTCH = "notch"
    SLOT = "slot"
    OBLIQUE = "oblique cut"
    HOLE = "hole"
    CURVE = "curve"


@dataclass(frozen=True)
class Cut:
    """One cut that helps to make a piece.

    `sizes` are the lengths to set, measured from factory edges, in the order a person needs them: for a rip
    or cross cut the width kept; for an oblique cut the two distances along the factory edges it meets;
    for a corner cut the two legs; for a notch or slot its width, depth and (slot) distance from the
    corner; for a hole or curve the centre from the tile's left and lower edge, then the diameter or radius
    (for a hole that is not round its width and height). A knife line has none.
    `line` (n, 2) is where the blade runs, in tile coordinates; `border` is the border it fits. A straight cut
    that `stops` does not go right across: the blade must not run past the ends of its line.
    """

    kind: CutKind
    sizes: tuple[float, ...]
    line: Points
    border: str
    stops: bool = False


@dataclass(frozen=True, eq=False)
class Piece:
    """One connected part of (face and region).

    `id` is the row's letters and the place in the row, "C4", and stays while the layout is unchanged.
    `outline` and `holes` are in surface coordinates, `face` is the whole `tile` there. `turn` and `corner`
    lead from tile coordinates to the surface as in `Face`. No place is narrower than `least_width`, which is
    the narrowest place itself if `is_least_width_met`.
    """

    id: str
    whole: bool
    outline: Points
    holes: tuple[Points, ...]
    face: Points
    turn: float
    corner: tuple[float, float]
    tile: Tile
    area: float
    least_width: float = 0.0
    is_least_width_met: bool = False

    @cached_property
    def narrowest(self) -> float:
        """The narrowest place, in mm. Measured when first asked for: some shapes take a millisecond."""
        if self.is_least_width_met:
            return self.least_width
        return max(self.least_width, narrowest(self.outline, self.holes))

    def is_narrower_than(self, width: float) -> bool:
        """Tell whether any place is narrower than `width`; quicker than measuring the narrowest."""
        return self.least_width < width and self.narrowest < width

    @property
    def sawn_from(self) -> tuple[Points, ...]:
        """The rings (n, 2), in surface coordinates, on whose sides no side of the piece is sawn."""
        return (self.face,)

    def in_tile(self, points: Points) -> Points:
        """Return surface points (n, 2) in the coordinates of the tile this piece is cut from."""
        return np.asarray((points - np.array(self.corner)) @ turning(-self.turn))
