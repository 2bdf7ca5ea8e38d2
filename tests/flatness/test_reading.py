"""Readings from a pasted table: every separator and unit, and errors that name the line and the mend."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tilelayout.base.units import INCH, LengthStyle
from tilelayout.flatness.reading import ReadingError, read_table

THREE = ((0.0, 0.0, 1.5), (300.0, 0.0, -2.0), (600.0, 50.0, 0.0))

TABLES = {
    "tabs": "0\t0\t1.5\n300\t0\t-2\n600\t50\t0",
    "semicolons, decimal commas": "0;0;1,5\n300;0;-2\n600;50;0\n",
    "commas": "0,0,1.5\n300,0,-2\n600,50,0",
    "spaces": "  0 0   1.5\n300 0 -2\n600   50 0",
    "a heading": "x,y,height\n0,0,1.5\n300,0,-2\n600,50,0",
    "another order": "Height (mm);X;Y\n1.5;0;0\n-2;300;0\n0;600;50",
    "units, blank lines, remarks": "# by the door\n0;0;1.5 mm\n\n30 cm;0;-2 # low\n0.6 m;5 cm;0",
    "other line ends, a mark in front": "\ufeff0\t0\t1.5\r\n300\t0\t-2\r\n600\t50\t0\r\n",
}


@pytest.mark.parametrize("text", TABLES.values(), ids=TABLES)
def test_a_table_is_read_however_it_is_parted(text: str) -> None:
    assert read_table(text) == THREE


def test_steps_of_a_level_are_summed_from_place_to_place() -> None:
    """A level carried round a 2 ft square and back reads steps that add up to nothing."""
    table = "x y step\n0 0 0\n2ft 0 1/8in\n2ft 2ft -1/4in\n0 2ft 1/16in\n0 0 1/16in"
    read = read_table(table, LengthStyle.INCH)
    heights = [height / float(INCH) for _, _, height in read]
    assert heights == pytest.approx([0.0, 0.125, -0.125, -0.0625, 0.0])
    assert [place[:2] for place in read][-1] == (0.0, 0.0)
    with pytest.raises(ReadingError, match="more than one column"):
        read_table("x y step rise\n0 0 0 0")


def test_feet_and_inches_are_read_and_heights_may_have_a_unit_of_their_own() -> None:
    text = '0\t2\' 6"\t1/8"\n12\t0\t-1/16"'
    assert read_table(text, LengthStyle.INCH) == ((0.0, 762.0, 3.175), (304.8, 0.0, -1.5875))
    assert read_table("1;2;3", LengthStyle.M, LengthStyle.MM) == ((1000.0, 2000.0, 3.0),)
    assert read_table('"1","2","3"') == ((1.0, 2.0, 3.0),)


WRONG = {
    "nothing": ("", 1, "no reading"),
    "only a heading": ("x y height", 1, "no reading"),
    "two columns": ("0;0;1\n0;300", 2, "2 columns"),
    "four columns": ("0 0 1 2", 1, "4 of the three columns"),
    "no number": ("0;0;1\n0;three hundred;1", 2, "y: "),
    "commas that could be either": ("0,5,300,1,5", 1, "commas may part"),
    "a unit nobody knows": ("0;0;1 furlong", 1, "furlong"),
    "a heading without height": ("x;y;colour\n0;0;1", 1, "no column height"),
    "a heading with two of them": ("x;y;z;height\n0;0;1;2", 1, "more than one column height"),
}


@pytest.mark.parametrize(("text", "line", "words"), WRONG.values(), ids=WRONG)
def test_what_cannot_be_read_is_told_with_its_line_and_the_mend(text: str, line: int, words: str) -> None:
    with pytest.raises(ReadingError, match=words) as caught:
        read_table(text)
    assert caught.value.line == line
    assert str(caught.value).startswith(f"Line {line}: ")
    assert caught.value.mend


MM = st.integers(-99_999, 99_999).map(lambda tenths: tenths / 10)


@given(st.lists(st.tuples(MM, MM, MM), min_size=1, max_size=20), st.sampled_from(["\t", ";", ",", "  "]))
def test_what_is_written_is_read_back(readings: list[tuple[float, float, float]], separator: str) -> None:
    text = "\n".join(separator.join(map(str, reading)) for reading in readings)
    assert read_table(text) == tuple(readings)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        assert read_table(text)
    except ReadingError as error:
        assert error.line >= 1
