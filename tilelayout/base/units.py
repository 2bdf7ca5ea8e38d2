"""Lengths as a person writes them, and as the program shows them. All else in the program is in mm.

Reading never guesses: what could mean two lengths is refused with a hint. It works in exact fractions and
rounds once, at the end, so that 5' 3 1/2" is the double nearest to 1612.9 and survives any number of saves.
What is shown is rounded, and is never read back as the value.
"""

from __future__ import annotations

import math
import re
import unicodedata
from enum import StrEnum
from fractions import Fraction

from tilelayout.base.errors import LengthError
from tilelayout.base.tolerance import LARGEST_LENGTH, SAME_PLACE


class LengthStyle(StrEnum):
    """How lengths are shown, and what a bare number typed by a person means."""

    MM = "mm"
    CM = "cm"
    M = "m"
    INCH = "inch"
    FEET = "feet"
    DECIMAL_FEET = "decimal-feet"

    @property
    def is_metric(self) -> bool:
        """Whether lengths are shown in mm, cm or m."""
        return self in (LengthStyle.MM, LengthStyle.CM, LengthStyle.M)


INCH = Fraction(127, 5)
"""An inch in mm, exactly (international yard and pound agreement of 1959: 1 yd = 0.9144 m)."""

FOOT = 12 * INCH

SQUARE_FOOT = float(FOOT * FOOT)
"""A square foot in mm2."""

POUND = 0.45359237
"""A pound in kg, exactly (international yard and pound agreement of 1959)."""

POUND_PER_SQUARE_FOOT = POUND / (SQUARE_FOOT / 1e6)
"""A pound to the square foot in kg/m2."""

FINEST_FRACTION = 64
"""The finest part of an inch that a steel rule carries."""

_METRIC = {LengthStyle.MM: (1, 0), LengthStyle.CM: (10, 1), LengthStyle.M: (1000, 3)}
"""Size in mm, and how many decimals more than mm it takes to show the same length."""

_SMALL_IN_METRES = 100.0
"""A length under this in mm is said in mm by those who measure in metres."""

_NAMES = {
    "mm millimetre millimetres millimeter millimeters": Fraction(1),
    "cm centimetre centimetres centimeter centimeters": Fraction(10),
    "m metre metres meter meters": Fraction(1000),
    '" in inch inches': INCH,
    "' ft foot feet": FOOT,
}
_UNITS = {name: size for names, size in _NAMES.items() for name in names.split()}

_IMPERIAL_FORMS = ('63 1/2"', "5' 3 1/2\"")
_USUAL_FORMS = {
    LengthStyle.MM: ("1600 mm", "1.6 m"),
    LengthStyle.CM: ("160 cm", "1.6 m"),
    LengthStyle.M: ("1.6 m", "160 cm"),
    LengthStyle.INCH: _IMPERIAL_FORMS,
    LengthStyle.FEET: _IMPERIAL_FORMS[::-1],
    LengthStyle.DECIMAL_FEET: ("5.29'", _IMPERIAL_FORMS[1]),
}

_MARKS = str.maketrans(
    {"‘": "'", "’": "'", "‚": "'", "‛": "'", "′": "'", "`": "'", "´": "'", "ʹ": "'", "ʼ": "'"}
    | {"“": '"', "”": '"', "„": '"', "‟": '"', "″": '"', "ʺ": '"'}
    | {"‐": "-", "‑": "-", "‒": "-", "–": "-", "—": "-", "−": "-", "⁄": "/", "∕": "/"}
)

