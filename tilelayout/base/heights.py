"""Heights as people read them: small lengths either side of nought, in mm or in parts of an inch."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction

from tilelayout.base.units import FINEST_FRACTION, INCH, LengthStyle, format_fine

_ABOUT = 32
"""Figures that are worked out are told to this part of an inch: what a filler or a wedge is measured to."""

_EXACT = 5e-4
"""A height nearer than this (in) to a line of the rule was read there."""


def height_style(style: LengthStyle) -> LengthStyle:
    """Return how heights are written in a job: small lengths, so millimetres or inches.

    >>> height_style(LengthStyle.M), height_style(LengthStyle.FEET)
    (<LengthStyle.MM: 'mm'>, <LengthStyle.INCH: 'inch'>)
    """
    return LengthStyle.MM if style.is_metric else LengthStyle.INCH


def format_height(mm: float, style: LengthStyle) -> str:
    """Return a height with its sign: what was read on a rule as its fraction, all else in decimals.

    >>> format_height(-1.25, LengthStyle.M), format_height(3.175, LengthStyle.FEET)
    ('-1.3 mm', '1/8"')
    >>> format_height(2.5, LengthStyle.INCH)
    '0.098"'
    """
    if style.is_metric or not _is_on_rule(mm):
        return format_height_fine(mm, style)
    return _signed(mm, _fraction(_nearest(abs(mm) / float(INCH), FINEST_FRACTION)))


def format_height_fine(mm: float, style: LengthStyle) -> str:
    """Return a height in decimals: to 0.1 mm, or to a thousandth of an inch.

    >>> format_height_fine(-3.175, LengthStyle.FEET)
    '-0.125"'
    """
    return _signed(mm, format_fine(abs(mm), style))


def format_for(heights: Iterable[float], style: LengthStyle) -> Callable[[float, LengthStyle], str]:
    """Return how all of some heights are written side by side: as fractions if all were read on a rule."""
    is_rule = style.is_metric or all(_is_on_rule(mm) for mm in heights)
    return format_height if is_rule else format_height_fine


def format_height_about(mm: float, style: LengthStyle) -> str:
    """Return a height that was worked out, as it can be measured: to 0.1 mm, or to a 32nd of an inch.

    >>> format_height_about(2.5, LengthStyle.INCH), format_height_about(2.5, LengthStyle.M)
    ('3/32"', '2.5 mm')
    """
    if style.is_metric:
        return format_height(mm, style)
    return _signed(mm, _fraction(_nearest(abs(mm) / float(INCH), _ABOUT)))


def _is_on_rule(mm: float) -> bool:
    inches = abs(mm) / float(INCH)
    return abs(inches - float(_nearest(inches, FINEST_FRACTION))) < _EXACT


def _nearest(inches: float, parts: int) -> Fraction:
    return Fraction(round(inches * parts), parts)


def _fraction(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    words = [str(whole)] if whole or not rest else []
    return f'{" ".join([*words, *([str(rest)] if rest else [])])}"'


def _signed(mm: float, words: str) -> str:
    is_below = mm < 0.0 and any(digit in words for digit in "123456789")
    return f"-{words}" if is_below else words
