"""Reads a pasted table or a file of comma-separated values into height readings.

One reading a line: x, y and height, in any unit a person writes, in columns parted by tabs, semicolons,
commas or spaces. A first line of words is a heading and may put the columns in another order. Headed "step",
the third column says how much higher each place is than the one before, as a level shows it that is carried
from place to place. Empty lines and what follows a # are passed over. Nothing is guessed: a line that could
mean two things is refused, with its number.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import accumulate

from tilelayout.base.errors import LengthError, TileLayoutError
from tilelayout.base.units import LengthStyle, parse_length

Reading = tuple[float, float, float]

_HEADINGS = {
    "x": "x right across along east easting",
    "y": "y up away north northing",
    "height": "height z h level reading elevation out",
    "step": "step rise difference",
}
_COLUMN = {word: column for column, words in _HEADINGS.items() for word in words.split()}
_ORDER = ("x", "y", "height")


class ReadingError(TileLayoutError):
    """A table that cannot be read; `line` counts from one."""

    def __init__(self, line: int, what: str, mend: str) -> None:
        super().__init__(f"Line {line}: {what}", mend)
        self.line = line


def read_table(
    text: str, style: LengthStyle = LengthStyle.MM, height_style: LengthStyle | None = None
) -> tuple[Reading, ...]:
    """Return the readings (x, y, height) in mm that a table holds, in order.

    A bare number is in the unit of `style`, a height in that of `height_style` if it is another. Raises
    ReadingError with the number of the line.

    >>> read_table("x;y;height\\n0;0;1,5\\n30 cm;0;2")
    ((0.0, 0.0, 1.5), (300.0, 0.0, 2.0))
    >>> read_table("x;y;step\\n0;0;0\\n30 cm;0;2\\n60 cm;0;-0,5")
    ((0.0, 0.0, 0.0), (300.0, 0.0, 2.0), (600.0, 0.0, 1.5))
    """
    lines = list(_lines(text))
    if not lines:
        raise ReadingError(1, "There is no reading.", "Paste lines of x, y and height.")
    order: tuple[str, ...] = _ORDER
    readings = []
    for number, line in lines:
        cells = _cells(number, line, is_first=number == lines[0][0])
        if number == lines[0][0] and _is_heading(cells):
            order = _order(number, cells)
        else:
            readings.append(_reading(number, cells, order, (style, style, height_style or style)))
    if not readings:
        raise ReadingError(lines[0][0], "Below the heading there is no reading.", "Add x, y and height.")
    return _summed(readings) if "step" in order else tuple(readings)


def _summed(steps: list[Reading]) -> tuple[Reading, ...]:
    """Return the heights above the place before the first."""
    heights = accumulate(step for _, _, step in steps)
    return tuple((x, y, height) for (x, y, _), height in zip(steps, heights, strict=True))


def _lines(text: str) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(text.lstrip("\ufeff").splitlines(), start=1):
        kept = line.partition("#")[0].strip()
        if kept:
            yield number, kept


def _cells(number: int, line: str, *, is_first: bool) -> list[str]:
    """Return the columns of a line: parted by the first of tab, semicolon, comma, spaces that fits."""
    for separator in ("\t", ";"):
        if separator in line:
            return [cell.strip() for cell in line.rstrip(separator).split(separator)]
    by_comma, by_space = [cell.strip() for cell in line.split(",")], line.split()
    if len(by_comma) == 3:
        return by_comma
    if len(by_space) == 3 or (is_first and _is_heading(by_space)):
        return by_space
    if is_first and _is_heading(by_comma):
        return by_comma
    if len(by_comma) in (4, 5, 6):
        what = "commas may part columns or decimals here."
        raise ReadingError(number, f"The {what}", "Part the columns by semicolons or tabs.")
    count = max(len(by_comma), 1) if "," in line else len(by_space)
    what = f"There {'is' if count == 1 else 'are'} {count} of the three columns x, y and height."
    raise ReadingError(number, what, "Part three columns by tabs, semicolons, commas or spaces.")


def _is_heading(cells: list[str]) -> bool:
    """Claim that no cell begins with a number."""
    return all(cell and not re.match(r"\"?\s*[-+.,]?\s*\d", cell) for cell in cells)


def _order(number: int, cells: list[str]) -> tuple[str, ...]:
    words = [re.split(r"[\s(\[/]", cell.strip("\"' ").lower())[0] for cell in cells]
    order = tuple(_COLUMN.get(word, "") for word in words)
    for column in ("x", "y", "step") if "step" in order and "height" not in order else _ORDER:
        if order.count(column) != 1:
            what = f"The heading names {'no' if column not in order else 'more than one'} column {column}."
            raise ReadingError(number, what, "Head the columns x, y and height, or leave the heading out.")
    return order


def _reading(
    number: int, cells: list[str], order: tuple[str, ...], styles: tuple[LengthStyle, ...]
) -> Reading:
    if len(cells) != len(order):
        what = f"There are {len(cells)} columns, and {len(order)} are wanted."
        raise ReadingError(number, what, "Give x, y and height.")
    by_name = dict(zip(order, cells, strict=True))
    names = ("x", "y", "step" if "step" in order else "height")
    x, y, height = (
        _length(number, name, by_name[name], style) for name, style in zip(names, styles, strict=True)
    )
    return x, y, height


def _length(number: int, column: str, cell: str, style: LengthStyle) -> float:
    text = cell[1:-1] if len(cell) > 1 and cell[0] == cell[-1] == '"' else cell
    try:
        return parse_length(text, style, signed=True)
    except LengthError as error:
        raise ReadingError(number, f"{column}: {error.what}", error.mend) from None