_DECIMAL = r"\d+(?:[.,]\d*)?|[.,]\d+"
_NUMBER = rf"(?:\d+[ ]*[- ][ ]*)?\d+[ ]*/[ ]*\d+|\d{{1,3}}(?:[ ]\d{{3}})+(?:[.,]\d+)?|{_DECIMAL}"
_UNIT = r"""['"]|[a-z]+\.?"""
_ONE = re.compile(rf"(?P<number>{_NUMBER})[ ]*(?P<unit>{_UNIT})?", re.ASCII)
_TWO = re.compile(
    rf"(?P<feet>{_NUMBER})[ ]*(?P<foot>'|ft\.?|foot|feet)[ ]*-?[ ]*"
    rf"""(?P<inches>{_NUMBER})[ ]*(?:"|in\.?|inch|inches)?""",
    re.ASCII,
)
_DASHED = re.compile(r"(\d+)[ ]*[- ][ ]*(\d+(?:\.\d+)?)(?:[ ]*[- ][ ]*(\d+[ ]*/[ ]*\d+))?", re.ASCII)
_LONGEST_TEXT = 60


def parse_length(text: str, style: LengthStyle = LengthStyle.MM, *, signed: bool = False) -> float:
    """Return the length in mm that `text` says; a sign is allowed only if `signed`.

    A bare number is in the unit of `style`; in both feet styles it is inches.
    Raises LengthError, which says why and shows two forms that would be accepted.

    >>> parse_length("5' 3-1/2\\""), parse_length("1,6 m"), parse_length("63 1/2", LengthStyle.INCH)
    (1612.9, 1600.0, 1612.9)
    """
    if len(text) > _LONGEST_TEXT:
        raise _refusal(text, "it is far too long", style)
    plain = _plain(text)
    if plain[:1] == "-" and not signed:
        raise _refusal(text, "it must not be negative", style, plain[1:].lstrip())
    sign = -1 if plain[:1] == "-" else 1
    exact = _unsigned(text, plain.removeprefix("-" if sign < 0 else "+").lstrip(), style)
    if exact > LARGEST_LENGTH:
        raise _refusal(text, "it is more than a kilometre", style)
    return sign * float(exact) if exact else 0.0


def _plain(text: str) -> str:
    """Return the text in small letters with plain quotes, hyphens and spaces, fractions written out."""
    written_out = "".join(_fraction_sign(character) for character in text.translate(_MARKS))
    return " ".join(written_out.lower().replace("''", '"').split())


def _fraction_sign(character: str) -> str:
    """Return " 1/2" for the single character, and any other character as it is."""
    if unicodedata.decomposition(character).startswith("<fraction>"):
        return " " + unicodedata.normalize("NFKC", character).replace("⁄", "/")
    return character


def _unsigned(text: str, plain: str, style: LengthStyle) -> Fraction:
    if not re.search(r"\d", plain, re.ASCII):
        raise _refusal(text, "there is no number in it" if plain else "it is empty", style)
    two = _TWO.fullmatch(plain)
    if two:
        return _feet_and_inches(text, two, style)
    one = _ONE.fullmatch(plain)
    if one:
        return _one_number(text, one, style)
    raise _not_understood(text, plain, style)


def _feet_and_inches(text: str, match: re.Match[str], style: LengthStyle) -> Fraction:
    feet = _number(text, match["feet"], style)
    inches = _number(text, match["inches"], style)
    if feet.denominator != 1:
        raise _refusal(text, "a part of a foot is followed by inches", style)
    if inches >= 12:
        sum_feet, rest = divmod(feet * 12 + inches, 12)
        forms = (f"{sum_feet}' {_mixed(rest)}\"", f'{_mixed(feet * 12 + inches)}"')
        raise _refusal(text, "a foot has only 12 inches", style, *forms)
    return feet * FOOT + inches * INCH


def _one_number(text: str, match: re.Match[str], style: LengthStyle) -> Fraction:
    number = _number(text, match["number"], style)
    if match["unit"] is None:
        return number * _bare_unit(text, match["number"], style)
    unit = match["unit"].removesuffix(".")
    if unit not in _UNITS:
        raise _refusal(text, f"{unit} is no unit of length known here", style)
    return number * _UNITS[unit]


