"""What a drawn cell is told to be, in words, and what it becomes in the job."""

from __future__ import annotations

import msgspec
import pytest

from tests.rooms import PLAIN, SQUARE, TROMINO, layout_of
from tilelayout.base.errors import EditError
from tilelayout.base.units import LengthStyle
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.values import Job, Point, PolygonTile, RectangleTile
from tilelayout.layout.drafts import Draft, fit_of
from tilelayout.layout.faces import tile_outline
from tilelayout.planning.draft_words import fit_words
from tilelayout.planning.drawn_tiles import with_drawn_cell
from tilelayout.planning.open_job import check_job
from tilelayout.planning.plan import plan

Outline = tuple[Point, ...]


def box(width: float, depth: float, x: float = 0.0, y: float = 0.0) -> Outline:
    return ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth))


LARGE, SMALL = box(297, 297), box(147, 297, 300, 0)


def words(vectors: tuple[Point, Point], *outlines: Outline, style: LengthStyle = LengthStyle.MM) -> str:
    draft = Draft(outlines or (LARGE,), vectors, 3.0)
    return fit_words(draft, fit_of(draft), style)


@pytest.mark.parametrize(
    ("vectors", "said"),
    [
        (((300, 0), (0, 300)), "The tiles fill the plane with a joint of 3 mm everywhere."),
        (
            ((300, 0), (0, 303)),
            "Tile 1 and the next one along vector 2 are 6 mm apart, and the joint is 3 mm. "
            "Vector 2 would have to be 300 mm long.",
        ),
        (
            ((299, 0), (0, 300)),
            "Tile 1 and the next one along vector 1 are only 2 mm apart, and the joint is 3 mm. "
            "Vector 1 would have to be 300 mm long.",
        ),
        (
            ((300, 0), (0, 290)),
            "Tile 1 and the next one along vector 2 overlap by 7 mm. Vector 2 would have to be 300 mm long.",
        ),
        (((300, 0), (600, 0)), "The two vectors lead in one direction."),
        (((10, 0), (0, 10)), "The vectors are so short that many tiles lie on each other."),
    ],
)
def test_what_is_wrong_is_measured_between_two_tiles_and_mended(
    vectors: tuple[Point, Point], said: str
) -> None:
    assert words(vectors).startswith(said)


def test_tiles_of_a_cell_are_told_apart_by_their_numbers() -> None:
    assert words(((453, 0), (0, 300)), LARGE, SMALL).startswith(
        "Tile 2 and tile 1 of the next cell along vector 1 are 6 mm apart"
    )
    assert words(((450, 0), (0, 300)), LARGE, box(147, 297, 302, 0)).startswith(
        "Tile 2 and tile 1 of the next cell along vector 1 are only 1 mm apart"
    )


def test_words_are_in_the_lengths_of_the_job() -> None:
    assert words(((300, 0), (0, 303.175)), style=LengthStyle.INCH) == (
        'Tile 1 and the next one along vector 2 are 0.243" apart, and the joint is 0.118". '
        'Vector 2 would have to be 11.811" long.'
    )


def drawn_job(**changes: object) -> Job:
    layout = msgspec.structs.replace(layout_of(SQUARE, row_offsets=(0.0, 0.5)), **changes)
    return Job(surfaces=(PLAIN,), tiles=(SQUARE,), layouts=(layout,))


def test_a_drawn_cell_is_what_a_job_file_may_say() -> None:
    job = with_drawn_cell(drawn_job(), "square", Draft((LARGE, SMALL), ((450.0, 0.0), (0.0, 300.0)), 3.0))
    again = check_job(job_from_bytes(job_to_bytes(job)))
    assert again == check_job(job)
    layout = again.layouts[0]
    assert (layout.pattern, layout.joint, layout.angle) == ("drawn", 3.0, 0.0)
    assert layout.more_tiles == {"tile-2": "square-tile-2"}
    own, further = again.tiles
    assert isinstance(own, PolygonTile) and isinstance(further, PolygonTile)
    assert (own.outline, further.outline) == (LARGE, box(147, 297))
    made = plan(again, "A")
    assert made.whole and [count.tile.id for count in made.by_tile] == ["square", "square-tile-2"]


def test_what_is_known_of_the_tile_stays_but_for_what_is_on_hand() -> None:
    tile = msgspec.structs.replace(SQUARE, name="Slate", per_box=9, price_per_box=30.0, whole_on_hand=4)
    job = msgspec.structs.replace(drawn_job(), tiles=(tile,))
    outline = tuple((float(x), float(y)) for x, y in tile_outline(TROMINO))
    drawn = with_drawn_cell(job, "square", Draft((outline,), ((450.0, 0.0), (150.0, 150.0)), 3.0)).tiles[0]
    assert (drawn.per_box, drawn.price_per_box, drawn.whole_on_hand) == (9, 30.0, 0)
    assert drawn.name == "Drawn tile"


def test_a_further_tile_keeps_its_id_when_it_is_drawn_anew() -> None:
    draft = Draft((LARGE, SMALL), ((450.0, 0.0), (0.0, 300.0)), 3.0)
    job = with_drawn_cell(drawn_job(), "square", draft)
    wider = Draft((LARGE, box(197, 297, 300, 0)), ((500.0, 0.0), (0.0, 300.0)), 3.0)
    again = with_drawn_cell(job, "square", wider)
    assert [tile.id for tile in again.tiles] == [tile.id for tile in job.tiles]
    assert isinstance(again.tiles[1], PolygonTile) and again.tiles[1].outline == box(197, 297)


def test_every_layout_of_the_tile_is_laid_as_drawn_and_no_other() -> None:
    other = RectangleTile(id="other", length=200, width=200)
    beside = msgspec.structs.replace(layout_of(SQUARE, joint=5.0), id="B")
    apart = msgspec.structs.replace(layout_of(other), id="C")
    job = msgspec.structs.replace(
        drawn_job(), tiles=(SQUARE, other), layouts=(layout_of(SQUARE), beside, apart)
    )
    after = with_drawn_cell(job, "square", Draft((LARGE,), ((300.0, 0.0), (0.0, 300.0)), 3.0))
    assert [layout.pattern for layout in after.layouts] == ["drawn", "drawn", "rows"]
    assert after.layouts[1].joint == 3.0 and after.layouts[2] is apart


def test_a_draft_that_fills_no_plane_is_refused() -> None:
    with pytest.raises(EditError, match="do not fill the plane"):
        with_drawn_cell(drawn_job(), "square", Draft((LARGE,), ((300.0, 0.0), (0.0, 310.0)), 3.0))
