"""Heights as people read them: small lengths either side of nought, in mm or thousandths of an inch."""

from __future__ import annotations

from tilelayout.base.units import LengthStyle, format_fine


def height_style(style: LengthStyle) -> LengthStyle:
    """Return how heights are written in a job: small lengths, so millimetres or inches.

    >>> height_style(LengthStyle.M), height_style(LengthStyle.FEET)
    (<LengthStyle.MM: 'mm'>, <LengthStyle.INCH: 'inch'>)
    """
    return LengthStyle.MM if style.is_metric else LengthStyle.INCH


def format_height(mm: float, style: LengthStyle) -> str:
    """Return a height with its sign, in decimals.

    >>> format_height(-1.25, LengthStyle.M), format_height(3.175, LengthStyle.FEET)
    ('-1.3 mm', '0.125"')
    """
    words = format_fine(abs(mm), style)
    is_below = mm < 0.0 and any(digit in words for digit in "123456789")
    return f"-{words}" if is_below else words