def _bare_unit(text: str, number: str, style: LengthStyle) -> Fraction:
    """Return what a number without a unit counts. A lone 1/8 is surely no eighth of a millimetre."""
    if not style.is_metric:
        return INCH
    if re.fullmatch(r"\d+ ?/ ?\d+", number):
        raise _refusal(text, "a fraction needs its unit here", style, f'{number}"', f"{number} {style}")
    return Fraction(_METRIC[style][0])


def _number(text: str, written: str, style: LengthStyle) -> Fraction:
    """Return a decimal, a fraction or a whole number and a fraction, exactly."""
    if "/" in written:
        return _with_fraction(text, written, style)
    digits = written.replace(" ", "")
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        forms = (text.replace(",", ""), text.replace(",", "."))
        raise _refusal(text, "the comma could part thousands or decimals", style, *forms)
    return Fraction("0" + digits.replace(",", ".").removesuffix("."))


def _with_fraction(text: str, written: str, style: LengthStyle) -> Fraction:
    over, under = (part.strip() for part in written.split("/"))
    *whole, above = re.split(r"[- ]+", over)
    below = int(under)
    if not 1 < below <= FINEST_FRACTION:
        raise _refusal(text, f"a fraction goes from 1/2 to 1/{FINEST_FRACTION}", style)
    if whole and int(above) >= below:
        raise _refusal(text, f"{above}/{under} after a whole number is one or more", style)
    return int(whole[0] if whole else 0) + Fraction(int(above), below)


def _not_understood(text: str, plain: str, style: LengthStyle) -> LengthError:
    """Return the error that fits a text no form matches."""
    dashed = _DASHED.fullmatch(plain.removesuffix('"').rstrip())
    if dashed:
        return _refusal(text, "it could be feet and inches or a sum", style, *_dashed_forms(dashed))
    if re.search(r"\d[.,' ]\d{3}[.,]\d", plain) or plain.count(",") > 1 or plain.count(".") > 1:
        return _refusal(text, "thousands are written without a mark", style)
    if "-" in plain and "/" not in plain:
        return _refusal(text, "a hyphen stands only before a fraction", style)
    return _refusal(text, "it is not written like a length", style)


def _dashed_forms(dashed: re.Match[str]) -> tuple[str, str]:
    """Return 5-3-1/2 as feet and inches, and as inches alone if the inches are a sum."""
    feet, inches, fraction = dashed.groups()
    tail = f"{inches}-{fraction}" if fraction else inches
    return f"{feet}' {tail}\"", f"{feet} ft {tail} in"


def _mixed(value: Fraction) -> str:
    """Return a number with its fraction, as a person writes it: 3 1/2."""
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def _refusal(text: str, why: str, style: LengthStyle, *candidates: str) -> LengthError:
    """Return the error, with two forms: the candidates that would be read, then what suits the style."""
    forms = [form for form in candidates if _is_read(form, style)]
    forms += [form for form in _USUAL_FORMS[style] if form not in forms]
    return LengthError(text, why, (forms[0], forms[1]))


def _is_read(form: str, style: LengthStyle) -> bool:
    try:
        parse_length(form, style, signed=True)
    except LengthError:
        return False
    return True


def format_length(mm: float, style: LengthStyle, *, fraction: int = 16, decimals: int = 1) -> str:
    """Return a length as `style` shows it, rounded to the nearest step, ties away from zero.

    Inches are shown to 1/`fraction` (1 to 64); metric lengths to `decimals` decimals of a mm, and no more
    of them than it takes. Who measures in metres still says a few centimetres in mm.

    >>> format_length(1612.9, LengthStyle.FEET), format_length(2438.4, LengthStyle.M)
    ('5\\' 3 1/2"', '2.4384 m')
    >>> format_length(48.5, LengthStyle.M), format_length(48.5, LengthStyle.CM)
    ('48.5 mm', '4.85 cm')
    """
    if not 1 <= fraction <= FINEST_FRACTION:
        raise ValueError(f"an inch is shown in 1 to {FINEST_FRACTION} parts, not {fraction}")
    shown = _shown(abs(mm), style, fraction, decimals)
    return f"-{shown}" if mm < 0 and re.search("[1-9]", shown) else shown


