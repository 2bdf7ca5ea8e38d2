"""Lengths as people write them. The written forms are common practice on tapes and drawings; no source.

Values in inches rest on the inch of exactly 25.4 mm (yard and pound agreement of 1959).
"""

from __future__ import annotations

import pytest

from tilelayout.base.errors import LengthError
from tilelayout.base.units import LengthStyle, parse_length

MM, CM, M = LengthStyle.MM, LengthStyle.CM, LengthStyle.M
INCH, FEET, DECIMAL_FEET = LengthStyle.INCH, LengthStyle.FEET, LengthStyle.DECIMAL_FEET

WRITTEN = [
    ("5' 3-1/2\"", MM, 1612.9),
    ("5' 3 1/2", MM, 1612.9),
    ("5'3.5\"", MM, 1612.9),
    ("1.6 m", MM, 1600.0),
    ("1,6 m", MM, 1600.0),
    ("3'", MM, 914.4),
    ("7''", MM, 177.8),
    ("63 1/2", INCH, 1612.9),
    ("63 1/2", FEET, 1612.9),
    ("63 1/2", DECIMAL_FEET, 1612.9),
    ('63.5"', MM, 1612.9),
    ("5ft 3.5in", MM, 1612.9),
    ("160 cm", INCH, 1600.0),
    ("1600", MM, 1600.0),
    ("160", CM, 1600.0),
    ("1.6", M, 1600.0),
    ("1/8", INCH, 3.175),
    ("0'-7 1/16\"", MM, 179.3875),
    ("0", MM, 0.0),
]


@pytest.mark.parametrize(("text", "style", "mm"), WRITTEN)
def test_every_usual_form_is_read(text: str, style: LengthStyle, mm: float) -> None:
    assert parse_length(text, style) == mm


@pytest.mark.parametrize(
    "text",
    [
        "5′ 3 1/2″",
        "5’ 3 1/2”",
        "5‘3½“",
        "5'3 ½''",
        "5' 3 1⁄2",
        "5 FT 3–1/2 IN",
        " 5ft.3-1/2in. ",
        "5 feet 3 - 1/2 inches",
        "5 foot 3 1 / 2",
        "5'\u00a03\u20091/2\"",
        "5' - 3 1/2\"",
        "5'-3-1/2\"",
        '63-1/2"',
        "63½ in",
        "161.29 cm",
        "1612,9",
        "1 612.9 mm",
        "1,6129 metres",
    ],
)
def test_marks_spaces_case_and_words_make_no_difference(text: str) -> None:
    assert parse_length(text) == 1612.9


@pytest.mark.parametrize(("text", "mm"), [("1,6 m", 1600), ("0,600 m", 600), ("1,60 m", 1600), (",5 cm", 5)])
def test_a_decimal_comma_is_never_a_thousandfold(text: str, mm: float) -> None:
    assert parse_length(text) == mm


@pytest.mark.parametrize("sixty_fourths", range(1, 64))
def test_every_fraction_of_a_steel_rule_is_read_exactly(sixty_fourths: int) -> None:
    assert parse_length(f'2-{sixty_fourths}/64"') == pytest.approx(25.4 * (2 + sixty_fourths / 64), abs=1e-12)


@pytest.mark.parametrize(
    ("text", "forms"),
    [
        ("5-3-1/2", ("5' 3-1/2\"", "5 ft 3-1/2 in")),
        ("5 3 1/2", ("5' 3-1/2\"", "5 ft 3-1/2 in")),
        ("5-3", ("5' 3\"", "5 ft 3 in")),
        ("1,600", ("1600", "1.600")),
        ("1,600 mm", ("1600 mm", "1.600 mm")),
        ("5' 14\"", ("6' 2\"", '74"')),
        ("1/8", ('1/8"', "1/8 mm")),
    ],
)
def test_what_could_mean_two_lengths_is_refused_with_both(text: str, forms: tuple[str, str]) -> None:
    with pytest.raises(LengthError) as caught:
        parse_length(text, MM)
    assert caught.value.forms == forms


WRONG = [
    "", "  ", "wide", "'", '"', "five", "5 yd", "5'' 3'", "5' 3' 1\"", "1.234,5", "1,234,567", "1.2.3",
    "3 9/8", "3 1/65", "1/0", "0/0", "1/2/3", "5.5' 3\"", "3 1/2.5", "1e3", "nan", "inf", "١٢", "12 mm 3",
    "2 m 30", "5-", "5--3/4", "1,600", "9" * 100, "2000 m", "1000001", "-2", "−2 mm", "- 1/8", "5' 12\"",
    "12'600", "5-13", "0x10", "1_000", "1 60", "½½",
]  # fmt: skip


@pytest.mark.parametrize("style", LengthStyle)
@pytest.mark.parametrize("text", WRONG)
def test_a_wrong_entry_is_named_with_two_forms_that_would_be_read(text: str, style: LengthStyle) -> None:
    with pytest.raises(LengthError) as caught:
        parse_length(text, style)
    error = caught.value
    assert text[:20] in str(error)
    assert error.why in str(error)
    assert len(set(error.forms)) == 2
    for form in error.forms:
        assert form in str(error)
        assert parse_length(form, style) >= 0


def test_a_sign_is_read_only_where_an_offset_stands() -> None:
    assert parse_length("-2", signed=True) == -2
    assert parse_length("− 5' 3 1/2\"", signed=True) == -1612.9
    assert parse_length("+2") == 2
    with pytest.raises(LengthError, match="negative"):
        parse_length("-2")


def test_nought_has_no_sign() -> None:
    assert str(parse_length("-0", signed=True)) == "0.0"


def test_a_length_is_read_without_drift() -> None:
    """The double nearest to the decimal value, not one that went through a chain of roundings."""
    assert [parse_length(f'{n}/64"') for n in range(1, 65 - 1)] == [
        float(n * 127 / 320) for n in range(1, 64)
    ]
