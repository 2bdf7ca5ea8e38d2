"""Finished heights at doorways, doors, flanges, appliances: values, words, both sides of each limit."""

from __future__ import annotations

from typing import Any

import pytest

from tests.practice.cases import IN, inches, job_of, wall
from tilelayout.base.units import LengthStyle
from tilelayout.job.ground import Adhesive, Layer
from tilelayout.job.kinds import CutoutKind, LayerRole, Practice
from tilelayout.job.values import Circle, Cutout, Edge, EdgeRole, Job
from tilelayout.materials.stacks import Range
from tilelayout.planning.heights import Heights, heights
from tilelayout.practice.finding import Level

MM = LengthStyle.MM
BED = Adhesive(bed=(3.0, 3.0))
BOARD = Layer(name="board", thickness=6.0)


def floor(
    *edges: Edge,
    cutouts: tuple[Cutout, ...] = (),
    adhesive: Adhesive | None = BED,
    layers: tuple[Layer, ...] = (BOARD,),
    style: LengthStyle = MM,
    **more: Any,
) -> Job:
    """Return a job of a 10 mm tile in a bed of 3 mm on a board of 6 mm: 19 mm over the bare base."""
    surface = {"edges": edges, "cutouts": cutouts, "adhesive": adhesive, "layers": layers}
    return job_of(style=style, surface=surface, tile={"thickness": 10.0}, **more)


def doorway(**keys: Any) -> Edge:
    return Edge(at=0, role=EdgeRole.DOORWAY, **keys)


def at(job: Job) -> Heights:
    return heights(job, "A")


def codes(job: Job) -> list[str]:
    return [finding.code for finding in at(job).findings]


def test_the_stack_adds_up_and_a_step_of_one_millimetre_is_no_trip() -> None:
    """Needs table: 10 + 3 + 6 against 18 gives + 1 mm."""
    made = at(floor(doorway(meets=18.0)))
    assert made.meetings.finished == Range(19.0, 19.0)
    assert made.meetings.found[0].step == Range(1.0, 1.0)
    assert made.stack_words == "tile 10 mm, bed 3 mm, board 6 mm: 19 mm"
    assert made.meeting_words == ("doorway: 1 mm above the floor beyond",)
    assert made.findings == ()


def test_the_floor_beyond_may_be_given_in_layers() -> None:
    boards = (Layer(name="underlay", thickness=3.0), Layer(name="boards", thickness=15.0))
    assert at(floor(doorway(beyond=boards))).meetings.found[0].step == Range(1.0, 1.0)


def test_layers_that_say_what_they_are_stand_for_bed_and_tile() -> None:
    whole = (
        Layer(name="mortar", thickness=40.0, role=LayerRole.BED),
        Layer(name="slab", thickness=20.0, role=LayerRole.TILE),
    )
    assert at(floor(doorway(meets=60.0), adhesive=None, layers=whole)).meetings.finished == Range(60, 60)


def test_a_bed_from_to_makes_a_height_from_to() -> None:
    made = at(floor(doorway(meets=20.0), adhesive=Adhesive(bed=(3.0, 6.0))))
    assert made.meetings.finished == Range(19.0, 22.0)
    assert made.stack_words == "tile 10 mm, bed 3 mm to 6 mm, board 6 mm: 19 mm to 22 mm"
    assert made.meeting_words == ("doorway: from 1 mm below to 2 mm above the floor beyond",)


def test_flush_and_below_are_said_so() -> None:
    assert at(floor(doorway(meets=19.0))).meeting_words == ("doorway: flush with the floor beyond",)
    assert at(floor(doorway(meets=24.0))).meeting_words == ("doorway: 5 mm below the floor beyond",)


def test_without_the_bed_nothing_is_guessed() -> None:
    made = at(floor(doorway(meets=18.0), adhesive=None))
    assert made.meetings.found == ()
    assert made.stack_words.endswith("not known without the bed of the adhesive")
    assert [finding.code for finding in made.findings] == ["heights-unknown"]
    assert codes(floor(adhesive=None)) == []


def step_of(parts: int, of: int, *, is_bevelled: bool = False, sign: int = 1) -> list[str]:
    """Return the findings at a step of so many parts of an inch."""
    meets = 19.0 - sign * inches(0, parts, of)
    return codes(floor(doorway(meets=meets, bevelled=is_bevelled), style=LengthStyle.INCH))


