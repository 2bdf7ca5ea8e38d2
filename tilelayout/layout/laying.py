"""Lays a tile on a surface: the pattern's lattice clipped to the region, and the pieces that this gives.

`Laid` holds the whole tiles as runs and works out what is asked of it: a dragged start needs the cut
pieces and a count, the sheets need every piece. Nothing here looks at a whole tile unless it is asked
for.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tilelayout.geometry.turns import turning
from tilelayout.geometry.widths import narrowest
from tilelayout.job.values import Layout, Surface, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.kernel.arrays import Flags, spread
from tilelayout.layout.kernel.overlap import Overlap, Parts, overlap
from tilelayout.layout.kernel.placed import Placed, placed
from tilelayout.layout.measuring import least_widths
from tilelayout.layout.numbering import Courses, course_of, letters
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.values import Cell, Piece, Points, Region

_WIDEST_SMALL = 50.0
_ID = re.compile(r"([A-Z]+)([1-9][0-9]*)")


@dataclass(frozen=True, eq=False)
class Laid:
    """A laid layout. Lengths in mm, areas in mm2, points in surface coordinates."""

    surface: Surface
    tile: Tile
    layout: Layout
    cell: Cell
    region: Region
    placed: Placed
    overlap: Overlap

    @property
    def placed_vectors(self) -> Points:
        """The two lattice vectors (2, 2), turned by the layout's angle."""
        return self.placed.vectors

    @property
    def placed_faces(self) -> tuple[Points, ...]:
        """The faces (m, 2) of the cell whose origin stands at the layout's start."""
        return tuple(self._corners(face) for face in range(len(self.cell.faces)))

    @property
    def whole_count(self) -> int:
        """How many whole tiles are laid."""
        return self.overlap.whole.count

    @cached_property
    def whole_faces(self) -> tuple[Points, ...]:
        """The whole tiles (n, m, 2), one array for each face of the cell."""
        runs = self.overlap.whole
        owner, step = spread(runs.lengths)
        face, column, row = runs.face[owner], runs.first[owner] + step, runs.row[owner]
        return tuple(
            self._corners(f) + self.placed.shifts(column[face == f], row[face == f])[:, None, :]
            for f in range(len(self.cell.faces))
        )

    @cached_property
    def cut(self) -> tuple[Piece, ...]:
        """The cut pieces, in the order of their ids."""
        courses = self._courses
        return tuple(
            self._cut_piece(id, int(part))
            for id, part in zip(courses.part_ids(), courses.part_order, strict=True)
        )

    @property
    def left_to_joint(self) -> int:
        """How many parts are too narrow to be pieces."""
        return int(self._is_too_narrow.sum())

    @property
    def left_to_joint_area(self) -> float:
        """The area of the parts that are too narrow to be pieces."""
        return float(self.overlap.parts.areas[self._is_too_narrow].sum())

    def pieces(self) -> Iterator[Piece]:
        """Yield every piece, whole and cut, in the order of the ids."""
        for course in range(self._courses.lowest, self._courses.highest + 1):
            yield from self._in_course(course)

    def piece(self, id: str) -> Piece:
        """Return the piece with this id; KeyError if there is none."""
        match = _ID.fullmatch(id)
        if match is None:
            raise KeyError(id)
        course, place = self._courses.lowest + course_of(match[1]), int(match[2])
        found = next((piece for piece in self._in_course(course) if piece.id == id), None) if place else None
        if found is None:
            raise KeyError(id)
        return found

    @cached_property
    def narrowest_cut(self) -> float | None:
        """The narrowest place of all cut pieces; None if nothing is cut. Measures no more than it must."""
        least: float | None = None
        for piece in sorted(self.cut, key=lambda piece: (piece.least_width, not piece.is_least_width_met)):
            if least is None or piece.is_narrower_than(least):
                least = piece.narrowest
        return least

    @cached_property
    def _widths(self) -> tuple[Points, Flags]:
        return least_widths(self.overlap.parts, max(self.layout.least_piece, self._small))

    @property
    def _small(self) -> float:
        """The width that parts are tried for: wider ones are neither slivers nor too narrow to be a piece."""
        return min(self._tile_narrowest / 3, _WIDEST_SMALL)

    @cached_property
    def _is_too_narrow(self) -> Flags:
        return np.asarray(self._widths[0] < self.layout.least_piece)

    @cached_property
    def _laid_parts(self) -> Parts:
        return self.overlap.parts.only(~self._is_too_narrow)

    @cached_property
    def _courses(self) -> Courses:
        return Courses(self.cell, self.placed, self.overlap.whole, self._laid_parts)

    @cached_property
    def _cut_by_part(self) -> dict[int, Piece]:
        return dict(zip(self._courses.part_order.tolist(), self.cut, strict=True))

    @cached_property
    def _tile_narrowest(self) -> float:
        return narrowest(tile_outline(self.tile))

    def _corners(self, face: int) -> Points:
        return self.placed.corners[face, : self.placed.corner_counts[face]]

    def _in_course(self, course: int) -> Iterator[Piece]:
        """Yield the pieces of one course in order."""
        face, column, row, part = self._courses.tiles(course)
        corners = self.placed.outlines(face, column, row)
        name = letters(course - self._courses.lowest)
        for place in range(len(face)):
            if part[place] >= 0:
                yield self._cut_by_part[int(part[place])]
            else:
                outline = corners[place, : self.placed.corner_counts[face[place]]]
                yield self._whole_piece(f"{name}{place + 1}", int(face[place]), outline)

    def _whole_piece(self, id: str, face: int, outline: Points) -> Piece:
        turn, corner = self._tile_place(face, outline)
        area = float(self.placed.areas[face])
        return Piece(id, True, outline, (), outline, turn, corner, area, self._tile_narrowest, True)

    def _cut_piece(self, id: str, part: int) -> Piece:
        parts, face = self._laid_parts, int(self._laid_parts.face[part])
        whole = self._part_faces[part, : self.placed.corner_counts[face]]
        turn, corner = self._tile_place(face, whole)
        width, is_exact = (array[part].item() for array in self._laid_widths)
        area, holes = float(parts.areas[part]), parts.holes.get(part, ())
        return Piece(id, False, parts.outlines[part], holes, whole, turn, corner, area, width, is_exact)

    @cached_property
    def _part_faces(self) -> Points:
        parts = self._laid_parts
        return self.placed.outlines(parts.face, parts.column, parts.row)

    @cached_property
    def _laid_widths(self) -> tuple[Points, Flags]:
        widths, are_exact = self._widths
        return widths[~self._is_too_narrow], are_exact[~self._is_too_narrow]

    def _tile_place(self, face: int, outline: Points) -> tuple[float, tuple[float, float]]:
        """Return the turn of a tile and where its own (0, 0) lies, from where its face lies."""
        turn, reach = self._turn_and_reach[face]
        x, y = (outline[0] + reach).tolist()
        return turn, (x, y)

    @cached_property
    def _turn_and_reach(self) -> tuple[tuple[float, Points], ...]:
        """For each face, its turn on the surface and the way from its first corner to the tile's (0, 0)."""
        angle = self.layout.angle
        return tuple(
            ((face.turn + angle) % 360.0, (np.array(face.corner) - face.outline[0]) @ turning(angle))
            for face in self.cell.faces
        )


def lay(surface: Surface, tile: Tile, layout: Layout, region: Region | None = None) -> Laid:
    """Lay `tile` on `surface` as `layout` says.

    `region` spares working out again what of the surface takes tile. LayoutError if the tile does not
    suit the pattern, JobFileError if the pattern's settings are wrong.
    """
    cell = cell_of(layout, tile)
    region = region or region_of(surface, layout.gap)
    set_down = placed(cell, layout.angle, layout.start)
    return Laid(surface, tile, layout, cell, region, set_down, overlap(region, set_down))
