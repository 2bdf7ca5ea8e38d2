"""Says in the lengths of a job what was said in mm.

The engine knows mm alone, and so do its errors ("the dot must be 81.2 mm square"). Whoever shows one to a
person knows how that person writes lengths. A length is shown so that it can be typed in as it is shown: as a
fraction of an inch only where that is what it is, else in decimals.
"""

from __future__ import annotations

import copy
import re
from typing import TypeVar

from tilelayout.base.errors import LengthError, TileLayoutError
from tilelayout.base.units import INCH, LengthStyle, format_area, format_length

_SAME = 0.01
"""A fraction that is out by so many mm is the length: half of what a set of tiles may be out."""

_FINEST = 64

_QUOTED = re.compile(r"(\"[^\"]*\"|“[^”]*”)")
_NUMBER = r"-?\d+(?:\.\d+)?(?:e[+-]?\d+)?"
_AREA = re.compile(rf"({_NUMBER}) mm²")
_SIZES = re.compile(rf"({_NUMBER}) (×|x|to|of|down to) ({_NUMBER}) mm\b")
_LENGTH = re.compile(rf"({_NUMBER}) mm\b")

E = TypeVar("E", bound=TileLayoutError)


def error_in(error: E, style: LengthStyle) -> E:
    """Return the error with its words in the lengths of `style`; one about a length stays as it is."""
    if style is LengthStyle.MM or isinstance(error, LengthError):
        return error
    said = copy.copy(error)
    said.what, said.mend = words_in(error.what, style), words_in(error.mend, style)
    said.args = (said.what, said.mend)
    return said


def words_in(words: str, style: LengthStyle) -> str:
    """Return words with every length in mm written in `style`; names in quotes stay as they are.

    >>> words_in('"Slate 300 mm" is 297 × 147 mm.', LengthStyle.CM)
    '"Slate 300 mm" is 29.7 cm × 14.7 cm.'
    """
    if style is LengthStyle.MM:
        return words
    parts = _QUOTED.split(words)
    return "".join(part if at % 2 else _plain_in(part, style) for at, part in enumerate(parts))


def format_exact(mm: float, style: LengthStyle) -> str:
    """Return a length so that reading it back gives it to within 0.02 mm.

    >>> format_exact(3.175, LengthStyle.INCH), format_exact(2.97, LengthStyle.INCH)
    ('1/8"', '0.117"')
    """
    if style.is_metric:
        return format_length(mm, style, decimals=2)
    step = float(INCH) / _FINEST
    if abs(mm - round(mm / step) * step) <= _SAME and style is not LengthStyle.DECIMAL_FEET:
        return format_length(mm, style, fraction=_FINEST)
    return f'{mm / float(INCH):.3f}"'


def _plain_in(words: str, style: LengthStyle) -> str:
    words = _AREA.sub(lambda found: format_area(float(found[1]), style), words)
    words = _SIZES.sub(lambda found: f"{_shown(found[1], style)} {found[2]} {_shown(found[3], style)}", words)
    return _LENGTH.sub(lambda found: _shown(found[1], style), words)


def _shown(number: str, style: LengthStyle) -> str:
    return format_exact(float(number), style)
