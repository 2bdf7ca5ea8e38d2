from __future__ import annotations

from random import Random

import msgspec
import numpy as np
import pytest

from tests.layout.scanned import Rows, widest
from tests.rooms import INCH, L_SHAPED, PLANK, SQUARE, floor_of, layout_of, rectangle, square_cutout
from tilelayout.job.values import Layout, Point, RectangleTile, Surface, Tile
from tilelayout.layout.laying import lay
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.region import region_of
from tilelayout.layout.seeking.rows_in_room import rows_in_room
from tilelayout.layout.seeking.trials import Trial, Trials
from tilelayout.layout.seeking.widest import Widest

STEP = INCH / 32
ROOMS = 200
OFFSETS = {"grid": (0.0,), "half bond": (0.0, 0.5), "stepped third": (0.0, 1 / 3, 2 / 3)}
SIZES = ((11.875, 11.875), (23.875, 11.875), (5.875, 5.875), (17.875, 8.875))


def sought(surface: Surface, tile: Tile, layout: Layout) -> tuple[Trial, Widest]:
    region = region_of(surface, layout.gap)
    trials = Trials(tile, layout, region)
    rows = rows_in_room(region, tile, layout, trials.cell)
    assert rows is not None
    search = Widest(trials, rows)
    for _ in search.steps():
        pass
    assert search.best is not None
    return search.best, search


def random_room(random: Random) -> Surface:
    """A room of right angles as a tape measures it: to 1/8 in."""

    def inches(low: int, high: int) -> float:
        return random.randint(low * 8, high * 8) / 8 * INCH

    width, depth = inches(70, 180), inches(60, 150)
    x, y = inches(20, 45), inches(20, 40)
    kind = random.randrange(5)
    if kind == 0:
        return rectangle(width, depth)
    if kind == 1:
        return floor_of(
            (0, 0), (width, 0), (width, depth - y), (width - x, depth - y), (width - x, depth), (0, depth)
        )
    if kind == 2:
        foot = inches(14, 20)
        return floor_of(
            (0, 0),
            (width, 0),
            (width, depth - y),
            (x + foot, depth - y),
            (x + foot, depth),
            (x, depth),
            (x, y),
            (0, y),
        )
    if kind == 3:
        deep, near = inches(3, 6), inches(10, 20)
        far = near + inches(28, 36)
        return floor_of(
            (0, 0), (near, 0), (near, -deep), (far, -deep), (far, 0), (width, 0), (width, depth), (0, depth)
        )
    post = square_cutout(inches(26, 40), inches(26, 34), inches(4, 20))
    return floor_of((0, 0), (width, 0), (width, depth), (0, depth), cutouts=(post,))


def rings_of(surface: Surface, gap: float) -> list[list[Point]]:
    return [[(float(x), float(y)) for x, y in ring] for ring in region_of(surface, gap).rings]


def test_no_start_of_a_fine_raster_is_better_and_none_is_missed_in_200_random_rooms() -> None:
    random, names = Random(4), sorted(OFFSETS)
    for number in range(ROOMS):
        surface, offsets = random_room(random), OFFSETS[names[number % 3]]
        length, width = random.choice(SIZES)
        tile = RectangleTile(id="t", length=length * INCH, width=width * INCH)
        layout = layout_of(tile, row_offsets=offsets, joint=INCH / 8, gap=INCH / 4, least_piece=0.0)
        best, search = sought(surface, tile, layout)
        rows = Rows(tile.length, tile.width, layout.joint, offsets)
        scanned = widest(rings_of(surface, layout.gap), rows, STEP)
        assert search.is_proved
        assert best.narrowest >= scanned - 1e-4, (number, surface, tile, offsets)
        assert best.narrowest <= scanned + STEP + 1e-4, (number, surface, tile, offsets)


