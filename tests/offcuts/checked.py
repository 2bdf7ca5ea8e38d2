"""A plan of tiles judged from outside: by general polygon work, from the laid pieces and the rules alone."""

from __future__ import annotations

import itertools

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from tilelayout.job.values import Saw
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.laying import Laid
from tilelayout.layout.values import Piece, Points
from tilelayout.offcuts.opened import OpenedTile, SawnPiece
from tilelayout.offcuts.parting import Parting
from tilelayout.offcuts.sharing import Sharing

NEAR = 1e-5
_PAST_THE_EDGE = 100.0
"""So far (mm) the blade runs on, so that all of its width leaves the part where it meets an edge aslant."""


def check(sharing: Sharing, laid: Laid, saw: Saw) -> None:
    """Check every rule of sharing on a plan of one layout."""
    sawn = [one.piece for tile in sharing.opened for one in tile.pieces]
    assert sorted(sawn) == sorted(piece.id for piece in laid.cut)
    assert [tile.number for tile in sharing.opened] == list(range(1, len(sharing.opened) + 1))
    assert sharing.tiles_needed == laid.whole_count + len(sharing.opened)
    assert sharing.tiles_needed_at_least <= sharing.tiles_needed <= laid.whole_count + len(laid.cut)
    pieces = {piece.id: piece for piece in laid.cut}
    for tile in sharing.opened:
        check_tile(tile, pieces, saw)


def check_tile(tile: OpenedTile, pieces: dict[str, Piece], saw: Saw) -> None:
    """Check that the pieces of one tile are its, lie in it, a kerf apart, and that the saw can part them."""
    outline = tile_outline(tile.tile)
    shapes = [Polygon(one.outline) for one in tile.pieces]
    for one, shape in zip(tile.pieces, shapes, strict=True):
        piece = pieces[one.piece]
        assert piece.tile == tile.tile
        assert Polygon(outline).buffer(NEAR, join_style="mitre").covers(shape)
        check_is_turned_only(one, piece)
        if not saw.dressed:
            check_factory_edges(one, piece, outline)
        if tile.tile.directional:
            assert one.turned == 0
    for a, b in itertools.combinations(shapes, 2):
        assert a.distance(b) >= saw.kerf - NEAR
        assert not a.buffer(-NEAR).intersects(b)
    whole = Polygon(tile.blank.part or outline)
    check_parting(tile.parting, tuple(range(len(shapes))), shapes, whole, saw.kerf)


def check_is_turned_only(one: SawnPiece, piece: Piece) -> None:
    """Kabsch: the best turn without mirroring brings the laid outline onto the sawn one."""
    laid, sawn = piece.in_tile(piece.outline), one.outline
    a, b = laid - laid.mean(axis=0), sawn - sawn.mean(axis=0)
    angle = np.radians(one.turned)
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    np.testing.assert_allclose(a @ turn, b, atol=NEAR)


def check_factory_edges(one: SawnPiece, piece: Piece, outline: Points) -> None:
    """A side that lies on the face's outline when laid lies on the tile's outline when sawn."""
    face, tile = LineString(closed(piece.face)).buffer(NEAR), LineString(closed(outline)).buffer(2 * NEAR)
    for laid, sawn in zip(sides(piece.outline), sides(one.outline), strict=True):
        assert not face.covers(laid) or tile.covers(sawn)


def check_parting(
    parting: Parting | int | None,
    inside: tuple[int, ...],
    shapes: list[Polygon],
    part: BaseGeometry,
    kerf: float,
) -> None:
    """Saw a part in two and check that no piece is touched and each ends by itself."""
    if not isinstance(parting, Parting):
        assert len(inside) == 1
        assert parting is None or parting == inside[0]
        return
    left, right = (numbers(side) for side in parting.sides)
    assert sorted(left + right) == sorted(inside)
    assert left and right
    halves = sawn_apart(part, parting.line, kerf)
    if parting.line is not None:
        blade = LineString(parting.line).buffer(kerf / 2 - NEAR, cap_style="flat")
        assert all(not blade.intersects(shapes[k]) for k in inside)
        assert all(shapely.Point(end).distance(part.boundary) < 1e-3 for end in parting.line)
    for side, chosen in zip(parting.sides, (left, right), strict=True):
        held = [half for half in halves if any(half.intersects(shapes[k].buffer(-NEAR)) for k in chosen)]
        assert all(
            not half.intersects(shapes[k].buffer(-NEAR)) for half in held for k in inside if k not in chosen
        )
        check_parting(side, chosen, shapes, shapely.union_all(held), kerf)


def sawn_apart(part: BaseGeometry, line: Points | None, kerf: float) -> list[Polygon]:
    """Return what a blade leaves of a part, as connected parts."""
    if line is None:
        return list(shapely.get_parts(part))
    (start, end), along = line, line[1] - line[0]
    reach = _PAST_THE_EDGE * along / np.hypot(*along)
    blade = LineString([start - reach, end + reach]).buffer(max(kerf / 2, 1e-6), cap_style="flat")
    return list(shapely.get_parts(part.difference(blade)))


def numbers(side: Parting | int) -> tuple[int, ...]:
    """Return the pieces on one side of a cut."""
    return (side,) if isinstance(side, int) else numbers(side.sides[0]) + numbers(side.sides[1])


def closed(ring: Points) -> Points:
    """Return the ring with its first point repeated."""
    return np.concatenate([ring, ring[:1]])


def sides(ring: Points) -> list[LineString]:
    """Return the sides of a ring."""
    return [LineString(pair) for pair in itertools.pairwise(closed(ring))]
