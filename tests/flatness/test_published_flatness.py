"""Flatness against published readings and tables, and against figures that are marked for what they are.

Sources: SLAB, elevations of a concrete test pad with their published curvatures, see `floors.SLAB`; A108, the
limits of ANSI A108.02 as quoted by trade bodies; DIN, table 3 of DIN 18202 as printed in a builders'
association's handbook; TILT, a sum of our own. What others print is marked P, input from print and arithmetic
of ours PI, our own C.
"""

from __future__ import annotations

import numpy as np
import pytest

from tests.flatness.floors import slab
from tilelayout.flatness.f_numbers import curvatures, f_numbers, lines_of
from tilelayout.flatness.profiles import Profile
from tilelayout.flatness.standards import ansi_a108, profiles, standards, standards_for
from tilelayout.flatness.standards.din_18202 import ROWS, grid_deviations, passes_by_grid, row_limit
from tilelayout.job.values import SurfaceKind

IN = 25.4
FLOOR = SurfaceKind.FLOOR


def profile(line: int) -> Profile:
    return Profile(np.arange(0.0, 14 * 300.0, 300.0), slab(line))


def test_curvatures_of_the_slab() -> None:
    """SLAB (P): q2 to q13 of line 0."""
    printed = [0.635, -0.102, -0.381, -1.956, -0.457, 1.448, 0.610, -1.854, -0.787, 1.118, -1.880, -1.448]
    assert curvatures(slab(0)) == pytest.approx(printed, abs=0.0011)


GAPS = {0: (0.724, 1.524, 1.524), 2: (0.635, 1.498, 1.748), 3: (1.791, 1.791, 1.796)}


@pytest.mark.parametrize("line", GAPS)
def test_gaps_under_straightedges_on_the_slab(line: int) -> None:
    """SLAB (PI): resting on two readings, 0.6, 2 and 3 m long."""
    found = [profile(line).on_readings(over) for over in (600.0, 2000.0, 3000.0)]
    assert found == pytest.approx(GAPS[line], abs=0.005)
    exact = [profile(line).variation(over).gap for over in (600.0, 2000.0, 3000.0)]
    assert all(more >= less - 1e-9 for more, less in zip(exact, found, strict=True))


@pytest.mark.parametrize(("line", "flat", "level"), [(0, 28.8, 20.2), (2, 34.6, 39.6), (3, 18.5, 46.7)])
def test_f_numbers_of_the_slab_are_an_orientation(line: int, flat: float, level: float) -> None:
    """SLAB (C): the constants are from memory, and so the figures are no more than about right."""
    found = f_numbers(slab(line))
    assert found is not None
    assert found.flatness == pytest.approx(flat, abs=0.1)
    assert found.levelness == pytest.approx(level, abs=0.15)


def test_f_numbers_of_several_lines_are_taken_together() -> None:
    """The same line twice is as flat as once, but for the sample's spread; 12 in does as well as 300 mm."""
    one, two = f_numbers(slab(0)), f_numbers(slab(0), slab(0))
    assert one is not None and two is not None and (one.lines, two.lines) == (1, 2)
    assert two.flatness == pytest.approx(one.flatness, rel=0.05)
    for step in (300.0, 304.8):
        places = np.array([(x * step, y * step) for y in (0, 1) for x in range(14)])
        lines = list(lines_of(places, np.concatenate([slab(0), slab(2)])))
        assert [line.tolist() for line in lines] == [slab(0).tolist(), slab(2).tolist()]


def test_readings_at_another_step_make_no_line_for_f_numbers() -> None:
    places = np.array([(x * 400.0, 0.0) for x in range(14)])
    assert list(lines_of(places, slab(0))) == []
    broken = np.array([(x * 300.0 + (150.0 if x > 6 else 0.0), 0.0) for x in range(14)])
    assert [len(line) for line in lines_of(broken, slab(0))] == [7, 7]


def limits_of(edge: float, *, advises: bool) -> dict[float, float]:
    found = ansi_a108.limits(FLOOR, edge)
    return {limit.over: limit.limit for limit in found if limit.advises is advises}


