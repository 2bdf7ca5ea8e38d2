"""A layout with a border: the field and every strip of the border, each laid by itself and shown as one.

A strip is laid like any room, in straight rows along its edge, so whole and cut tiles, narrowest places and
what is left to the joint come out of it as they do elsewhere. `Bordered` answers as a `Laid` does, for all of
them together. The border does not move with the start of the field, so a dragged start lays only the field.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, reduce

import numpy as np
from msgspec import structs

from tilelayout.base.errors import LayoutError
from tilelayout.job.values import Border, Layout, RectangleTile, Surface, Tile
from tilelayout.layout.frame import Frame, Measures, frame_of
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.kernel.overlap import Parts, both
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.region import region_of
from tilelayout.layout.roles import NO_MORE, MoreTiles
from tilelayout.layout.values import Piece, Points, Region

LETTER = "b"
"""The pieces of a border are b1, b2, ... round the room; those of the field have capital letters."""


@dataclass(frozen=True, eq=False)
class LaidBorder:
    """The strips of a border, laid, in their order round the room."""

    tile: RectangleTile
    strips: tuple[Laid, ...]

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """Every piece, whole and cut, in the order of the ids."""
        every = (piece for strip in self.strips for piece in strip.pieces())
        return tuple(replace(piece, id=f"{LETTER}{at}") for at, piece in enumerate(every, start=1))

    @cached_property
    def by_id(self) -> dict[str, Piece]:
        """Every piece by its id."""
        return {piece.id: piece for piece in self.pieces}

    @cached_property
    def whole(self) -> tuple[Piece, ...]:
        """The whole tiles."""
        return tuple(piece for piece in self.pieces if piece.whole)

    @cached_property
    def whole_faces(self) -> Points:
        """The whole tiles (n, 4, 2)."""
        return np.array([piece.outline for piece in self.whole]).reshape(-1, 4, 2)

    @cached_property
    def parts(self) -> Parts:
        """The cut parts of all strips."""
        return reduce(both, (strip.cut_parts for strip in self.strips))

    @cached_property
    def widths(self) -> tuple[Points, Flags]:
        """What no place of each of `parts` is narrower than, and whether it is its narrowest place."""
        widths, are_exact = zip(*(strip.cut_widths for strip in self.strips), strict=True)
        return np.concatenate(widths), np.concatenate(are_exact)

    @cached_property
    def part_order(self) -> Whole:
        """The numbers of the cut parts, counted through the strips, in the order of the pieces' ids."""
        firsts = np.cumsum([0, *(len(strip.cut_parts) for strip in self.strips)])
        own = [
            first + at
            for first, strip in zip(firsts.tolist(), self.strips, strict=False)
            for at in strip.part_order.tolist()
        ]
        return np.array(own, dtype=np.int64)

    @cached_property
    def cut_by_part(self) -> dict[int, Piece]:
        """The cut pieces by the number of their part."""
        cut = (piece for piece in self.pieces if not piece.whole)
        return dict(zip(self.part_order.tolist(), cut, strict=True))


