"""Random planks: the draw is fixed for all time, keeps the least stagger, and can be made for a room.

The least stagger itself is the tiler's choice: the usual one is common practice, from memory.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from tests.rooms import L_SHAPED, OBLIQUE_WITH_BAY, PLAIN, layout_of, rectangle
from tilelayout.base.errors import JobFileError, LayoutError
from tilelayout.job.values import Layout, RectangleTile, Surface, Tile
from tilelayout.layout.drawn_shifts import apart, drawn, share
from tilelayout.layout.laying import Laid, lay
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.patterns.random_planks import greatest_stagger
from tilelayout.layout.region import region_of
from tilelayout.layout.row_ends import DrawnRows, steps
from tilelayout.layout.values import Cell

LONG = RectangleTile(id="long", length=1197, width=197)
ALONG = 1200.0


def planks(**settings: object) -> Layout:
    return layout_of(LONG, "random_planks", **settings)


def shifts_in(cell: Cell) -> list[float]:
    return [float(face.outline[0, 0]) for face in cell.faces]


def least_step(shifts: list[float]) -> float:
    return min(apart(shift, shifts[row - 1], ALONG) for row, shift in enumerate(shifts))


def test_a_seed_gives_the_same_floor_for_all_time() -> None:
    expected = [790.988, 473.469, 1173.578, 984.683, 606.724, 1165.72, 364.511, 973.145]
    assert np.round(drawn(1, 8, ALONG, 150.0), 3).tolist() == expected


def test_the_hash_is_even_over_its_range() -> None:
    """Of 16 000 draws every sixteenth part of the range has its share to within five standard deviations."""
    draws = [share(seed, row, 0) for seed in range(400) for row in range(40)]
    counts = np.histogram(draws, bins=16, range=(0.0, 1.0))[0]
    assert counts.sum() == 16_000
    assert np.abs(counts - 1000).max() < 5 * np.sqrt(1000 * 15 / 16)


@pytest.mark.parametrize(("rows", "stagger"), [(24, 150.0), (24, 400.0), (7, 500.0), (2, 600.0)])
def test_no_end_joint_comes_nearer_than_the_least_stagger_over_a_thousand_seeds(
    rows: int, stagger: float
) -> None:
    """The last row against the first too, since the rows repeat."""
    for seed in range(1000):
        assert least_step(list(drawn(seed, rows, ALONG, stagger))) >= stagger - 1e-6


@pytest.mark.parametrize("rows", [2, 3, 4, 5, 11, 24])
def test_the_greatest_stagger_works_and_more_is_refused_with_it(rows: int) -> None:
    most = greatest_stagger(ALONG, rows)
    assert least_step(shifts_in(cell_of(planks(rows=rows, least_stagger=most), LONG))) > most - 1e-6
    with pytest.raises(LayoutError, match="cannot keep a stagger") as refused:
        cell_of(planks(rows=rows, least_stagger=most + 1.0), LONG)
    assert f"{np.floor(most * 10) / 10:g} mm" in refused.value.mend


def test_with_room_to_spare_no_joint_stands_over_one_two_rows_down_and_no_steps_are_equal() -> None:
    """But for the last rows, which must lead back to the first."""
    for seed in range(200):
        shifts = np.array(drawn(seed, 24, ALONG, 150.0))
        for row in range(2, 21):
            assert apart(shifts[row], shifts[row - 2], ALONG) >= 149.9
            steps_beside = shifts[row] - shifts[row - 1], shifts[row - 1] - shifts[row - 2]
            assert apart(*steps_beside, ALONG) >= 149.9


def test_the_usual_stagger_is_six_inches_but_a_quarter_of_a_short_plank() -> None:
    short = RectangleTile(id="short", length=397, width=97)
    for tile, stagger in ((LONG, 150.0), (short, 100.0)):
        shifts = shifts_in(cell_of(planks(seed=5), tile))
        steps_between = [apart(a, b, tile.length + 3) for a, b in pairwise(shifts)]
        assert stagger - 1e-6 <= min(steps_between) < stagger + 60


@pytest.mark.parametrize(
    "settings", [{"seed": -1}, {"rows": 1}, {"least_stagger": "far"}, {"spread": 3}, {"shifts": [0, "x"]}]
)
def test_wrong_settings_are_named(settings: dict[str, object]) -> None:
    with pytest.raises(JobFileError):
        cell_of(planks(**settings), LONG)


def test_a_stagger_may_be_written_as_a_length() -> None:
    assert shifts_in(cell_of(planks(least_stagger="12 in"), LONG)) == shifts_in(
        cell_of(planks(least_stagger=304.8), LONG)
    )


def test_shifts_that_break_the_stagger_are_refused_by_row() -> None:
    with pytest.raises(LayoutError, match="Row 3 is shifted 100 mm from row 2"):
        cell_of(planks(shifts=(0, 400, 500, 900)), LONG)


def rows_with_short_pieces(laid: Laid, least: float) -> set[str]:
    """By the pieces themselves: the letters of the rows that have one shorter than `least`."""
    found = set()
    for piece in laid.cut:
        if np.ptp(piece.in_tile(piece.outline)[:, 0]) < least - 1e-6:
            found.add(piece.id.rstrip("0123456789"))
    return found


def drawn_for(surface: Surface, layout: Layout, least: float) -> DrawnRows:
    *parts, found = steps(surface, LONG, layout, region_of(surface, layout.gap), least)
    shares = [part for part in parts if isinstance(part, float)]
    assert len(shares) == len(parts) and shares == sorted(shares)
    assert isinstance(found, DrawnRows)
    return found


@pytest.mark.parametrize("surface", [PLAIN, L_SHAPED, OBLIQUE_WITH_BAY], ids=["plain", "L-shaped", "oblique"])
@pytest.mark.parametrize("angle", [0.0, 90.0, 30.0])
def test_rows_drawn_for_a_room_end_in_short_pieces_only_as_often_as_said(
    surface: Surface, angle: float
) -> None:
    layout = planks(seed=4, least_stagger=200.0, angle=angle)
    found = drawn_for(surface, layout, 300.0)
    laid = lay(surface, LONG, found.layout)
    assert len(rows_with_short_pieces(laid, 300.0)) == found.rows_short
    assert found.rows_short <= len(rows_with_short_pieces(lay(surface, LONG, layout), 300.0))
    assert least_step(shifts_in(laid.cell)) >= 200.0 - 1e-3


def test_a_plain_room_can_be_laid_without_any_short_piece() -> None:
    assert drawn_for(rectangle(4300, 3100), planks(seed=9), 300.0).rows_short == 0


def test_a_room_that_leaves_no_choice_says_how_many_rows_miss() -> None:
    """Between walls two planks and 600 mm apart no plank can end 700 mm or longer at both walls but one
    that is cut to 900 mm at either."""
    room = rectangle(2 * ALONG - 3 + 600 + 12, 1000)
    assert drawn_for(room, planks(), 700.0).rows_short == 0
    assert drawn_for(room, planks(least_stagger=600.0), 800.0).rows_short > 0


def test_another_seed_draws_another_floor_for_the_room() -> None:
    one, other = (drawn_for(PLAIN, planks(seed=seed), 250.0).layout.settings["shifts"] for seed in (1, 2))
    assert one != other


MIDDLE = RectangleTile(id="middle", length=897, width=197)
SHORT = RectangleTile(id="short", length=597, width=197)
MORE: dict[int, dict[str, Tile]] = {2: {"plank-2": MIDDLE}, 3: {"plank-2": MIDDLE, "plank-3": SHORT}}


def row_joints(cell: Cell) -> list[np.ndarray]:
    """Where the planks of each row begin, by the faces alone."""
    rows: dict[int, list[float]] = {}
    for face in cell.faces:
        rows.setdefault(round(float(face.outline[:, 1].min())), []).append(float(face.outline[:, 0].min()))
    return [np.sort(np.array(rows[low])) for low in sorted(rows)]


def least_apart(cell: Cell) -> float:
    """The least distance of an end joint from one of the row above, the last row's from the first's too."""
    rows, repeat = row_joints(cell), float(cell.vectors[0, 0])
    found = np.inf
    for row, joints in enumerate(rows):
        away = np.abs(joints[:, None] - rows[row - 1]) % repeat
        found = min(found, float(np.minimum(away, repeat - away).min()))
    return found


@pytest.mark.parametrize("lengths", [2, 3])
@pytest.mark.parametrize("stagger", [None, 150.0, 200.0])
def test_planks_of_several_lengths_keep_the_stagger_over_many_seeds(
    lengths: int, stagger: float | None
) -> None:
    asked = {} if stagger is None else {"least_stagger": stagger}
    for seed in range(12):
        cell = cell_of(planks(seed=seed, lengths=lengths, **asked), LONG, MORE[lengths])
        assert least_apart(cell) >= (stagger or 150.0) - 1e-6
        for row in row_joints(cell):
            assert len(row) == len(cell.faces) / 24


def test_each_length_has_its_count_in_every_row_and_the_joint_everywhere() -> None:
    cell = cell_of(planks(lengths=3, mix=(3, 1, 2)), LONG, MORE[3])
    repeat = 3 * 1200 + 900 + 2 * 600
    assert cell.vectors[0].tolist() == [repeat, 0.0]
    for course in range(cell.courses):
        faces = [face for face in cell.faces if face.course == course]
        assert sorted(face.tile.id for face in faces) == ["long"] * 3 + ["middle"] + ["short"] * 2
        ends = sorted((float(face.outline[0, 0]), float(face.outline[1, 0])) for face in faces)
        gaps = [start - end for (_, end), (start, _) in pairwise([*ends, (ends[0][0] + repeat, 0.0)])]
        assert gaps == pytest.approx([3.0] * 6)


def test_a_seed_mixes_the_same_floor_for_all_time() -> None:
    cell = cell_of(planks(seed=1, lengths=2, rows=4), LONG, MORE[2])
    order = [
        "".join("LM"[face.tile.id == "middle"] for face in cell.faces if face.course == row)
        for row in range(4)
    ]
    assert order == ["LMMMLL", "MLMLML", "LMLMML", "LMLMML"]
    shifts = [
        float(next(face for face in cell.faces if face.course == row).outline[0, 0]) for row in range(4)
    ]
    assert np.round(shifts, 3).tolist() == [4410.0, 5814.375, 223.125, 1798.125]


def test_what_mixed_planks_cannot_keep_is_refused_with_what_works() -> None:
    with pytest.raises(LayoutError, match="drawn with no stagger of 500 mm") as refused:
        cell_of(planks(lengths=3, least_stagger=500.0), LONG, MORE[3])
    works = float(refused.value.mend.split()[3])
    assert least_apart(cell_of(planks(lengths=3, least_stagger=works), LONG, MORE[3])) >= works - 1e-6
    with pytest.raises(LayoutError, match="of one width"):
        cell_of(planks(lengths=2), LONG, {"plank-2": RectangleTile(id="wide", length=897, width=247)})
    with pytest.raises(JobFileError, match="one count for each length"):
        cell_of(planks(lengths=2, mix=(1, 2, 3)), LONG, MORE[2])
    with pytest.raises(LayoutError, match="No piece can be 700 mm long"):
        cell_of(planks(lengths=3, least_end=700.0), LONG, MORE[3])


@pytest.mark.parametrize("surface", [PLAIN, L_SHAPED], ids=["plain", "L-shaped"])
@pytest.mark.parametrize("lengths", [2, 3])
def test_mixed_rows_drawn_for_a_room_end_short_only_as_often_as_said(surface: Surface, lengths: int) -> None:
    layout = planks(seed=4, lengths=lengths, least_stagger=150.0)
    before = lay(surface, LONG, layout, None, MORE[lengths])
    *_, found = steps(surface, LONG, layout, region_of(surface, layout.gap), 250.0, MORE[lengths])
    assert isinstance(found, DrawnRows)
    laid = lay(surface, LONG, found.layout, None, MORE[lengths])
    assert len(rows_with_short_pieces(laid, 250.0)) == found.rows_short
    assert found.rows_short <= len(rows_with_short_pieces(before, 250.0))
    rows = row_joints(laid.cell)[: found.rows]
    repeat = float(laid.cell.vectors[0, 0])
    for one, other in pairwise(rows):
        away = np.abs(one[:, None] - other) % repeat
        assert np.minimum(away, repeat - away).min() >= 150.0 - 1e-3


def test_mixed_rows_that_break_the_stagger_are_refused_by_row() -> None:
    """With every row begun at one place the first joints stand over each other."""
    with pytest.raises(LayoutError, match="An end joint of row 2 is 0 mm from one of row 1"):
        cell_of(planks(lengths=2, shifts=(0, 0, 0)), LONG, MORE[2])
