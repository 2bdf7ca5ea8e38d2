"""Falls as people write them: in per cent, as a rise over a run, or so much of an inch to the foot."""

from __future__ import annotations

import re

from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import FOOT, INCH, LengthStyle, parse_length

_RATIO = re.compile(r"1\s*(?::|in)\s*(\d+(?:[.,]\d+)?)")
_TO_THE_FOOT = re.compile(r"(.+?)\s*(?:per|to the|to a|/)\s*(?:ft\.?|foot|')")
_PER_CENT = re.compile(r"(\d+(?:[.,]\d+)?|[.,]\d+)\s*(?:%|per cent|percent)?")


def parse_fall(text: str) -> float:
    """Return the fall in per cent that `text` says; a bare number is per cent. TileLayoutError if none.

    >>> parse_fall("2 %"), parse_fall("1:80"), round(parse_fall("1/4 in per ft"), 4)
    (2.0, 1.25, 2.0833)
    """
    plain = text.strip().lower()
    if ratio := _RATIO.fullmatch(plain):
        run = _number(ratio[1])
        if run > 0.0:
            return 100.0 / run
    elif to_the_foot := _TO_THE_FOOT.fullmatch(plain):
        return 100.0 * parse_length(to_the_foot[1], LengthStyle.INCH) / float(FOOT)
    elif per_cent := _PER_CENT.fullmatch(plain):
        return _number(per_cent[1])
    raise TileLayoutError(f"“{text}” is no fall.", "Write it as 2 %, as 1:50, or as 1/4 in per ft.")


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def format_fall(percent: float, style: LengthStyle) -> str:
    """Return a fall in per cent, and where lengths are in inches to the foot as well.

    >>> format_fall(2.0, LengthStyle.MM), format_fall(25 / 12, LengthStyle.FEET)
    ('2 %', '2.08 % (0.25 in per ft)')
    """
    words = f"{round(percent, 2):g} %"
    if style.is_metric:
        return words
    return f"{words} ({round(percent / 100.0 * float(FOOT / INCH), 3):g} in per ft)"
