"""Which font prints which letter, so that a title in any script reaches the paper.

Plain text uses the sans-serif every PDF reader brings, which costs nothing in the file. A letter it lacks
comes from the embedded font in `resources/fonts`, Chinese, Japanese and Korean from the readers' own Asian
fonts, and what none of them has is printed as an empty square rather than dropped.
"""

from __future__ import annotations

import unicodedata
from functools import cache

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.cidfonts import UnicodeCIDFont
from reportlab.pdfbase.ttfonts import TTFont

from tilelayout.base.resources import resource

PLAIN = "Helvetica"
BOLD = "Helvetica-Bold"
_EMBEDDED = "FallbackSans"
_ASIAN = {
    "CJK": "STSong-Light",
    "HIRAGANA": "HeiseiKakuGo-W5",
    "KATAKANA": "HeiseiKakuGo-W5",
    "HANGUL": "HYSMyeongJo-Medium",
}
_MISSING = "\u25a1"

Run = tuple[str, str]
"""A font's name and the letters it prints."""


def runs(words: str, *, is_bold: bool = False) -> tuple[Run, ...]:
    """Split `words` into runs of letters that one font can print; control letters are left out."""
    found: list[Run] = []
    for letter in unicodedata.normalize("NFC", words):
        if unicodedata.category(letter).startswith("C"):
            continue
        font, shown = _font_of(letter, is_bold)
        if found and found[-1][0] == font:
            found[-1] = (font, found[-1][1] + shown)
        else:
            found.append((font, shown))
    return tuple(found)


def run_width(run: Run, height: float) -> float:
    """Return the width of a run in the unit of `height`."""
    return float(pdfmetrics.stringWidth(run[1], run[0], height))


@cache
def _font_of(letter: str, is_bold: bool) -> Run:
    if _is_plain(letter):
        return (BOLD if is_bold else PLAIN, letter)
    if ord(letter) in _embedded().face.charToGlyph:
        return (_EMBEDDED, letter)
    asian = _ASIAN.get(unicodedata.name(letter, "").split(" ", maxsplit=1)[0])
    if asian and ord(letter) < 0x10000:
        pdfmetrics.registerFont(UnicodeCIDFont(asian))
        return (asian, letter)
    return (_EMBEDDED, _MISSING)


def _is_plain(letter: str) -> bool:
    try:
        return bool(letter.encode("cp1252"))
    except UnicodeEncodeError:
        return False


@cache
def _embedded() -> TTFont:
    font = TTFont(_EMBEDDED, str(resource("fonts/DejaVuSansCondensed.ttf")))
    pdfmetrics.registerFont(font)
    return font
