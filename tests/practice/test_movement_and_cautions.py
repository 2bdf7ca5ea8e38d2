"""Gaps and soft joints, cautions, and what all findings have in common."""

from __future__ import annotations

from typing import Any

import pytest

from tests.practice.cases import found, inches, job_of, wall
from tests.rooms import PLAIN, SQUARE, layout_of
from tilelayout.base.units import LengthStyle
from tilelayout.job.kinds import Background, Exposure, Practice, Wetness
from tilelayout.job.values import Edge, EdgeRole, Job, RectangleTile
from tilelayout.practice.finding import Grade, Level
from tilelayout.practice.findings import findings, subject_names

FOOT = inches(12)


def room(feet: float, **surface: Any) -> dict[str, Any]:
    return {"outline": ((0, 0), (feet * FOOT, 0), (feet * FOOT, 1500), (0, 1500)), **surface}


def test_the_gap_at_the_walls_of_a_floor() -> None:
    """EJ171 as quoted in the trade press: preferred 1/4 in, never under 1/8 in."""
    assert "gap" not in found(job_of(gap=inches(0, 1, 4)))
    assert found(job_of(gap=inches(0, 15, 64)))["gap"].level is Level.ADVISE
    assert found(job_of(gap=inches(0, 1, 8)))["gap"].level is Level.ADVISE
    assert found(job_of(gap=inches(0, 7, 64)))["gap"].level is Level.WARN


def test_a_wall_face_wants_an_eighth_where_it_changes_plane() -> None:
    """EJ171: change of plane never under 1/8 in."""
    assert "gap" not in found(job_of(surface=wall(), gap=inches(0, 1, 8)))
    assert found(job_of(surface=wall(), gap=inches(0, 7, 64)))["gap"].level is Level.WARN


def test_where_no_wall_stands_no_gap_is_asked_for() -> None:
    is_open = tuple(Edge(at=at, role=EdgeRole.OPEN) for at in range(4))
    assert "gap" not in found(job_of(gap=0.0, surface={"edges": is_open}))


def test_a_small_british_floor_needs_no_gap() -> None:
    """British trade guidance: perimeter joint where the floor runs more than 2 m."""
    small = {"outline": ((0, 0), (2000, 0), (2000, 1500), (0, 1500))}
    large = {"outline": ((0, 0), (2001, 0), (2001, 1500), (0, 1500))}
    metric: dict[str, Any] = {"practice": Practice.UK, "style": LengthStyle.MM, "gap": 0.0}
    assert "gap" not in found(job_of(surface=small, **metric))
    assert "gap" in found(job_of(surface=large, **metric))


@pytest.mark.parametrize(
    # EJ171 as quoted by the contractors' manual: 20 to 25 ft inside, 8 to 12 ft in sun or moisture
    ("feet", "exposure", "level"),
    [
        (20, Exposure.INSIDE, None),
        (20.1, Exposure.INSIDE, Level.ADVISE),
        (25, Exposure.INSIDE, Level.ADVISE),
        (25.1, Exposure.INSIDE, Level.WARN),
        (8, Exposure.SUNLIT, None),
        (8.1, Exposure.SUNLIT, Level.ADVISE),
        (12.1, Exposure.OUTSIDE, Level.WARN),
    ],
)
def test_how_far_a_field_runs(feet: float, exposure: Exposure, level: Level | None) -> None:
    codes = found(job_of(surface=room(feet, exposure=exposure)))
    assert ("field-joint" in codes) == (level is not None)
    assert level is None or codes["field-joint"].level is level


def test_water_moves_tile_as_sun_does() -> None:
    assert "field-joint" in found(job_of(surface=room(12.1, wetness=Wetness.WET)))
    assert "field-joint" not in found(job_of(surface=room(12.1, wetness=Wetness.DRY)))


def test_a_field_of_nine_metres_in_the_sun_is_flagged_and_exposure_asked_for_where_it_matters() -> None:
    """Needs table: 9 m with sun flagged."""
    nine = room(9000 / FOOT, exposure=Exposure.SUNLIT)
    assert found(job_of(surface=nine))["field-joint"].level is Level.WARN
    assert "exposure-unknown" in found(job_of(surface=room(8.1)))
    assert "exposure-unknown" not in found(job_of(surface=room(8)))


