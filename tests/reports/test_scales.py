from __future__ import annotations

import pytest

from tilelayout.base.units import LengthStyle
from tilelayout.reports.scales import fitting_scale, scale_words, scales

ISO_5455 = {2, 5, 10, 20, 50, 100, 200, 500, 1000}
"""Recommended reduction scales of ISO 5455:1979, table 1 (from memory), as far as rooms need them."""

INCHES_TO_THE_FOOT = {12: 1, 24: 1 / 2, 48: 1 / 4, 96: 1 / 8, 16: 3 / 4, 32: 3 / 8, 64: 3 / 16, 128: 3 / 32}
"""The edges of a builder's triangular rule (common practice)."""


def test_metric_drawings_have_the_standard_scales() -> None:
    assert set(scales(LengthStyle.MM)) >= ISO_5455


@pytest.mark.parametrize(("one_to", "inches"), INCHES_TO_THE_FOOT.items())
def test_an_inch_drawing_is_named_by_what_a_foot_becomes(one_to: int, inches: float) -> None:
    words = scale_words(one_to, LengthStyle.FEET).split(" in = 1 ft")[0]
    whole, _, part = words.rpartition(" ") if " " in words else ("", "", words)
    over, _, under = part.partition("/")
    assert float(whole or 0) + float(over) / float(under or 1) == pytest.approx(inches)
    assert inches * one_to == 12.0


def test_the_largest_drawing_that_fits_is_chosen() -> None:
    assert fitting_scale((3000, 2000), (160, 200), LengthStyle.MM) == 20
    assert fitting_scale((3000, 2000), (149, 200), LengthStyle.MM) == 25
    assert fitting_scale((3657.6, 2438.4), (160, 200), LengthStyle.FEET) == 24


@pytest.mark.parametrize("style", list(LengthStyle))
@pytest.mark.parametrize("size", [3.0, 800.0, 7000.0, 90_000.0, 3_000_000.0])
def test_whatever_its_size_the_drawing_fits(style: LengthStyle, size: float) -> None:
    assert size / fitting_scale((size, size / 2), (170.0, 200.0), style) <= 170.0
