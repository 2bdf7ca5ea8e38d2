"""What to mind at the saw, in few words, on the first page of the cut list where it will be seen.

The dangers are those of the trade: silica dust from dry cutting (in the United States 29 CFR 1926.1153 asks
for a saw that feeds water to the blade), water beside mains power, flying chips and noise, wet cement on
the skin. The rest is common practice. Local rules come first, and nothing here approves a plan.
"""

from __future__ import annotations

from tilelayout.practice.subjects.cautions import USUAL
from tilelayout.reports.figure import Mark, Pen, Place, Role, Text
from tilelayout.reports.marks import MEDIUM, box
from tilelayout.reports.sheets.page import paragraph
from tilelayout.reports.type_size import POINT, wrapped

_SIZE = 9 * POINT
_LEADING = 1.3

CAUTIONS = tuple((caution.title, caution.words) for caution in USUAL)
_LAST = "Local codes and the makers' instructions come before this sheet."


def cautions_block(at: Place, width: float) -> tuple[tuple[Mark, ...], float]:
    """Return the cautions in two columns in a box, its upper left corner at `at`, and its height in mm."""
    x, y = at
    column = width / 2 - 5.0
    texts = [wrapped(words, _SIZE, column) for _, words in CAUTIONS]
    tall = [
        (1 + max(len(a), len(b))) * _SIZE * _LEADING + 1.6
        for a, b in zip(texts[::2], texts[1::2], strict=True)
    ]
    height = sum(tall) + 3.0 + _SIZE * _LEADING + 1.5
    marks: list[Mark] = [box(x, y - height, width, height, pen=Pen(Role.INK, MEDIUM))]
    for number, ((title, _), lines) in enumerate(zip(CAUTIONS, texts, strict=True)):
        left = x + 3.0 + number % 2 * (column + 4.0)
        top = y - 2.0 - sum(tall[: number // 2]) - _SIZE
        marks.append(Text((left, top), title, _SIZE, is_bold=True))
        marks += paragraph((left, top - _SIZE * _LEADING), lines, _SIZE, leading=_LEADING)
    marks.append(Text((x + 3.0, y - height + 2.4), _LAST, _SIZE))
    return tuple(marks), height