def test_a_british_bay_runs_to_ten_metres() -> None:
    """British trade guidance: bays up to 10 m."""
    for length, is_long in ((10_000, False), (10_000.1, True)):
        bay = {"outline": ((0, 0), (length, 0), (length, 1500), (0, 1500))}
        job = job_of(surface=bay, practice=Practice.UK, style=LengthStyle.MM)
        assert ("field-joint" in found(job)) == is_long


def test_runs_are_taken_along_the_tile() -> None:
    diagonal = {"outline": ((0, 0), (6000, 0), (6000, 6000), (0, 6000)), "exposure": Exposure.INSIDE}
    assert "field-joint" not in found(job_of(surface=diagonal))
    assert "field-joint" in found(job_of(surface=diagonal, angle=45.0))


def test_the_usual_cautions_stand_in_every_job_once() -> None:
    twice = Job(
        surfaces=(PLAIN,), tiles=(SQUARE, RectangleTile(id="b", length=90, width=90)),
        layouts=(layout_of(SQUARE),),
    )  # fmt: skip
    codes = [finding.code for finding in findings(twice)]
    for code in ("caution-dust", "caution-power", "caution-eyes", "caution-cement"):
        assert codes.count(code) == 1


def test_an_old_covering_warns_of_what_may_be_in_it() -> None:
    """Underlayment makers' sheets and the EPA, as quoted in trade-figures 14."""
    resilient = found(job_of(surface={"background": Background.OLD_RESILIENT}))["caution-asbestos"]
    assert resilient.level is Level.WARN
    assert "Never sand" in resilient.sentence
    assert "lead" in found(job_of(surface={"background": Background.OLD_TILE}))["caution-lead"].sentence
    assert "caution-old-covering" in found(job_of())
    assert "caution-old-covering" not in found(job_of(surface={"background": Background.CONCRETE}))


SUBJECTS = {
    "adhesive",
    "bedding",
    "cautions",
    "joints",
    "lippage",
    "movement",
    "offsets",
    "weight",
    "wet_areas",
}


def test_every_file_of_the_folder_is_a_subject() -> None:
    assert set(subject_names()) >= SUBJECTS


@pytest.mark.parametrize("practice", Practice)
@pytest.mark.parametrize("style", [LengthStyle.MM, LengthStyle.FEET])
def test_every_finding_is_a_sentence_with_a_source(practice: Practice, style: LengthStyle) -> None:
    job = job_of(
        900, 450, practice=practice, style=style, row_offsets=(0.0, 0.5), joint=1.0, gap=0.0,
        tile={"spread": 2.0, "warpage": 3.0, "weight_kg_per_m2": 95.0},
        surface=wall(background=Background.PLASTERBOARD, wetness=Wetness.WET),
    )  # fmt: skip
    made = findings(job)
    assert {finding.level for finding in made} == set(Level)
    assert [tuple(Level).index(finding.level) for finding in made] == sorted(
        tuple(Level).index(finding.level) for finding in made
    )
    for finding in made:
        assert finding.sentence[-1] in ".:"
        assert finding.sentence[0].isupper() or finding.sentence.startswith(("t on floor", "floor"))
        assert finding.source.where
        assert isinstance(finding.source.grade, Grade)
        assert (finding.limit is None) or finding.limit > 0


def test_only_what_is_to_be_laid_is_judged_unless_asked() -> None:
    first, second = layout_of(SQUARE, joint=1.0), layout_of(SQUARE, joint=3.0)
    named = type(second)(id="B", surface="floor", tile=second.tile, joint=3.0, settings={})
    job = Job(surfaces=(PLAIN,), tiles=(SQUARE,), layouts=(first, named))
    assert "joint-least" in {finding.code for finding in findings(job)}
    assert "joint-least" not in {finding.code for finding in findings(job, ["B"])}
    assert findings(Job()) == ()
