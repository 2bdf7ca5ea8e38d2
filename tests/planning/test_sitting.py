"""Will the tiles sit: a floor with one hump, its tiles to worry about, limits with their sources, words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from msgspec.structs import replace

from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle
from tilelayout.job.ground import Adhesive
from tilelayout.job.kinds import Practice
from tilelayout.job.values import Job, Layout, MosaicTile, RectangleTile, Surface, Survey
from tilelayout.planning.sitting import Sitting, sitting
from tilelayout.planning.sitting_words import bed_words, dry_words, sits_words, worries_words
from tilelayout.planning.worries import Trouble

FLOOR = Surface(id="floor", name="Store", outline=((0, 0), (2400, 0), (2400, 1800), (0, 1800)))
SLAB = RectangleTile(id="slab", length=597.0, width=297.0, warpage=0.0)
ROWS = Layout(id="A", surface="floor", tile="slab", joint=3.0, gap=0.0, start=(1.5, 1.5))

Height = Callable[[float, float], float]


def survey(height: Height, step: int = 100) -> Survey:
    places = [(x, y) for y in range(0, 1801, step) for x in range(0, 2401, step)]
    return Survey(surface="floor", points=tuple((float(x), float(y), height(x, y)) for x, y in places))


def level(_x: float, _y: float) -> float:
    return 0.0


def hump(x: float, y: float) -> float:
    """A lump of 2 mm at (900, 500), under one slab and 100 mm to either side."""
    return 2.0 * ((x, y) == (900, 500))


def job_of(height: Height, step: int = 100, **changes: Any) -> Job:
    made = Job(surfaces=(FLOOR,), tiles=(SLAB,), layouts=(ROWS,), surveys=(survey(height, step),))
    return replace(made, **changes)


def sits(job: Job) -> Sitting:
    found = sitting(job, "A", 0)
    assert found is not None
    return found


def test_on_a_level_floor_every_tile_sits() -> None:
    found = sits(job_of(level))
    assert found.ok is True and found.worries == () and found.unread == ()
    assert sits_words(found) == "Every tile sits when laid dry."
    assert found.bed == pytest.approx((2.0, 2.0))


def test_the_tile_on_the_hump_is_found_with_the_high_spot() -> None:
    found = sits(job_of(hump))
    worst = found.worries[0]
    assert (worst.id, found.ok) == ("B2", False)
    assert worst.rocks_on == pytest.approx((900.0, 500.0))
    assert Trouble.ROCKS in worst.troubles
    assert worst.rock > 2.0
    words = worries_words(found)[0]
    assert words.startswith(
        f"B2 rocks {format_height(worst.rock, LengthStyle.MM)} on the high spot at (900 mm, 500 mm)"
    )
    assert "0.8 mm allowed" in dry_words(found)


def test_the_limits_are_those_of_the_rules_and_name_their_sources() -> None:
    """ANSI A108.02, 4.3.7, as trade bodies quote it: 1/32 in and the measured warpage; 3/32 in of bed."""
    bowed = replace(SLAB, warpage=25.4 / 16)
    (may,) = sits(job_of(level, tiles=(bowed,))).by_tile.values()
    assert may.step.value == pytest.approx(25.4 * 3 / 32)
    assert may.least_bed.value == pytest.approx(25.4 * 3 / 32)
    assert any("A108.02" in words for words in may.sources)


def test_a_wide_joint_and_another_practice_allow_another_step() -> None:
    """NHBC 9.1.7: 1 mm beside joints up to 6 mm."""
    (may,) = sits(job_of(level, practice=Practice.UK)).by_tile.values()
    assert may.step.value == 1.0 and "NHBC" in may.step.source.where


def test_mortar_for_a_thicker_bed_takes_what_a_thin_one_does_not() -> None:
    def lump(x: float, y: float) -> float:
        return 3.5 * hump(x, y)

    thin = sits(job_of(lump))
    assert not thin.can_be_set and "make the surface flat first" in sits_words(thin)
    assert "fill there first" in worries_words(thin)[0] and "6 mm may be" in worries_words(thin)[0]
    thick = replace(FLOOR, adhesive=Adhesive(bed=(3.0, 15.0)))
    set_in = sits(job_of(lump, surfaces=(thick,)))
    assert set_in.can_be_set and set_in.bed[0] == pytest.approx(3.0)
    assert "the mortar takes it" in bed_words(set_in)


def test_a_bow_beside_shifted_rows_makes_a_step_on_a_level_floor() -> None:
    """4 f (1 - f) w at f = 1/2 is w; the US rule allows 1/32 in more than w, so nothing is to worry about."""
    bowed = replace(SLAB, warpage=1.3)
    shifted = replace(ROWS, settings={"row_offsets": [0, 0.5]})
    found = sits(job_of(level, tiles=(bowed,), layouts=(shifted,)))
    assert found.step == pytest.approx(1.3, abs=0.02)
    assert found.ok is True
    (uk,) = {sits(job_of(level, tiles=(bowed,), layouts=(shifted,), practice=Practice.UK)).ok}
    assert uk is False


def test_unknown_warpage_is_said() -> None:
    assert "warpage not measured" in dry_words(sits(job_of(level, tiles=(replace(SLAB, warpage=None),))))
    assert "warpage" not in dry_words(sits(job_of(level)))


def test_a_survey_too_coarse_or_too_small_never_says_that_tiles_sit() -> None:
    coarse = sits(job_of(level, 600))
    assert coarse.ok is None and coarse.lacks
    assert "cannot show it" in sits_words(coarse)
    tool = replace(survey(level), resolution=1.0)
    assert sits(job_of(level, surveys=(tool,))).ok is None
    part = replace(survey(level), points=tuple(p for p in survey(level).points if p[0] <= 2200))
    cut_off = sits(job_of(level, surveys=(part,)))
    assert cut_off.ok is None and set(cut_off.unread) == {f"{row}4" for row in "ABCDEF"}
    assert "6 tiles beyond them cannot be judged" in sits_words(cut_off)


def test_lines_alone_make_no_surface_to_lay_on() -> None:
    line = Survey(surface="floor", points=((0.0, 0.0, 0.0), (300.0, 0.0, 1.0), (600.0, 0.0, 0.0)))
    assert sitting(job_of(level, surveys=(line,)), "A", 0) is None


def test_of_a_mosaic_the_chips_are_the_plates_and_sheets_are_named() -> None:
    sheet = MosaicTile(
        id="slab", chip_length=48.0, chip_width=48.0, chips_across=6, chips_up=6, chip_joint=2.0, warpage=1.0
    )
    found = sits(
        job_of(hump, tiles=(sheet,), layouts=(replace(ROWS, pattern="mosaic", joint=2.0, start=(1.0, 1.0)),))
    )
    assert len(found.plates.ids) == 48 * 36
    assert len(set(found.plates.ids)) == 8 * 6
    assert found.rock < 1.0


def test_the_same_job_is_laid_once() -> None:
    job = job_of(hump)
    assert sits(job) is sits(replace(job, title="Another title"))


def test_words_are_in_the_jobs_own_units() -> None:
    words = worries_words(sits(job_of(hump, show_lengths=LengthStyle.FEET)))[0]
    assert " mm" not in words and '"' in words