@dataclass(frozen=True, eq=False, kw_only=True)
class Bordered(Laid):
    """A laid layout with a border. Its pattern (`cell`, `placed`, `overlap`) is that of the field alone."""

    inner: Laid
    border: LaidBorder

    @property
    def components(self) -> tuple[Laid, ...]:
        """The field, then the strips of the border."""
        return (self.inner, *self.border.strips)

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """The tiles that are laid: those of the field first, then that of the border."""
        return tuple(dict.fromkeys((*self.inner.tiles, self.border.tile)))

    @cached_property
    def whole_tiles(self) -> Counter[Tile]:
        """How many whole tiles are laid of each tile."""
        return self.inner.whole_tiles + Counter({self.border.tile: len(self.border.whole)})

    @property
    def whole_count(self) -> int:
        """How many whole tiles are laid."""
        return self.inner.whole_count + len(self.border.whole)

    @cached_property
    def whole_faces(self) -> tuple[Points, ...]:
        """The whole tiles (n, m, 2): an array for each face of the field's cell, and one for the border."""
        return (*self.inner.whole_faces, self.border.whole_faces)

    @cached_property
    def cut(self) -> tuple[Piece, ...]:
        """The cut pieces, in the order of their ids."""
        return self.cut_pieces(np.ones(len(self.cut_parts), dtype=bool))

    @cached_property
    def cut_parts(self) -> Parts:
        """The cut pieces as arrays: the field's, then the border's."""
        return both(self.inner.cut_parts, self.border.parts)

    @cached_property
    def cut_widths(self) -> tuple[Points, Flags]:
        """What no place of each of `cut_parts` is narrower than, and whether it is its narrowest place."""
        (own, are_exact), (of_border, are_exact_there) = self.inner.cut_widths, self.border.widths
        return np.concatenate((own, of_border)), np.concatenate((are_exact, are_exact_there))

    def cut_pieces(self, chosen: Flags) -> tuple[Piece, ...]:
        """Return those cut pieces that are chosen among `cut_parts`, in the order of their ids."""
        count = len(self.inner.cut_parts)
        of_border, order = chosen[count:], self.border.part_order
        pieces = self.border.cut_by_part
        return (
            *self.inner.cut_pieces(chosen[:count]),
            *(pieces[part] for part in order[of_border[order]].tolist()),
        )

    def cut_piece(self, part: int) -> Piece:
        """Return the cut piece that is number `part` of `cut_parts`."""
        count = len(self.inner.cut_parts)
        return self.inner.cut_piece(part) if part < count else self.border.cut_by_part[part - count]

    @property
    def left_to_joint(self) -> int:
        """How many parts are too narrow to be pieces."""
        return sum(one.left_to_joint for one in self.components)

    @property
    def left_to_joint_area(self) -> float:
        """The area of the parts that are too narrow to be pieces."""
        return sum(one.left_to_joint_area for one in self.components)

    @cached_property
    def bare_patches(self) -> tuple[Points, ...]:
        """The outlines of parts that are too narrow at one place only, and leave their whole place bare."""
        return tuple(patch for one in self.components for patch in one.bare_patches)

    def pieces(self) -> Iterator[Piece]:
        """Yield every piece, whole and cut, in the order of the ids: the field's, then the border's."""
        yield from self.inner.pieces()
        yield from self.border.pieces

    def piece(self, id: str) -> Piece:
        """Return the piece with this id; KeyError if there is none."""
        if not id.startswith(LETTER):
            return self.inner.piece(id)
        return self.border.by_id[id]

    @cached_property
    def narrowest_cut(self) -> float | None:
        """The narrowest place of all cut pieces; None if nothing is cut."""
        widths = (one.narrowest_cut for one in self.components)
        return min((width for width in widths if width is not None), default=None)


def lay_bordered(
    surface: Surface, tile: Tile, layout: Layout, border_tile: Tile, more: MoreTiles = NO_MORE
) -> Bordered:
    """Lay `tile` inside of the border that the layout has, which is of `border_tile`.

    LayoutError if a tile does not suit, or the border cannot follow an edge; JobFileError if the pattern's
    settings are wrong.
    """
    framed = _framed(
        surface, _border(layout), _rectangle(border_tile), layout.joint, layout.gap, layout.least_piece
    )
    inner = lay(surface, tile, layout, framed.frame.field, more)
    return Bordered(
        surface=surface,
        tile=tile,
        layout=layout,
        cell=inner.cell,
        region=framed.region,
        placed=inner.placed,
        overlap=inner.overlap,
        more=more,
        inner=inner,
        border=framed.border,
    )


def field_of(surface: Surface, layout: Layout, border_tile: Tile) -> Region:
    """Return the region that the pattern of a layout with a border fills. Errors as in `lay_bordered`."""
    border, tile = _border(layout), _rectangle(border_tile)
    return _framed(surface, border, tile, layout.joint, layout.gap, layout.least_piece).frame.field


@dataclass(frozen=True, eq=False)
class _Framed:
    region: Region
    frame: Frame
    border: LaidBorder


@lru_cache(maxsize=16)
def _framed(
    surface: Surface, border: Border, tile: RectangleTile, joint: float, gap: float, least_piece: float
) -> _Framed:
    """Return the laid border and the regions it makes; kept, since a dragged start asks for it every time."""
    own_joint = joint if border.joint is None else border.joint
    outer = gap + border.inset
    inner = outer + border.rows * (tile.width + own_joint) - own_joint
    region = region_of(surface, gap)
    frame = frame_of(surface, region, border, Measures(tile, own_joint, outer, inner))
    plain = Layout(id="", surface=surface.id, tile=tile.id, joint=own_joint, gap=gap, least_piece=least_piece)
    strips = tuple(
        lay(surface, tile, structs.replace(plain, angle=strip.angle, start=strip.start), strip.region)
        for strip in frame.strips
    )
    within = (frame.field, *(strip.region for strip in frame.strips))
    return _Framed(replace(region, within=within), frame, LaidBorder(tile, strips))


def _border(layout: Layout) -> Border:
    assert layout.border is not None
    return layout.border


def _rectangle(tile: Tile) -> RectangleTile:
    if not isinstance(tile, RectangleTile):
        raise LayoutError(
            f'A border cannot be laid with "{tile.title}", which is no rectangle.',
            "Choose a rectangle or square for the border.",
        )
    return tile