@pytest.mark.parametrize("sign", [1, -1], ids=["up", "down"])
def test_trip_edges(sign: int) -> None:
    """Worked example 60, ADA 303: 5/16 in upright fails, 7/16 in bevelled passes; limits 1/4 and 1/2 in."""
    assert step_of(5, 16, sign=sign) == ["trip-edge"]
    assert step_of(7, 16, is_bevelled=True, sign=sign) == []
    assert step_of(1, 4, sign=sign) == []
    assert step_of(17, 64, sign=sign) == ["trip-edge"]
    assert step_of(1, 2, is_bevelled=True, sign=sign) == []
    assert step_of(33, 64, is_bevelled=True, sign=sign) == ["trip-edge"]


def test_a_trip_edge_says_how_to_mend_it_and_whose_limit_it_is() -> None:
    (low,) = at(floor(doorway(meets=10.0))).findings
    assert "9 mm above the floor beyond the doorway at edge 1" in low.sentence
    assert "Bevel it 1:2" in low.sentence
    assert (low.level, low.measured, low.limit) == (Level.WARN, 9.0, 6.0)
    assert low.source.where.startswith("ADA")
    (high,) = at(floor(doorway(meets=0.0))).findings
    assert "ramp" in high.sentence
    (abroad,) = at(floor(doorway(meets=10.0), practice=Practice.DE)).findings
    assert abroad.level is Level.ADVISE


def test_the_worst_of_a_range_decides() -> None:
    """3 to 8 mm of bed against a floor at 19: flush at the best, 5 mm at the worst; at 17 it is 7 mm."""
    bed = Adhesive(bed=(3.0, 8.0))
    assert codes(floor(doorway(meets=19.0), adhesive=bed)) == []
    assert codes(floor(doorway(meets=17.0), adhesive=bed)) == ["trip-edge"]


def test_a_door_that_would_scrape_is_cut_by_what_is_missing() -> None:
    """6 mm (1/4 in) free is common practice."""
    assert codes(floor(doorway(door=25.0))) == []
    (short,) = at(floor(doorway(door=24.0))).findings
    assert "leaves 5 mm under the door" in short.sentence
    assert "cut the door by 1 mm" in short.sentence
    assert at(floor(doorway(door=30.0))).meeting_words == ("doorway: 11 mm free under the door",)


def flange(top: float) -> Cutout:
    circle = Circle(centre=(900.0, 900.0), diameter=110.0)
    return Cutout(name="toilet", circle=circle, kind=CutoutKind.FLANGE, meets=top)


@pytest.mark.parametrize(
    # How-to articles, grade C: about 1/4 in above the finished floor, to 3/8 in accepted
    ("above", "expected"),
    [(-0.1, ["flange-low"]), (0.0, []), (6.0, []), (9.5, []), (9.6, ["flange-high"])],
)
def test_the_flange_of_a_toilet(above: float, expected: list[str]) -> None:
    assert codes(floor(cutouts=(flange(19.0 + above),))) == expected


def test_an_appliance_is_not_shut_in() -> None:
    """Needs: the floor rises and traps the appliance; measured under the worktop."""

    def under(worktop: float, tall: float | None) -> Job:
        corners = ((0.0, 0.0), (600.0, 0.0), (600.0, 600.0), (0.0, 600.0))
        cutout = Cutout(
            name="dishwasher", polygon=corners, kind=CutoutKind.APPLIANCE, meets=worktop, tall=tall
        )
        return floor(cutouts=(cutout,))

    assert codes(under(870.0, 851.0)) == []
    (shut,) = at(under(870.0, 852.0)).findings
    assert (shut.code, shut.level) == ("appliance", Level.STOP)
    assert "1 mm too little" in shut.sentence
    (unknown,) = at(under(870.0, None)).findings
    assert "how tall dishwasher is" in unknown.sentence
    assert at(under(900.0, 850.0)).meeting_words == ("dishwasher: 31 mm to spare under the worktop",)


def test_walls_have_no_finished_height_to_judge() -> None:
    assert codes(job_of(surface=wall(edges=(doorway(meets=2 * IN),)))) == []
