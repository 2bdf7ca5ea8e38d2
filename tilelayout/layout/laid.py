"""A laid layout: the pattern's lattice clipped to the region, and the pieces that this gives.

`Laid` holds the whole tiles as runs and works out what is asked of it: a dragged start needs the cut
pieces and a count, the sheets need every piece. Nothing here looks at a whole tile unless it is asked
for.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from tilelayout.geometry.turns import turning
from tilelayout.job.values import Layout, Surface, Tile
from tilelayout.layout.faces import tile_width
from tilelayout.layout.kernel.arrays import Flags, Whole, spread
from tilelayout.layout.kernel.overlap import Overlap, Parts
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.measuring import least_widths
from tilelayout.layout.numbering import Courses, course_of, letters
from tilelayout.layout.roles import MoreTiles
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
    more: MoreTiles = field(default_factory=dict)

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """The tiles that are laid, as the job has them: the layout's own first, then those in its roles."""
        laid = {face.tile.id for face in self.cell.faces}
        by_id = {tile.id: tile for tile in (self.tile, *self.more.values())}
        return tuple(tile for id, tile in by_id.items() if id in laid)

    @property
    def components(self) -> tuple[Laid, ...]:
        """What one lattice lays in one region: this alone, or a field and the strips of a border."""
        return (self,)

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
    def whole_tiles(self) -> Counter[Tile]:
        """How many whole tiles are laid of each tile, the two hands of one apart."""
        found: Counter[Tile] = Counter()
        for face, count in zip(self.cell.faces, self.whole_by_face.tolist(), strict=True):
            found[face.tile] += count
        return found

    @cached_property
    def whole_by_face(self) -> Whole:
        """How many whole tiles are laid on each face of the cell (f,)."""
        runs = self.overlap.whole
        return np.array([runs.lengths[runs.face == face].sum() for face in range(len(self.cell.faces))])

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
        return self.cut_pieces(np.ones(len(self.cut_parts), dtype=bool))

    @cached_property
    def cut_parts(self) -> Parts:
        """The cut pieces as arrays, in no order that means anything."""
        return self.overlap.parts.only(~self._is_too_narrow)

    @cached_property
    def cut_widths(self) -> tuple[Points, Flags]:
        """What no place of each of `cut_parts` is narrower than, and whether it is its narrowest place."""
        widths, are_exact = self._widths
        return widths[~self._is_too_narrow], are_exact[~self._is_too_narrow]

    @property
    def part_order(self) -> Whole:
        """The numbers of the `cut_parts` in the order of the pieces' ids."""
        return self._courses.part_order

    def cut_pieces(self, chosen: Flags) -> tuple[Piece, ...]:
        """Return those cut pieces that are chosen among `cut_parts`, in the order of their ids."""
        order = self._courses.part_order
        return tuple(self.cut_piece(part) for part in order[chosen[order]].tolist())

    def cut_piece(self, part: int) -> Piece:
        """Return the cut piece that is number `part` of `cut_parts`."""
        made = self._cut_by_part
        return made.get(part) or made.setdefault(part, self._made_cut_piece(part))

    @property
    def left_to_joint(self) -> int:
        """How many parts are too narrow to be pieces."""
        return int(self._is_too_narrow.sum())

    @property
    def left_to_joint_area(self) -> float:
        """The area of the parts that are too narrow to be pieces."""
        return float(self.overlap.parts.areas[self._is_too_narrow].sum())

    @cached_property
    def bare_patches(self) -> tuple[Points, ...]:
        """The outlines of parts that are too narrow at one place only, and so leave their whole place bare.

        A strip under `least_piece` disappears in a joint or the gap. A tile with a thin neck, beside a drain
        say, is no piece either; what it leaves is no joint. A strip covers less than its half perimeter
        times `least_piece`, whatever its form.
        """
        lost = self.overlap.parts.only(self._is_too_narrow)
        is_bare = lost.areas > self.layout.least_piece * lost.outlines.perimeters() / 2
        return tuple(lost.outlines[int(k)] for k in np.flatnonzero(is_bare))

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
        if not len(self.cut_parts):
            return None
        widths, are_exact = self.cut_widths
        least = float(widths[are_exact].min(initial=np.inf))
        maybe_less = np.flatnonzero(~are_exact & (widths < least))
        for part in maybe_less[np.argsort(widths[maybe_less])].tolist():
            if self.cut_piece(part).is_narrower_than(least):
                least = self.cut_piece(part).narrowest
        return least

    @cached_property
    def _widths(self) -> tuple[Points, Flags]:
        return least_widths(self.overlap.parts, max(self.layout.least_piece, self._small))

    @property
    def _small(self) -> float:
        """The width that parts are tried for: wider ones are neither slivers nor too narrow to be a piece."""
        return min(max(tile_width(face.tile) for face in self.cell.faces) / 3, _WIDEST_SMALL)

    @cached_property
    def _is_too_narrow(self) -> Flags:
        return np.asarray(self._widths[0] < self.layout.least_piece)

    @cached_property
    def _courses(self) -> Courses:
        return Courses(self.cell, self.placed, self.overlap.whole, self.cut_parts)

    @cached_property
    def _cut_by_part(self) -> dict[int, Piece]:
        """The cut pieces asked for so far: a floor may have thousands, of which a drag needs none."""
        return {}

    @cached_property
    def _id_by_part(self) -> dict[int, str]:
        return dict(zip(self._courses.part_order.tolist(), self._courses.part_ids(), strict=True))

    def _corners(self, face: int) -> Points:
        return self.placed.corners[face, : self.placed.corner_counts[face]]

    def _in_course(self, course: int) -> Iterator[Piece]:
        """Yield the pieces of one course in order."""
        face, column, row, part = self._courses.tiles(course)
        corners = self.placed.outlines(face, column, row)
        name = letters(course - self._courses.lowest)
        for place in range(len(face)):
            if part[place] >= 0:
                yield self.cut_piece(int(part[place]))
            else:
                outline = corners[place, : self.placed.corner_counts[face[place]]]
                yield self._whole_piece(f"{name}{place + 1}", int(face[place]), outline)

    def _whole_piece(self, id: str, face: int, outline: Points) -> Piece:
        turn, corner = self._tile_place(face, outline)
        area = float(self.placed.areas[face])
        tile = self.cell.faces[face].tile
        return Piece(id, True, outline, (), outline, turn, corner, tile, area, tile_width(tile), True)

    def _made_cut_piece(self, part: int) -> Piece:
        id, parts, face = self._id_by_part[part], self.cut_parts, int(self.cut_parts.face[part])
        whole = self._part_faces[part, : self.placed.corner_counts[face]]
        turn, corner = self._tile_place(face, whole)
        width, is_exact = (array[part].item() for array in self.cut_widths)
        area, holes = float(parts.areas[part]), parts.holes.get(part, ())
        outline, tile = parts.outlines[part], self.cell.faces[face].tile
        return Piece(id, False, outline, holes, whole, turn, corner, tile, area, width, is_exact)

    @cached_property
    def _part_faces(self) -> Points:
        parts = self.cut_parts
        return self.placed.outlines(parts.face, parts.column, parts.row)

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
