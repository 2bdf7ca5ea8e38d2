from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tilelayout.reports.pdf_letters import run_width, runs
from tilelayout.reports.type_size import shortened, text_width, wrapped

LETTERS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]) | st.just(" "), max_size=30)


@pytest.mark.parametrize("is_bold", [False, True])
@given(words=LETTERS)
@settings(max_examples=60)
def test_a_text_is_never_wider_than_thought(words: str, is_bold: bool) -> None:
    printed = sum(run_width(run, 10.0) for run in runs(words, is_bold=is_bold))
    assert printed <= text_width(words, 10.0, is_bold=is_bold) + 1e-6


@pytest.mark.parametrize("is_bold", [False, True])
def test_plain_text_is_exactly_as_wide_as_the_core_font_prints_it(is_bold: bool) -> None:
    """The reference is the metrics table of the PDF writer, which is that of the core fonts."""
    words = 'Rip to 9 3/4" × 143 mm, keep the lower edge (48 %) ° ² ½'
    printed = sum(run_width(run, 10.0) for run in runs(words, is_bold=is_bold))
    assert text_width(words, 10.0, is_bold=is_bold) == pytest.approx(printed)


def test_what_fits_is_left_as_it_is() -> None:
    assert shortened("Cut list", 4.0, 100.0) == "Cut list"


@given(words=LETTERS, width=st.floats(8.0, 60.0))
@settings(max_examples=60)
def test_a_shortened_text_fits(words: str, width: float) -> None:
    assert text_width(shortened(words, 4.0, width), 4.0) <= width


@given(words=st.lists(st.text("abcdefgh", min_size=1, max_size=8), max_size=20), width=st.floats(30.0, 80.0))
@settings(max_examples=60)
def test_wrapping_loses_no_word_and_keeps_to_the_width(words: list[str], width: float) -> None:
    lines = wrapped(" ".join(words), 4.0, width)
    assert " ".join(lines).split() == words
    assert all(text_width(line, 4.0) <= width for line in lines)
