"""Hatching of any outline, beside the same rows cut by the geometry library."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
import shapely.affinity
from hypothesis import given, settings
from hypothesis import strategies as st

from tilelayout.reports.figure import Points
from tilelayout.reports.marks import hatch

SPACING = 0.9


@st.composite
def outlines(draw: st.DrawFn) -> Points:
    """Draw a star-shaped outline with corners on whole millimetres, so that rows often meet corners."""
    count = draw(st.integers(4, 12))
    reaches = draw(st.lists(st.integers(4, 30), min_size=count, max_size=count))
    turns = np.arange(count) * 2 * math.pi / count
    ways = np.column_stack([np.cos(turns), np.sin(turns)])
    return np.asarray(np.round(ways * np.array(reaches)[:, None]))


def cut_by_the_library(ring: Points, angle: float) -> float:
    """Return the length of all rows within the outline, as the library cuts them."""
    middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
    turned = shapely.affinity.rotate(shapely.Polygon(ring), -angle, origin=tuple(middle))
    left, bottom, right, top = turned.bounds
    rows = np.arange(math.ceil(bottom / SPACING) * SPACING, top, SPACING)
    lines = [shapely.LineString([(left - 1, y), (right + 1, y)]) for y in rows]
    return float(sum(turned.intersection(line).length for line in lines))


@pytest.mark.parametrize("angle", [45.0, 30.0])
@given(ring=outlines())
@settings(max_examples=80, deadline=None)
def test_hatching_is_as_long_as_the_rows_that_the_library_cuts(angle: float, ring: Points) -> None:
    outline = shapely.Polygon(ring)
    if not outline.is_valid or outline.area < 10.0:
        return
    lines = hatch([ring], spacing=SPACING, angle=angle).lines
    length = sum(float(np.hypot(*(line[1] - line[0]))) for line in lines)
    assert all(outline.buffer(1e-6).covers(shapely.LineString(line)) for line in lines)
    slack = 0.05 * (len(ring) + len(lines))
    assert length == pytest.approx(cut_by_the_library(ring, angle), abs=slack)


def test_rows_that_run_through_corners_and_along_sides_come_in_pairs() -> None:
    steps = np.array(
        [(0.0, 0.0), (3.0, 0.0), (3.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0), (1.0, 3.0), (0.0, 3.0)]
    )
    lines = hatch([steps], spacing=1.0, angle=0.0).lines
    assert [line[:, 0].tolist() for line in lines] == [[0.0, 3.0], [0.0, 2.0], [0.0, 1.0]]