def test_line_3_of_the_slab_fails_in_inches_and_passes_in_rounded_millimetres() -> None:
    """SLAB and A108 (PI): 1.791 mm is more than 1/16 in in 24 in and less than the 2 mm printed beside it."""
    inches, metric = limits_of(600.0, advises=False), limits_of(600.0, advises=True)
    assert profile(3).variation(609.6).gap > inches[609.6] == pytest.approx(IN / 16)
    assert profile(3).variation(610.0).gap < metric[610.0] == 2.0
    assert all(profile(line).variation(3048.0).gap < inches[3048.0] for line in GAPS)


def test_an_edge_of_15_inches_is_large() -> None:
    """A108 (P): "15 in or longer"."""
    assert limits_of(15 * IN, advises=False) == pytest.approx({3048.0: IN / 8, 609.6: IN / 16})
    assert limits_of(15 * IN - 0.1, advises=False) == pytest.approx({3048.0: IN / 4, 304.8: IN / 16})


def test_a_gap_of_3_16_inch_suits_small_tile_only() -> None:
    """A108 (PI): under 10 ft it passes 1/4 in and fails 1/8 in."""
    assert limits_of(12 * IN, advises=False)[3048.0] > 3 / 16 * IN > limits_of(15 * IN, advises=False)[3048.0]


PRINTED = {
    2: (5, 7, 8, 9, 9, 10, 11, 12, 12, 13, 14, 15, 20),
    3: (2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 11, 12, 15),
    4: (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 15),
    5: (5, 8, 10, 11, 12, 13, 13, 14, 15, 18, 22, 25, 30),
    6: (3, 4, 5, 6, 7, 8, 8, 9, 10, 13, 17, 20, 25),
    7: (2, 2, 3, 4, 5, 6, 6, 7, 8, 10, 13, 15, 20),
}
METRES = (0.1, 0.6, 1, 1.5, 2, 2.5, 3, 3.5, 4, 6, 8, 10, 15)


def test_every_cell_of_the_german_table_but_its_two_misprints() -> None:
    """DIN (P): straight lines between the standard's own columns, rounded, halves up."""
    differing = [
        (row, metres)
        for row, cells in PRINTED.items()
        for metres, cell in zip(METRES, cells, strict=True)
        if row_limit(row, metres * 1000, is_rounded=True) != cell
    ]
    assert differing == [(2, 3.5), (7, 0.6)]
    assert set(ROWS) == set(PRINTED)


def test_worked_rows_of_the_german_table() -> None:
    """DIN (P): row 3 at 2 and 8 m, row 4 at 0.6 m, row 6 at 1, 4, 10 and 15 m; beyond the ends held (C)."""
    assert row_limit(3, 2000) == 6
    assert row_limit(3, 8000) == pytest.approx(11.33, abs=0.005)
    assert row_limit(4, 600) == pytest.approx(2.11, abs=0.005)
    assert [row_limit(6, 1000 * metres) for metres in (1, 4, 10, 15)] == [5, 10, 20, 25]
    assert (row_limit(3, 50), row_limit(3, 20_000)) == (2, 15)


def test_the_german_grid_method() -> None:
    """DIN (PI): readings 0, -6, 0 at 1 m are 6 out over 2 m, which suits row 3 and not row 4."""
    readings = np.array([0.0, -6.0, 0.0])
    assert grid_deviations(readings) == pytest.approx([-6.0])
    assert passes_by_grid(readings, 1000.0, 3)
    assert not passes_by_grid(readings, 1000.0, 4)


@pytest.mark.parametrize("name", standards())
def test_every_standard_says_what_it_limits_and_through_whom_it_is_known(name: str) -> None:
    standard = standards()[name]
    assert standard.NAME
    assert standard.PROFILES
    for kind in SurfaceKind:
        for edge in (100.0, 381.0, 1200.0):
            limits = standard.limits(kind, edge)
            assert any(not limit.advises for limit in limits)
            for limit in limits:
                assert 0 < limit.limit < limit.over / 50
                assert limit.source.clause
                assert limit.source.through


def test_every_practice_has_its_standard_and_an_unknown_one_the_usual() -> None:
    assert profiles() == {"us", "uk", "de", "au"}
    assert [standard.NAME for standard in standards_for("moon")] == ["ANSI A108.02"]
    assert [limit.over for limit in standards_for("uk")[0].limits(SurfaceKind.WALL, 300.0)] == [2000.0]
