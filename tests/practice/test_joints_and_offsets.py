"""Joint width, offset of rows, lippage: both sides of each limit, and the traps of the wording."""

from __future__ import annotations

import pytest

from tests.practice.cases import found, inches, job_of
from tilelayout.base.units import LengthStyle
from tilelayout.job.kinds import Practice
from tilelayout.job.values import TileEdge
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Level
from tilelayout.practice.offset import offset_share
from tilelayout.practice.subjects.lippage import allowed_step, bow_step

THIRD, HALF = (0.0, 1 / 3), (0.0, 0.5)
RECTIFIED = {"edge": TileEdge.RECTIFIED, "warpage": 0.0, "spread": 0.0}
CALIBRATED = {"edge": TileEdge.CALIBRATED, "warpage": 0.0, "spread": 0.0}
STRIP = (inches(24), inches(12))


def test_no_joint_is_under_a_sixteenth_in_the_us() -> None:
    """A108.02-2017, 4.3.8 as quoted in TileLetter: "in no circumstances" less than 1/16 in."""
    assert "joint-least" not in found(job_of(joint=inches(0, 1, 16)))
    under = found(job_of(joint=inches(0, 3, 64)))["joint-least"]
    assert under.level is Level.STOP
    assert under.limit == pytest.approx(inches(0, 1, 16))


def test_the_joint_is_three_times_the_spread() -> None:
    """Worked example 10, printed in TileLetter: sizes 1/16 in apart ask for a joint of 3/16 in."""
    spread = {"spread": inches(0, 1, 16)}
    assert "joint-spread" not in found(job_of(joint=inches(0, 3, 16), tile=spread))
    wide = found(job_of(joint=inches(0, 11, 64), tile=spread))["joint-spread"]
    assert wide.limit == pytest.approx(inches(0, 3, 16))
    assert '3/16"' in wide.sentence


def test_a_spread_that_is_not_known_is_asked_for() -> None:
    assert "spread-unknown" in found(job_of())
    assert "spread-unknown" not in found(job_of(tile={"spread": 0.5}))


@pytest.mark.parametrize(
    ("edge", "least"),
    [(RECTIFIED, inches(0, 1, 8)), (CALIBRATED, inches(0, 3, 16))],
    ids=["ground", "sorted"],
)
def test_running_bond_of_a_long_tile_wants_a_wider_joint(edge: dict[str, object], least: float) -> None:
    """A108.02 as quoted in FCI: rectified 1/8 in, calibrated 3/16 in, any side over 15 in."""
    just, under = (
        found(job_of(*STRIP, tile=edge, joint=least - off, row_offsets=THIRD)) for off in (0.0, 0.5)
    )
    assert "joint-running-bond" not in just
    assert under["joint-running-bond"].limit == pytest.approx(least)
    assert "joint-running-bond" not in found(job_of(*STRIP, tile=edge, joint=least - 0.5))


def test_the_warpage_of_the_edge_comes_on_top() -> None:
    """Worked example 11, an expert's answer on 4.3.8.1: 1/8 and 1/32 make 5/32 in."""
    warped = RECTIFIED | {"warpage": inches(0, 1, 32)}
    five = job_of(*STRIP, tile=warped, joint=inches(0, 5, 32), row_offsets=THIRD)
    four = job_of(*STRIP, tile=warped, joint=inches(0, 1, 8), row_offsets=THIRD)
    assert "joint-running-bond" not in found(five)
    assert found(four)["joint-running-bond"].limit == pytest.approx(inches(0, 5, 32))


def test_a_sixteenth_under_a_plank_is_too_little_either_way() -> None:
    """Worked example 12, printed in TileLetter: 24 x 48 with 1/16 in, where offset."""
    for edge in (RECTIFIED, CALIBRATED):
        job = job_of(inches(48), inches(24), tile=edge, joint=inches(0, 1, 16), row_offsets=THIRD)
        assert "joint-running-bond" in found(job)


def test_three_millimetres_are_an_eighth_to_who_works_in_inches() -> None:
    """The source prints 1/8 in and 3 mm; nobody is blamed for its rounding, in either style."""
    for style in (LengthStyle.INCH, LengthStyle.MM):
        job = job_of(*STRIP, tile=RECTIFIED, joint=3.0, row_offsets=THIRD, style=style)
        assert "joint-running-bond" not in found(job)
    assert "joint-running-bond" in found(
        job_of(*STRIP, tile=RECTIFIED, joint=2.9, row_offsets=THIRD, style=LengthStyle.MM)
    )


def test_the_joint_rule_looks_at_any_side_and_the_offset_rule_at_the_one_shifted_along() -> None:
    """Trap 2 of the reference: a standing plank in half bond along its short side."""
    codes = found(job_of(inches(12), inches(24), tile=RECTIFIED, joint=inches(0, 1, 16), row_offsets=HALF))
    assert "joint-running-bond" in codes
    assert "offset" not in codes


def test_exactly_15_inches_is_large_for_mortar_and_not_for_offsets() -> None:
    """Trap 1, worked example 9: "15 in or longer" against "greater than 15 in" (FCI)."""
    fifteen = found(job_of(inches(15), inches(15), row_offsets=HALF, joint=inches(0, 1, 16)))
    assert "offset" not in fifteen
    assert "joint-running-bond" not in fifteen
    assert "on the back as well" in fifteen["notch"].sentence
    longer = found(job_of(inches(15, 1, 64), inches(15), row_offsets=HALF, joint=inches(0, 1, 16)))
    assert {"offset", "joint-running-bond"} <= set(longer)


