"""The scales a drawing may have, and the largest that fits.

Metric drawings use the recommended scales of ISO 5455 and the 1:25 common in rooms; inch drawings the
scales of a builder's rule, so that the plan can be read with the rule already in the pocket.
"""

from __future__ import annotations

from tilelayout.base.units import LengthStyle

METRIC = (1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000)
INCH = (1, 2, 4, 6, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 384, 768)

_FEET_WORDS = {
    4: "3 in = 1 ft",
    6: "2 in = 1 ft",
    8: "1 1/2 in = 1 ft",
    12: "1 in = 1 ft",
    16: "3/4 in = 1 ft",
    24: "1/2 in = 1 ft",
    32: "3/8 in = 1 ft",
    48: "1/4 in = 1 ft",
    64: "3/16 in = 1 ft",
    96: "1/8 in = 1 ft",
    128: "3/32 in = 1 ft",
    192: "1/16 in = 1 ft",
}


def scales(style: LengthStyle) -> tuple[int, ...]:
    """Return the scales for this style of lengths, largest drawing first: 20 stands for 1:20."""
    return METRIC if style.is_metric else INCH


def fitting_scale(size: tuple[float, float], room: tuple[float, float], style: LengthStyle) -> float:
    """Return the scale of the largest drawing of `size` mm that fits in `room` mm of paper.

    Whatever is too large for the smallest standard scale gets the next power of ten.

    >>> fitting_scale((3000.0, 2000.0), (180.0, 200.0), LengthStyle.MM)
    20
    """
    needed = max(size[0] / room[0], size[1] / room[1])
    for one_to in scales(style):
        if needed <= one_to:
            return one_to
    one_to = 1000
    while one_to < needed:
        one_to *= 10
    return one_to


def scale_words(one_to: float, style: LengthStyle) -> str:
    """Return how the scale is written on the sheet: "1:20", "1/2 in = 1 ft (1:24)"."""
    ratio = f"1:{one_to:g}"
    feet = None if style.is_metric else _FEET_WORDS.get(int(one_to))
    return f"{feet} ({ratio})" if feet else ratio
