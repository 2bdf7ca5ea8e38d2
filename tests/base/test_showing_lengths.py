"""Lengths as they are shown, and read back to the precision shown."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tilelayout.base.errors import LengthError
from tilelayout.base.units import LengthStyle, cut_size, format_area, format_length, parse_length

FRACTIONS = (1, 2, 4, 8, 16, 32, 64)
STEPS = {LengthStyle.MM: 0.1, LengthStyle.CM: 0.1, LengthStyle.M: 0.1, LengthStyle.DECIMAL_FEET: 3.048}


@pytest.mark.parametrize(
    ("mm", "style", "text"),
    [
        (2438, LengthStyle.MM, "2438 mm"),
        (2438.4, LengthStyle.MM, "2438.4 mm"),
        (2438, LengthStyle.CM, "243.8 cm"),
        (2438, LengthStyle.M, "2.438 m"),
        (1600, LengthStyle.M, "1.6 m"),
        (1000, LengthStyle.M, "1 m"),
        (243, LengthStyle.M, "0.243 m"),
        (48.5, LengthStyle.M, "48.5 mm"),
        (-3, LengthStyle.M, "-3 mm"),
        (0, LengthStyle.M, "0 m"),
        (1612.9, LengthStyle.INCH, '63 1/2"'),
        (1612.9, LengthStyle.FEET, "5' 3 1/2\""),
        (1612.9, LengthStyle.DECIMAL_FEET, "5.29'"),
        (3657.6, LengthStyle.FEET, "12' 0\""),
        (12.7, LengthStyle.FEET, '1/2"'),
        (0, LengthStyle.FEET, '0"'),
        (0, LengthStyle.MM, "0 mm"),
        (304.7, LengthStyle.FEET, "1' 0\""),
        (-12.7, LengthStyle.INCH, '-1/2"'),
        (-0.01, LengthStyle.MM, "0 mm"),
    ],
)
def test_each_style_writes_as_on_a_tape(mm: float, style: LengthStyle, text: str) -> None:
    assert format_length(mm, style) == text


def test_a_decimal_number_of_inches_is_shown_to_the_nearest_sixteenth() -> None:
    """0.44 x 16 = 7.04: seven sixteenths. What is shown is then no longer the value."""
    assert format_length(14.44 * 25.4, LengthStyle.FEET) == "1' 2 7/16\""
    assert parse_length("1' 2 7/16\"") == 14.4375 * 25.4


@pytest.mark.parametrize("fraction", FRACTIONS)
def test_ties_are_shown_as_the_larger(fraction: int) -> None:
    tie = 25.4 * (7 + 0.5 / fraction)
    assert format_length(tie, LengthStyle.INCH, fraction=fraction) == format_length(
        25.4 * (7 + 1 / fraction), LengthStyle.INCH, fraction=fraction
    )


def test_decimals_are_shown_only_as_asked_for() -> None:
    assert format_length(12.345, LengthStyle.MM, decimals=0) == "12 mm"
    assert format_length(12.345, LengthStyle.MM, decimals=2) == "12.35 mm"
    assert format_length(1612.9, LengthStyle.CM, decimals=0) == "161.3 cm"


@pytest.mark.parametrize("fraction", [0, 65])
def test_a_fraction_no_rule_carries_is_a_mistake_of_the_caller(fraction: int) -> None:
    with pytest.raises(ValueError, match="1 to 64"):
        format_length(1, LengthStyle.INCH, fraction=fraction)


def _assert_read_back(mm: float, style: LengthStyle, fraction: int) -> None:
    step = STEPS.get(style, 25.4 / fraction)
    shown = format_length(mm, style, fraction=fraction)
    read = parse_length(shown, style, signed=True)
    assert abs(read - mm) <= step / 2 + 1e-6
    assert format_length(read, style, fraction=fraction) == shown


@pytest.mark.parametrize("style", LengthStyle)
@pytest.mark.parametrize("fraction", FRACTIONS)
def test_what_is_shown_reads_back_to_the_precision_shown(style: LengthStyle, fraction: int) -> None:
    """All styles and fractions together: more than 10 000 random lengths from a hair to a kilometre."""
    lengths = 10 ** np.random.default_rng(fraction).uniform(-2, 5.99, 300)
    for mm in lengths.tolist():
        _assert_read_back(mm, style, fraction)
        _assert_read_back(-mm, style, fraction)


@settings(max_examples=100, deadline=None)
@given(st.floats(-999_990, 999_990), st.sampled_from(LengthStyle), st.integers(1, 64))
def test_any_length_reads_back(mm: float, style: LengthStyle, fraction: int) -> None:
    _assert_read_back(mm, style, fraction)


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=30) | st.text("0123456789 -/.,'\"ftinmc½¼’”", max_size=14))
def test_no_text_brings_reading_down(text: str) -> None:
    for style in LengthStyle:
        try:
            assert math.isfinite(parse_length(text, style, signed=True))
        except LengthError as error:
            assert error.mend


def test_areas_are_shown_in_square_metres_or_square_feet() -> None:
    assert format_area(8_912_345.6, LengthStyle.MM) == "8.91 m²"
    assert format_area(8_912_345.6, LengthStyle.FEET) == "95.9 sq ft"


def test_the_square_foot_is_the_published_one() -> None:
    """1 sq ft = 0.09290304 m² exactly (SI brochure and NIST SP 811, appendix B; from memory)."""
    assert format_area(0.09290304e6 * 1000, LengthStyle.INCH) == "1000.0 sq ft"


@pytest.mark.parametrize("style", LengthStyle)
def test_a_cut_is_never_wider_than_its_space_and_loses_less_than_a_step(style: LengthStyle) -> None:
    step = 1.0 if style.is_metric else 25.4 / 16
    for mm in np.random.default_rng(1).uniform(0, 3000, 500).tolist():
        size = cut_size(mm, style)
        assert mm - step < size <= mm + 1e-6


@pytest.mark.parametrize("style", LengthStyle)
def test_a_size_on_a_step_keeps_it(style: LengthStyle) -> None:
    step = 1.0 if style.is_metric else 25.4 / 16
    for count in range(2000):
        assert cut_size(count * step, style) == pytest.approx(count * step, abs=1e-9)
        assert cut_size(count * step - 1e-9, style) == pytest.approx(count * step, abs=1e-9)


def test_pieces_cut_for_a_wall_fit_between_its_ends() -> None:
    """Pieces and joints over random walls: the sum never exceeds the space."""
    random = np.random.default_rng(2)
    for _ in range(300):
        pieces = random.uniform(20, 600, random.integers(2, 12)).tolist()
        for style in LengthStyle:
            assert sum(cut_size(piece, style) for piece in pieces) <= sum(pieces) + 1e-4