def test_the_offset_rule_goes_by_the_nominal_length() -> None:
    """Trap 3: the label says 15 in, the tile measures more; and the other way about."""
    label = {"nominal": inches(15)}
    assert "offset" not in found(job_of(inches(15, 1, 4), inches(7), tile=label, row_offsets=HALF))
    label = {"nominal": inches(16)}
    assert "offset" in found(job_of(inches(14, 7, 8), inches(7), tile=label, row_offsets=HALF))


@pytest.mark.parametrize(
    ("offsets", "is_over"),
    [(THIRD, False), ((0.0, 1 / 3, 2 / 3), False), (HALF, True), ((0.0, 0.35), True), ((0.0, 0.75), False)],
)
def test_a_long_tile_is_shifted_by_a_third_at_the_most(offsets: tuple[float, ...], is_over: bool) -> None:
    """A108.02 as quoted in FCI and by the 2012 Handbook: 33 %."""
    job = job_of(*STRIP, tile=RECTIFIED, row_offsets=offsets)
    assert ("offset" in found(job)) == is_over
    short = job_of(inches(12), inches(6), tile=RECTIFIED, row_offsets=offsets)
    assert "offset" not in found(short)


def test_another_country_hears_of_the_american_offset_as_an_advice() -> None:
    job = job_of(*STRIP, tile=RECTIFIED, row_offsets=HALF, practice=Practice.AU)
    assert found(job)["offset"].level is Level.ADVISE


@pytest.mark.parametrize(
    ("size", "least"),
    # BS 5385-3 as updated, quoted by an adhesive maker; floors 3 mm by NHBC 9.1.7
    [((200, 200), 3.0), ((1200, 600), 3.0), ((3000, 1000), 5.0)],
)
def test_british_floors_want_three_millimetres_and_large_panels_more(
    size: tuple[float, float], least: float
) -> None:
    for joint, is_under in ((least, False), (least - 0.1, True)):
        job = job_of(*size, joint=joint, practice=Practice.UK, style=LengthStyle.MM)
        assert ("joint-least" in found(job)) == is_under


@pytest.mark.parametrize(
    # DIN 18352 as a tiling trade page quotes it: up to 10 cm 1 to 3 mm, above 2 to 8 mm
    ("side", "joint", "code"),
    [
        (100, 1.0, None),
        (100, 0.9, "joint-least"),
        (100, 3.1, "joint-most"),
        (101, 1.9, "joint-least"),
        (101, 8.0, None),
        (101, 8.1, "joint-most"),
    ],
)
def test_german_joints_go_by_the_size_of_the_tile(side: float, joint: float, code: str | None) -> None:
    codes = found(job_of(side, side, joint=joint, practice=Practice.DE, style=LengthStyle.MM))
    assert [name for name in codes if name in ("joint-least", "joint-most")] == ([code] if code else [])


def step(practice: Practice, joint: float, warpage: float | None = None, **more: bool) -> float:
    job = job_of(joint=joint, practice=practice, tile={"warpage": warpage})
    return allowed_step(Case(job, job.surfaces[0], job.tiles[0], job.layouts[0]), **more).value


def test_american_lippage_adds_the_measured_warpage() -> None:
    """Worked examples 13 and 14 (A108.02, 4.3.7); an expert's answer: joint 1/4, warpage 1/16: 1/8 in."""
    eighth, sixteenth = inches(0, 1, 8), inches(0, 1, 16)
    assert step(Practice.US, eighth, sixteenth) == pytest.approx(inches(0, 3, 32))
    assert step(Practice.US, eighth, 0.0) == pytest.approx(inches(0, 1, 32))
    assert step(Practice.US, inches(0, 1, 4), sixteenth) == pytest.approx(inches(0, 1, 8))
    assert step(Practice.US, inches(0, 15, 64), sixteenth) == pytest.approx(inches(0, 3, 32))


def test_steps_elsewhere() -> None:
    """Worked example 15 (NSW guide, 12.9) and NHBC 9.1.7; warpage is not added there."""
    assert step(Practice.AU, 3.0, 1.0) == 1.0
    assert step(Practice.AU, 5.0) == 2.0
    assert step(Practice.AU, 5.0, is_polished=True) == 1.5
    assert step(Practice.UK, 6.0) == 1.0
    assert step(Practice.UK, 6.1) == 2.0
    assert step(Practice.DE, 3.0) == 1.5


def test_the_bow_of_a_tile_makes_its_step() -> None:
    """Bow model of published-checks A5: w = 1.3 mm gives 1.30, 1.16 (a third) and 0.98 mm (a quarter)."""
    steps = [bow_step(share, 1.3) for share in (0.5, 1 / 3, 0.25)]
    assert steps == pytest.approx([1.30, 1.16, 0.98], abs=0.006)
    bowed = {"warpage": 1.3}
    for offsets, is_over in ((HALF, True), ((0.0, 0.25), False)):
        job = job_of(*STRIP, tile=bowed, row_offsets=offsets, practice=Practice.UK)
        assert ("bow" in found(job)) == is_over


def test_offsets_are_seen_from_either_end_and_round_the_last_row() -> None:
    assert offset_share(job_of(row_offsets=(0.0, 0.1, 0.2)).layouts[0]) == pytest.approx(0.2)
    assert offset_share(job_of(row_offsets=(0.0, 0.9)).layouts[0]) == pytest.approx(0.1)
    assert offset_share(job_of().layouts[0]) == 0.0
