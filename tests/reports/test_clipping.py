from __future__ import annotations

import functools
import operator

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from tilelayout.reports.clipping import clipped
from tilelayout.reports.figure import Path, Pen, Points, Role, Text

WINDOW = (2.0, 3.0, 12.0, 9.0)


def _filled_area(path: Path) -> float:
    """Area by the even-odd rule."""
    rings = [shapely.Polygon(line) for line in path.lines]
    return float(functools.reduce(operator.xor, rings).area)


def _ring(centre: tuple[float, float], radius: float) -> Points:
    angles = np.radians(np.arange(0, 360, 40))
    return np.array(centre) + radius * np.column_stack([np.cos(angles), np.sin(angles)])


@given(x=st.floats(0, 14), y=st.floats(0, 12), radius=st.floats(2.0, 9.0))
@settings(max_examples=50)
def test_a_clipped_fill_keeps_its_holes(x: float, y: float, radius: float) -> None:
    outer, hole = _ring((x, y), radius), _ring((x, y), radius / 2)
    expected = (shapely.Polygon(outer, [hole]) & shapely.box(*WINDOW)).area
    (found, *_) = (*clipped([Path((outer, hole), None, Role.CUT_TINT, True)], WINDOW), None)
    area = _filled_area(found) if isinstance(found, Path) else 0.0
    assert area == pytest.approx(expected, abs=1e-6)


def test_a_closed_line_is_cut_at_the_window_and_not_along_it() -> None:
    square = np.array([(0.0, 0.0), (6.0, 0.0), (6.0, 6.0), (0.0, 6.0)])
    (path,) = clipped([Path((square,), Pen(), is_closed=True)], WINDOW)
    assert isinstance(path, Path)
    length = sum(float(np.hypot(*np.diff(line, axis=0).T).sum()) for line in path.lines)
    assert length == pytest.approx(4.0 + 3.0)


def test_a_text_outside_the_window_is_gone_and_one_inside_stays() -> None:
    inside, outside = Text((5.0, 5.0), "A1", 2.0), Text((1.0, 5.0), "A2", 2.0)
    assert clipped([inside, outside], WINDOW) == (inside,)