def test_strips_left_to_the_joint_are_no_cuts_in_random_rectangles() -> None:
    random = Random(9)
    for number in range(40):
        surface = rectangle(random.randint(560, 1440) / 8 * INCH, random.randint(480, 1200) / 8 * INCH)
        offsets = OFFSETS[sorted(OFFSETS)[number % 3]]
        tile = RectangleTile(id="t", length=11.875 * INCH, width=11.875 * INCH)
        layout = layout_of(tile, row_offsets=offsets, joint=INCH / 8, gap=INCH / 4, least_piece=INCH / 4)
        best, search = sought(surface, tile, layout)
        rows = Rows(tile.length, tile.width, layout.joint, offsets)
        scanned = widest(rings_of(surface, layout.gap), rows, STEP, layout.least_piece)
        assert search.is_proved
        assert scanned - 1e-4 <= best.narrowest <= scanned + STEP + 1e-4, (number, surface, offsets)


@pytest.mark.parametrize("angle", [0.0, 90.0, 180.0, 270.0])
@pytest.mark.parametrize("settings", [{"row_offsets": (0.0, 1 / 3)}, {"column_offsets": (0.0, 0.3, 0.5)}])
def test_rows_and_columns_at_any_quarter_turn_beat_every_laid_start(
    angle: float, settings: dict[str, object]
) -> None:
    pattern = "stack" if "column_offsets" in settings else "rows"
    layout = layout_of(PLANK, pattern, angle=angle, gap=6.0, **settings)
    best, search = sought(L_SHAPED, PLANK, layout)
    assert search.is_proved
    rivals = laid_all_over(L_SHAPED, PLANK, layout, 7)
    assert best.narrowest >= max(rivals) - 1e-4
    assert lay(L_SHAPED, PLANK, moved(layout, best.start)).narrowest_cut == pytest.approx(
        best.narrowest, abs=1e-4
    )


@pytest.mark.parametrize("tile", [SQUARE, PLANK], ids=["square", "plank"])
def test_beside_a_post_no_start_without_bare_places_is_better(tile: RectangleTile) -> None:
    floor = floor_of((0, 0), (2900, 0), (2900, 1810), (0, 1810), cutouts=(square_cutout(1310, 760, 104),))
    layout = layout_of(tile, row_offsets=(0.0, 0.5), gap=6.0)
    best, search = sought(floor, tile, layout)
    assert search.is_proved
    assert not lay(floor, tile, moved(layout, best.start)).bare_patches
    assert best.narrowest >= max(laid_all_over(floor, tile, layout, 11)) - 1e-4


@pytest.mark.parametrize(("x", "y"), [(400, 400), (440, 400), (520, 360), (400, 360)])
def test_a_pipe_so_thin_that_a_joint_may_swallow_it_is_taken_into_account(x: float, y: float) -> None:
    floor = floor_of((0, 0), (1317, 0), (1317, 967), (0, 967), cutouts=(square_cutout(x, y, 11),))
    best, search = sought(floor, SQUARE, layout_of(SQUARE, gap=0.0))
    scanned = widest(rings_of(floor, 0.0), Rows(297.0, 297.0, 3.0, (0.0,)), 0.5, 5.0)
    assert search.is_proved
    assert best.narrowest == pytest.approx(scanned, abs=0.5)


def test_a_corridor_narrower_than_a_tile_and_a_room_smaller_than_one_are_proved_too() -> None:
    for floor, narrowest in ((rectangle(2900, 211), 199.0), (rectangle(130, 90), 78.0)):
        best, search = sought(floor, SQUARE, layout_of(SQUARE, gap=6.0))
        assert search.is_proved and best.narrowest == pytest.approx(narrowest)


def moved(layout: Layout, start: Point) -> Layout:
    return msgspec.structs.replace(layout, start=start)


def laid_all_over(surface: Surface, tile: Tile, layout: Layout, count: int) -> list[float]:
    """The narrowest cuts of starts spread over one cell, of those that leave nothing bare."""
    turned = np.array(cell_of(layout, tile).vectors)
    if layout.angle % 180.0:
        turned = turned[:, ::-1]
    shares = np.arange(count) / count
    found = []
    for u in shares:
        for v in shares:
            x, y = np.array([u, v]) @ turned
            laid = lay(surface, tile, moved(layout, (float(x), float(y))))
            if not laid.bare_patches and laid.narrowest_cut is not None:
                found.append(laid.narrowest_cut)
    return found
