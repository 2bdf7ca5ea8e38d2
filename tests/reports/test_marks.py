from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tilelayout.reports.figure import Figure, Path, Text, moved
from tilelayout.reports.marks import arrow, dimension, hatch, line, scale_bar

SQUARE = np.array([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
HOLE = np.array([(4.0, 4.0), (6.0, 4.0), (6.0, 6.0), (4.0, 6.0)])


def test_hatching_stays_inside_its_outline_and_out_of_its_holes() -> None:
    inside = shapely.Polygon(SQUARE, [HOLE]).buffer(1e-6)
    lines = [shapely.LineString(line) for line in hatch([SQUARE, HOLE], spacing=0.7).lines]
    assert len(lines) > 10
    assert all(inside.covers(line) for line in lines)


def test_hatching_covers_its_outline_evenly() -> None:
    lines = hatch([SQUARE, HOLE], spacing=0.5).lines
    length = sum(float(np.hypot(*(line[1] - line[0]))) for line in lines)
    assert length * 0.5 == pytest.approx(96.0, rel=0.03)


@given(angle=st.floats(-180.0, 180.0), offset=st.sampled_from([-6.0, 0.0, 6.0]))
@settings(max_examples=50)
def test_a_dimension_reads_from_below_or_from_the_right(angle: float, offset: float) -> None:
    end = (40 * np.cos(np.radians(angle)), 40 * np.sin(np.radians(angle)))
    text = next(m for m in dimension((0.0, 0.0), end, "243 mm", offset=offset) if isinstance(m, Text))
    assert -90.0 <= (text.angle + 180.0) % 360.0 - 180.0 <= 90.0 + 1e-6
    assert text.words == "243 mm"


def test_a_dimension_line_is_as_long_as_what_it_measures() -> None:
    paths = [m for m in dimension((0.0, 0.0), (30.0, 0.0), "30", offset=5.0) if isinstance(m, Path)]
    assert [[0.0, 5.0], [30.0, 5.0]] in [line.tolist() for path in paths for line in path.lines]


def test_words_too_wide_for_a_dimension_stand_beyond_its_end() -> None:
    text = next(m for m in dimension((0.0, 0.0), (4.0, 0.0), "1234.5 mm", offset=0.0) if isinstance(m, Text))
    assert text.at[0] > 4.0


def test_an_arrow_ends_at_its_tip() -> None:
    _, head = arrow((0.0, 0.0), (0.0, 10.0))
    assert isinstance(head, Path)
    assert head.lines[0].max(axis=0)[1] == 10.0


def test_moving_marks_moves_lines_and_texts_alike() -> None:
    figure = Figure((line((0.0, 0.0), (1.0, 0.0)), Text((2.0, 3.0), "A1", 3.0)), 10.0, 10.0)
    path, text = moved(figure.marks, (5.0, 7.0))
    assert isinstance(path, Path)
    assert isinstance(text, Text)
    assert path.lines[0].tolist() == [[5.0, 7.0], [6.0, 7.0]]
    assert text.at == (7.0, 10.0)


def test_a_scale_bar_alternates_and_carries_its_words() -> None:
    marks = scale_bar((0.0, 0.0), (0.0, 10.0, 20.0), ("0", "1", "2 m"), 2.5)
    assert [m.words for m in marks if isinstance(m, Text)] == ["0", "1", "2 m"]
    assert [m.fill is None for m in marks if isinstance(m, Path)] == [False, True]
