"""What the engine says in mm, said in the lengths of a job, so that it can be typed in as it is shown."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tilelayout.base.errors import JobFileError, LayoutError, LengthError
from tilelayout.base.said_lengths import error_in, format_exact, words_in
from tilelayout.base.units import LengthStyle, parse_length

INCH = LengthStyle.INCH


@pytest.mark.parametrize(
    ("said", "shown"),
    [
        ("Use a joint of 3.175 mm.", 'Use a joint of 1/8".'),
        ("Use a joint of 3.18 mm with these tiles.", 'Use a joint of 1/8" with these tiles.'),
        ("A tile of 304.8 × 152.4 mm.", 'A tile of 12" × 6".'),
        ("It can be 0 to 100 mm.", 'It can be 0" to 3.937".'),
        ("The dot must be 81.2 mm square.", 'The dot must be 3.197" square.'),
        ("92903.04 mm² of every cell stay empty", "1.0 sq ft of every cell stay empty"),
        ('"Slate 300 mm" does not fit 25.4 mm.', '"Slate 300 mm" does not fit 1".'),
        ("The tile “A 50 mm” is laid.", "The tile “A 50 mm” is laid."),
        ("There are 12 mmm.", "There are 12 mmm."),
        ("No length at all.", "No length at all."),
    ],
)
def test_words_are_said_in_inches(said: str, shown: str) -> None:
    assert words_in(said, INCH) == shown
    assert words_in(said, LengthStyle.MM) == said


@given(st.floats(0.1, 5000.0), st.sampled_from(sorted(LengthStyle)))
def test_what_is_shown_can_be_typed_in(mm: float, style: LengthStyle) -> None:
    """To within what a set of tiles may be out."""
    assert parse_length(format_exact(mm, style), style) == pytest.approx(mm, abs=0.02)


def test_an_error_keeps_its_kind_and_its_place() -> None:
    error = JobFileError("The joint is 127 mm.", "It can be 0 to 100 mm.", file="a.tilejob", place="joint")
    said = error_in(error, INCH)
    assert type(said) is JobFileError and (said.file, said.place) == ("a.tilejob", "joint")
    assert str(said) == 'a.tilejob: joint: The joint is 5". It can be 0" to 3.937".'
    assert error.what == "The joint is 127 mm." and error_in(error, LengthStyle.MM) is error
    refused = LengthError("12 mm", "it must not be", ("1 mm", "2 mm"))
    assert error_in(refused, INCH) is refused
    assert str(error_in(LayoutError("5 mm."), LengthStyle.CM)) == "0.5 cm."
