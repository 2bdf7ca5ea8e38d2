"""How wide a text will be, so that a figure can be composed without a device.

The widths are those of the plain sans-serif that every PDF reader brings (the core font metrics published
for the PDF format, in thousandths of the type size). A letter that stands in no row of the table counts as
wide as the widest letter of its script in any fallback: a text may end up narrower than thought, never
wider.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache

POINT = 25.4 / 72
"""One printer's point in mm."""

CAP = 0.718
"""Height of a capital letter or a figure as a share of the type size."""

_REGULAR_ROWS = {
    191: "'",
    222: "ijl‘’",
    260: "|",
    278: " !,./:;I[\\]ft·",
    333: "()-`r²“”",
    334: "{}",
    350: "•",
    355: '"',
    389: "*",
    400: "°",
    469: "^",
    500: "Jcksvxyz",
    556: "#$0123456789?L_abdeghnopqu–",
    584: "+<=>~×±",
    611: "FTZ",
    667: "&ABEKPSVXY",
    722: "CDHNRUw",
    778: "GOQ",
    833: "Mm",
    834: "½¼¾",
    889: "%",
    944: "W",
    1000: "—",
    1015: "@",
}
_BOLD_ROWS = {
    238: "'",
    278: " ,./I\\ijl‘’·",
    280: "|",
    333: "!()-:;[]`ft²",
    350: "•",
    389: "*r{}",
    400: "°",
    474: '"',
    500: "z“”",
    556: "#$0123456789J_aceksvxy–",
    584: "+<=>^~×±",
    611: "?FLTZbdghnopqu",
    667: "EPSVXY",
    722: "&ABCDHKNRU",
    778: "GOQw",
    833: "M",
    834: "½¼¾",
    889: "%m",
    944: "W",
    975: "@",
    1000: "—",
}
_ONE_SIZE = 1000
_WIDEST = 1600
_NARROWEST, _MARKED = 278, 1.4
"""An i with an accent is wider than without; a letter with a mark may come from a wider fallback."""

_REGULAR = {letter: width for width, letters in _REGULAR_ROWS.items() for letter in letters}
_BOLD = {letter: width for width, letters in _BOLD_ROWS.items() for letter in letters}


def text_width(words: str, height: float, *, is_bold: bool = False) -> float:
    """Return the width in mm of `words` at a type size of `height` mm; never too small.

    >>> round(text_width("10", 10.0), 2)
    11.12
    """
    return _thousandths(words, is_bold) * height / 1000


@lru_cache(maxsize=4096)
def _thousandths(words: str, is_bold: bool) -> float:
    """Return the width of `words` in thousandths of the type size; the same words come again and again."""
    table = _BOLD if is_bold else _REGULAR
    return sum(_letter_width(letter, table) for letter in unicodedata.normalize("NFC", words))


def shortened(words: str, height: float, width: float, *, is_bold: bool = False) -> str:
    """Return `words`, or as much of them as fits in `width` mm with three dots at the end."""
    if text_width(words, height, is_bold=is_bold) <= width:
        return words
    room = width - text_width("...", height, is_bold=is_bold)
    kept = 0
    while kept < len(words) and text_width(words[: kept + 1], height, is_bold=is_bold) <= room:
        kept += 1
    return words[:kept].rstrip() + "..."


def wrapped(words: str, height: float, width: float, *, is_bold: bool = False) -> tuple[str, ...]:
    """Break `words` at spaces into lines no wider than `width` mm; a word too long is shortened."""
    lines: list[str] = []
    room, space, taken = width * 1000 / height, _thousandths(" ", is_bold), 0.0
    for word in words.split():
        longer = taken + space + _thousandths(word, is_bold)
        if lines and longer <= room:
            lines[-1], taken = f"{lines[-1]} {word}", longer
        else:
            lines.append(shortened(word, height, width, is_bold=is_bold))
            taken = _thousandths(lines[-1], is_bold)
    return tuple(lines)


def _letter_width(letter: str, table: dict[str, int]) -> float:
    if letter in table:
        return table[letter]
    plain = unicodedata.normalize("NFD", letter)[0]
    if plain != letter and plain in table:
        return max(table[plain], _NARROWEST) * _MARKED
    return _ONE_SIZE if _is_cyrillic_or_asian(letter) else _WIDEST


def _is_cyrillic_or_asian(letter: str) -> bool:
    code = ord(letter)
    return 0x0400 <= code < 0x0460 or 0x3040 <= code < 0xFB00
