"""Ids of pieces: lettered by course from the lowest, numbered along it, the same for cut and whole."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import given, settings

from tests.rooms import LAYINGS, PLAIN, PLANK, SLOTTED, SQUARE, angles, layings, layout_of, rooms, starts
from tilelayout.job.values import Layout, Point, Surface, Tile
from tilelayout.layout.laying import lay
from tilelayout.layout.numbering import course_of, letters


def test_a_grid_is_lettered_from_the_bottom_and_numbered_from_the_left() -> None:
    laid = lay(PLAIN, SQUARE, layout_of(SQUARE, start=(-100, -100)))
    by_id = {piece.id: piece.face.min(axis=0).round(6).tolist() for piece in laid.pieces()}
    assert by_id["A1"] == [-100, -100]
    assert by_id["A2"] == [200, -100]
    assert by_id["B1"] == [-100, 200]
    assert by_id["C4"] == [800, 500]


def test_rows_of_a_two_row_cell_get_letters_of_their_own() -> None:
    laid = lay(PLAIN, PLANK, layout_of(PLANK, row_offsets=(0, 1 / 3), gap=0))
    low = {piece.id: piece.face[:, 1].min() for piece in laid.pieces()}
    assert [round(low[id]) for id in ("A1", "B1", "C1", "D1")] == [0, 300, 600, 900]


def test_two_parts_of_one_tile_are_numbered_from_the_left() -> None:
    tile = msgspec.structs.replace(SQUARE, length=797)
    laid = lay(SLOTTED, tile, layout_of(tile, gap=0, start=(841.5, 600)))
    parts = [
        piece for piece in laid.cut if round(piece.face[:, 0].min(), 1) == 841.5 and piece.id.startswith("D")
    ]
    assert [piece.id for piece in parts] == ["D3", "D4"]
    assert parts[0].outline[:, 0].max() < parts[1].outline[:, 0].min()


@settings(max_examples=50, deadline=None)
@given(rooms(), layings(), starts(), angles())
def test_ids_count_on_along_every_course_without_a_gap(
    room: Surface, laying: tuple[Tile, Layout], start: Point, angle: float
) -> None:
    laid = lay(room, laying[0], msgspec.structs.replace(laying[1], start=start, angle=angle))
    seen: dict[str, int] = {}
    for piece in laid.pieces():
        name = piece.id.rstrip("0123456789")
        place = int(piece.id.removeprefix(name))
        assert place == seen.get(name, 0) + 1
        seen[name] = place
    order = [course_of(name) for name in seen]
    assert order == sorted(order)
    assert order[:1] in ([], [0])


@settings(max_examples=50, deadline=None)
@given(rooms(), layings(), starts(), angles())
def test_cut_pieces_numbered_alone_get_the_ids_they_have_among_all(
    room: Surface, laying: tuple[Tile, Layout], start: Point, angle: float
) -> None:
    laid = lay(room, laying[0], msgspec.structs.replace(laying[1], start=start, angle=angle))
    among_all = {id(piece): place for place, piece in enumerate(laid.pieces()) if not piece.whole}
    assert [among_all[id(piece)] for piece in laid.cut] == sorted(among_all.values())
    ids = [piece.id for piece in laid.pieces()]
    assert len(set(ids)) == len(ids) == laid.whole_count + len(laid.cut)


@pytest.mark.parametrize("laying", LAYINGS.values(), ids=LAYINGS.keys())
def test_a_piece_is_found_by_its_id(laying: tuple[Tile, Layout]) -> None:
    laid = lay(PLAIN, *laying)
    for piece in laid.pieces():
        found = laid.piece(piece.id)
        assert (found.id, found.whole, found.outline.tolist()) == (
            piece.id,
            piece.whole,
            piece.outline.tolist(),
        )


@pytest.mark.parametrize("id", ["", "A", "A0", "A99", "ZZ1", "a1", "A1x"])
def test_an_unknown_id_is_a_key_error(id: str) -> None:
    laid = lay(PLAIN, SQUARE, layout_of(SQUARE))
    with pytest.raises(KeyError):
        laid.piece(id)


def test_numbering_does_not_change_between_two_layings() -> None:
    first, second = (lay(PLAIN, PLANK, layout_of(PLANK, "herringbone", angle=45)) for _ in range(2))
    assert [piece.id for piece in first.pieces()] == [piece.id for piece in second.pieces()]


def test_letters_go_on_after_z() -> None:
    assert [letters(course_of(text)) for text in ("A", "Z", "AA", "AZ", "BA", "ZZ", "AAA")] == [
        "A", "Z", "AA", "AZ", "BA", "ZZ", "AAA",
    ]  # fmt: skip
