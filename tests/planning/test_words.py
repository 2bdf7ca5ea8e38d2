"""What stands on the cut list: the words and sizes of each kind of cut, rounded to the safe side."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.planning.jobs import plan_of
from tests.rooms import HEXAGON, PLANK, SQUARE, TRIANGLE, floor_of, rectangle, round_cutout, square_cutout
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import RectangleTile, Surface
from tilelayout.planning.plan import Plan
from tilelayout.planning.saw_sizes import at_least, nearest

MM, INCH = LengthStyle.MM, LengthStyle.INCH


def row_of(made: Plan, piece: str) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    row = next(row for row in made.cut_rows if any(found.id == piece for found in row.pieces))
    return "; ".join(row.words), row.walls, (row.size,)


def test_a_rip_says_the_width_and_which_factory_edge_stays() -> None:
    made = plan_of(rectangle(597, 300 + 120.7), PLANK, gap=0)
    assert row_of(made, "B1") == ("rip to 120 mm, keep the lower edge", ("top wall",), ("597 mm x 120 mm",))


def test_a_cross_cut_in_inches_is_rounded_down_to_a_sixteenth() -> None:
    made = plan_of(rectangle(600 + 100, 297), PLANK, INCH, gap=0)
    assert row_of(made, "A2")[0] == 'cross cut to 3 7/8", keep the left end'


def test_a_notch_is_rounded_up_since_it_is_taken_away() -> None:
    room = floor_of((0, 0), (297, 0), (297, 200.3), (250.4, 200.3), (250.4, 297), (0, 297))
    assert row_of(plan_of(room, gap=0), "A1")[0] == "notch 47 mm x 97 mm at the upper right corner"


def test_a_slot_opens_to_both_sides() -> None:
    room = floor_of(
        (0, 0), (100.6, 0), (100.6, 80.2), (140.2, 80.2), (140.2, 0), (297, 0), (297, 297), (0, 297)
    )
    words = row_of(plan_of(room, gap=0), "A1")[0]
    assert words == "slot 41 mm wide and 81 mm deep in the lower edge, 100 mm from the left end"


def test_a_corner_cut_says_its_legs_and_its_corner() -> None:
    room = floor_of((0, 0), (297, 0), (297, 200), (220.5, 297), (0, 297))
    words = row_of(plan_of(room, gap=0), "A1")[0]
    assert words == (
        "corner cut, 97 mm of the right end and 77 mm of the upper edge, off the upper right corner"
    )


def test_an_oblique_cut_says_what_stays_of_both_edges() -> None:
    room = floor_of((0, 0), (200.9, 0), (150.9, 297), (0, 297))
    words = row_of(plan_of(room, gap=0), "A1")[0]
    assert words == "oblique cut, keep 200 mm of the lower edge and 150 mm of the upper edge"


def test_a_round_hole_is_found_by_its_centre() -> None:
    room = Surface(
        id="floor", outline=rectangle(297, 297).outline, cutouts=(round_cutout(140.2, 99.8, 50.5),)
    )
    made = plan_of(room, gap=0)
    assert row_of(made, "A1")[:2] == (
        "hole 51 mm across, its centre 140 mm from the left end and 100 mm from the lower edge",
        ("drain",),
    )


def test_a_square_hole_is_found_by_its_corner_and_never_comes_out_too_small() -> None:
    room = Surface(
        id="floor", outline=rectangle(297, 297).outline, cutouts=(square_cutout(100.7, 80.2, 60.4),)
    )
    words = row_of(plan_of(room, gap=0), "A1")[0]
    assert (
        words
        == "hole 62 mm x 61 mm, its lower left corner 100 mm from the left end and 80 mm from the lower edge"
    )


def test_a_curve_round_a_drain_is_rounded_up_and_one_inside_a_bay_down() -> None:
    drain = Surface(id="floor", outline=rectangle(297, 297).outline, cutouts=(round_cutout(0, 0, 121),))
    assert row_of(plan_of(drain, gap=0), "A1")[0] == (
        "curve of radius 61 mm, its centre 0 mm from the left end and 0 mm from the lower edge"
    )


def test_a_hexagon_has_sides_and_corners_of_its_own() -> None:
    half = HEXAGON.across_flats / 2
    made = plan_of(rectangle(600, 2000), HEXAGON, pattern="hexagon", start=(half - 40.2, 700.0), gap=0)
    words = {word for row in made.cut_rows for word in row.words}
    assert "cross cut to 188 mm, keep the right edge" in words


def test_a_piece_at_two_walls_says_both() -> None:
    made = plan_of(rectangle(400, 400), SQUARE, gap=0)
    words, walls, _ = row_of(made, "B2")
    assert words == "rip to 100 mm, keep the lower edge; cross cut to 100 mm, keep the left end"
    assert walls == ("top wall", "right wall")


@pytest.mark.parametrize(("style", "step"), [(MM, Fraction(1)), (INCH, Fraction(127, 80))])
@given(size=st.floats(-5000, 5000))
def test_marks_lie_on_the_right_side_and_no_step_away(
    size: float, style: LengthStyle, step: Fraction
) -> None:
    above, beside = at_least(size, style), nearest(size, style)
    assert size - 1e-5 <= above < size + float(step) + 1e-5
    assert abs(beside - size) <= float(step) / 2 + 1e-5
    assert (Fraction(round(above / float(step))) * step) == pytest.approx(above)


def test_a_corner_cut_names_the_corner_that_it_takes_off_however_large() -> None:
    """A wall that slopes across a triangle takes its top off, farther down than half its height."""
    room = floor_of((0, 0), (310, 0), (310, 60), (0, 90))
    made = plan_of(room, TRIANGLE, pattern="triangle", gap=0)
    words = row_of(made, "A2")[0]
    assert words.startswith("corner cut") and words.endswith("off the upper corner")
    assert "of the upper left edge" in words and "of the upper right edge" in words


def test_a_drain_right_across_a_narrow_tile_leaves_two_parts_that_are_told_apart() -> None:
    """The same curve makes both, and neither is the other turned: the drain is not in the middle."""
    strip = RectangleTile(id="strip", length=400, width=80)
    room = floor_of((0, 0), (400, 0), (400, 80), (0, 80), cutouts=(round_cutout(150, 38, 110),))
    made = plan_of(room, strip, gap=0)
    assert [row.count for row in made.cut_rows] == [1, 1]
    assert {row.size.split(", ")[1] for row in made.cut_rows} == {
        "the part at the lower left corner",
        "the part at the lower right corner",
    }