def _shown(mm: float, style: LengthStyle, fraction: int, decimals: int) -> str:
    if style.is_metric:
        shown = _steps(mm, 10.0**-decimals) * 10.0**-decimals
        is_small = style is LengthStyle.M and 0.0 < shown < _SMALL_IN_METRES
        unit = LengthStyle.MM if is_small else style
        return f"{metric_number(mm, unit, decimals)} {unit}"
    if style is LengthStyle.DECIMAL_FEET:
        return f"{_decimal(mm / float(FOOT), 2)}'"
    inches = Fraction(_steps(mm, float(INCH) / fraction), fraction)
    feet, rest = divmod(inches, 12)
    if style is LengthStyle.INCH or not feet:
        return f'{_mixed(inches)}"'
    return f"{feet}' {_mixed(rest)}\""


def metric_number(mm: float, style: LengthStyle, decimals: int = 1) -> str:
    """Return a length as a bare number in the unit of a metric style, to `decimals` decimals of a mm.

    >>> metric_number(48.5, LengthStyle.M)
    '0.0485'
    """
    size, more = _METRIC[style]
    return _decimal(mm / size, decimals + more)


def _decimal(value: float, places: int) -> str:
    """Return the number with at most so many decimals and no idle zeros."""
    steps = _steps(value, 10.0**-places)
    whole, part = divmod(steps, 10**places)
    return f"{whole}.{part:0{places}d}".rstrip("0").removesuffix(".") if places else str(whole)


def _steps(value: float, step: float) -> int:
    """Return how many steps are nearest, ties up; a hair of rounding below a tie still counts as one."""
    return math.floor(value / step + 0.5 + 1e-7)


def format_area(mm2: float, style: LengthStyle) -> str:
    """Return an area as "8.91 m\u00b2" in metric styles, else as "95.9 sq ft"."""
    if style.is_metric:
        return f"{mm2 / 1e6:.2f} m\u00b2"
    return f"{mm2 / SQUARE_FOOT:.1f} sq ft"


def format_fine(mm: float, style: LengthStyle) -> str:
    """Return a small length in decimals: to 0.1 mm in metric styles, else to a thousandth of an inch.

    >>> format_fine(2.2352, LengthStyle.CM), format_fine(2.2352, LengthStyle.FEET)
    ('2.2 mm', '0.088"')
    """
    if style.is_metric:
        return f"{_decimal(mm, 1)} mm"
    return f'{_decimal(mm / float(INCH), 3)}"'


def format_weight_per_area(kg_per_m2: float, style: LengthStyle) -> str:
    """Return a weight per area as "28 kg/m\u00b2" in metric styles, else as "5.7 lb/sq ft".

    >>> format_weight_per_area(28.04, LengthStyle.MM), format_weight_per_area(28, LengthStyle.FEET)
    ('28 kg/m\u00b2', '5.7 lb/sq ft')
    """
    if style.is_metric:
        return f"{_decimal(kg_per_m2, 1)} kg/m\u00b2"
    return f"{_decimal(kg_per_m2 / POUND_PER_SQUARE_FOOT, 1)} lb/sq ft"


def cut_size(mm: float, style: LengthStyle) -> float:
    """Return the size in mm to set on the saw: rounded down to 1 mm, or to 1/16 in.

    Down, so that pieces and joints never add up to more than the space. A size that is on a step but for
    the rounding of arithmetic keeps it.

    >>> cut_size(243.9, LengthStyle.MM), cut_size(25.4, LengthStyle.INCH)
    (243.0, 25.4)
    """
    step = Fraction(1) if style.is_metric else INCH / 16
    return float(math.floor((mm + SAME_PLACE) / float(step)) * step)
