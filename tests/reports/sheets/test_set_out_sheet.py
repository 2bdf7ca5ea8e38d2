from __future__ import annotations

import re

import pytest

from tests.reports import cast
from tests.reports.conftest import Printer
from tests.reports.reading import texts
from tilelayout.base.units import LengthStyle, parse_length
from tilelayout.planning.fixed_walls import Axis
from tilelayout.planning.joints import running_marks, start_lines
from tilelayout.planning.plan import plan
from tilelayout.reports.figure import Text
from tilelayout.reports.sheets.running_marks import marks_block

AXES: tuple[Axis, ...] = ("x", "y")


def _set_out(pages: list[str]) -> str:
    return " ".join(text for text in pages if re.search(r"Set out", text.splitlines()[0]))


def test_both_ends_of_each_start_line_are_found_from_fixed_walls(printed: Printer) -> None:
    job = cast.potting_shed(LengthStyle.MM)
    said = _set_out(texts(printed(job)))
    for number, line in enumerate(start_lines(plan(job, "A")), start=1):
        sentence = re.search(rf"Line {number}: (.*?)\.", said)
        assert sentence
        distances = [parse_length(found) for found in re.findall(r"\d+ mm", sentence[1])]
        expected = [mark.distance for mark in (*line.at_start, *line.at_end)]
        assert sorted(distances) == pytest.approx(sorted(expected), abs=0.5)


def test_joint_marks_run_from_the_wall_and_roundings_do_not_add_up() -> None:
    found = plan(cast.dance_hall(), "A")
    for axis in AXES:
        marks = running_marks(found, axis)
        assert marks
        block = marks_block(marks, found.style, 190.0)
        said = [parse_length(m.words) for m in block.marks if isinstance(m, Text) and m.words.endswith(" mm")]
        assert len(said) == len(marks.marks) > 50
        assert said == pytest.approx(marks.marks, abs=0.5 + 1e-6)


def test_counts_are_printed_and_the_bound_is_said_honestly(printed: Printer) -> None:
    job = cast.potting_shed()
    found = plan(job, "A")
    said = " ".join(texts(printed(job))[0].split())
    for figure in (found.tiles_needed, found.whole, found.cut, len(found.slivers)):
        assert re.search(rf"\b{figure}\b", said)
    assert f"{found.tiles_needed} tiles, with offcuts shared: no plan takes fewer." in said
    assert found.sharing.is_fewest
    assert f"One for each cut piece would be {found.whole + found.cut}." in said


def test_tile_joint_and_gap_are_named(printed: Printer) -> None:
    said = texts(printed(cast.skew_porch()))[0]
    for words in ("Grey stone 300 x 600", "597 mm × 297 mm", "joints 3 mm", "gap at walls 6 mm"):
        assert words in said
