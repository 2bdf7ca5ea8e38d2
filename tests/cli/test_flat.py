"""`flat`: the document's fixed keys, figures recomputed from the readings alone, text, strictness, errors."""

from __future__ import annotations

import json
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from tests.cli.calls import SAMPLES, called, started
from tilelayout.base.units import LengthStyle
from tilelayout.cli.arguments import parser
from tilelayout.job.files import job_from_bytes
from tilelayout.job.preparation import PreparationWay
from tilelayout.planning.surface import flatness
from tilelayout.planning.surface_words import measured_words

PANTRY = str(SAMPLES / "uneven_pantry.tilejob")


def room(folder: Path, **keys: Any) -> str:
    """Return the path of a job with a tilted, dented floor of 1.2 m x 0.9 m, with some keys replaced."""
    points = [
        [x, y, x * 0.01 - 2.5 * (x == y == 300)] for y in range(0, 901, 300) for x in range(0, 1201, 300)
    ]
    job = {
        "format": "tilejob",
        "version": 1,
        "surfaces": [{"id": "floor", "outline": [[0, 0], [1200, 0], [1200, 900], [0, 900]]}],
        "tiles": [{"id": "slab", "shape": "rectangle", "length": 597, "width": 297}],
        "layouts": [{"id": "A", "surface": "floor", "tile": "slab"}],
        "surveys": [{"surface": "floor", "points": points}],
        **keys,
    }
    path = folder / "room.tilejob"
    path.write_text(json.dumps(job), encoding="utf-8")
    return str(path)


def surveys(*arguments: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(called("flat", *arguments, "--json").out)["surveys"]
    return found


@cache
def pantry() -> list[dict[str, Any]]:
    return surveys(PANTRY)


def test_the_document_has_the_agreed_keys_and_figures(tmp_path: Path) -> None:
    (survey,) = surveys(room(tmp_path))
    assert survey["surface"] == "floor"
    assert {"over", "gap", "rise", "from", "to", "at"} <= set(survey["variation"][0])
    assert [each["over"] for each in survey["variation"]] == [3048.0, 609.6]
    for verdict in survey["verdicts"]:
        assert set(verdict) >= {"tile", "over", "limit", "worst", "by", "ok", "source"}
        assert (verdict["tile"], verdict["by"], verdict["ok"]) == ("slab", "gap", verdict["limit"] > 2.5)
        assert verdict["worst"] == pytest.approx(2.5, abs=0.02)
    assert survey["variation"][1]["at"] == [300.0, 300.0]
    assert survey["level_fill"]["volume"] == pytest.approx(
        12 * 1200 * 900 / 2 + 2.5 * 300 * 300 / 1, rel=0.02
    )
    assert survey["level_fill"]["deepest"] == pytest.approx(12.0)
    assert 0 < survey["least_fill"]["volume"] < survey["level_fill"]["volume"] / 10
    assert survey["least_fill"]["deepest"] < 2.5


def test_no_three_readings_of_the_pantry_show_more_than_is_told() -> None:
    """Every reading against the two at equal distances before and after it, straight from the file."""
    points = json.loads(Path(PANTRY).read_bytes())["surveys"][0]["points"]
    at = {(x, y): height for x, y, height in points}
    (survey,) = pantry()
    for told in survey["variation"]:
        for (x, y), (u, v) in combinations(at, 2):
            middle = ((x + u) / 2, (y + v) / 2)
            if middle in at and (u - x) ** 2 + (v - y) ** 2 <= told["over"] ** 2 and max(y, v) <= 1300:
                below = (at[x, y] + at[u, v]) / 2 - at[middle]
                assert -told["rise"] - 1e-6 <= below <= told["gap"] + 1e-6


def test_the_pantry_is_not_flat_enough_for_slabs_and_the_coarse_limit_of_small_tile_stays_open() -> None:
    verdicts = {(each["tile"], each["over"]): each for each in pantry()[0]["verdicts"]}
    assert verdicts["slab-grey", 3048.0]["ok"] is False
    assert verdicts["slab-grey", 609.6]["ok"] is False
    assert verdicts["plain-150", 3048.0]["ok"] is True
    assert verdicts["plain-150", 304.8]["ok"] is None
    assert "measure every 152 mm" in verdicts["plain-150", 304.8]["why"]


def test_the_text_says_verdicts_places_sources_and_what_it_takes(tmp_path: Path) -> None:
    done = called("flat", room(tmp_path, title="Dented hall"))
    lines = done.out.splitlines()
    assert (done.status, lines[0]) == (0, "Dented hall")
    assert any("over 609.6 mm: NOT FLAT ENOUGH, gap 2.5" in line for line in lines)
    assert any(line.strip().startswith("straightedge from (") for line in lines)
    assert any("Least fill for slab: " in line and "litres" in line for line in lines)
    assert "asbestos" in done.out
    assert max(map(len, lines)) <= 110
    told = done.err.splitlines()
    assert told[0].startswith("least fill of floor: ") and "judged floor (1 of 1)" in told
    assert "prepared floor (1 of 1)" in told


def test_inches_are_told_to_people_who_measure_in_inches(tmp_path: Path) -> None:
    done = called("flat", room(tmp_path, show_lengths="inch"))
    assert 'over 24": NOT FLAT ENOUGH, gap 3/32" (0.098") [2.5 mm], limit 1/16" [1.59 mm]' in done.out


def test_what_the_survey_lacks_is_said_in_the_lengths_of_the_job() -> None:
    job = json.loads(Path(PANTRY).read_bytes())
    found = flatness(job_from_bytes(json.dumps(job | {"show_lengths": "feet"}).encode()), 0)
    (open_one,) = [each for each in found.verdicts if each.ok is None]
    said = open_one.why_in(LengthStyle.FEET)
    assert said.startswith('Readings 11 13/16" apart do not put three under a straightedge of 1\' 0":')
    assert said.endswith('measure every 6" or closer.')
    assert "mm" not in measured_words(open_one, LengthStyle.FEET)


def test_strict_fails_if_a_verdict_does(tmp_path: Path) -> None:
    done = called("flat", room(tmp_path), "--strict")
    assert done.status == 1
    assert done.err.splitlines()[-1] == "strict: floor is not flat enough for slab"
    points = [[x, y, 0] for y in (0, 300, 600, 900) for x in (0, 300, 600, 900, 1200)]
    flat = room(tmp_path, surveys=[{"surface": "floor", "points": points}])
    assert called("flat", flat, "--strict").status == 0


@pytest.mark.parametrize(("practice", "over"), [("uk", 3000.0), ("de", 4000.0), ("au", 2000.0)])
def test_the_practice_of_the_job_chooses_the_standard(tmp_path: Path, practice: str, over: float) -> None:
    (survey,) = surveys(room(tmp_path, practice=practice))
    assert survey["verdicts"][0]["over"] == over


def test_other_standards_are_shown_when_asked_for(tmp_path: Path) -> None:
    path = room(tmp_path)
    (survey,) = surveys(path, "--standards")
    assert {each["standard"] for each in survey["compared"]} == {
        "ANSI A108.02", "AS 3958", "DIN 18202, table 3", "NHBC standards and BS 8204",
    }  # fmt: skip
    assert "for comparison" in called("flat", path, "--standards").out
    assert "for comparison" not in called("flat", path).out


def test_three_readings_in_a_line_are_measured_and_judge_no_floor(tmp_path: Path) -> None:
    points = [[0, 0, 0.0], [300, 0, 1.2], [600, 0, 0.4]]
    (survey,) = surveys(room(tmp_path, surveys=[{"surface": "floor", "points": points}]))
    assert [each["rise"] for each in survey["variation"]] == pytest.approx([1.0, 1.0])
    assert [each["ok"] for each in survey["verdicts"]] == [None, None]
    assert (survey["level_fill"], survey["least_fill"]) == (None, None)


def test_gaps_under_a_straightedge_are_judged(tmp_path: Path) -> None:
    laid = [{"from": [0, 400], "to": ["1.2 m", 400], "along": 600, "gap": "1/4 in"}]
    (survey,) = surveys(room(tmp_path, surveys=[{"surface": "floor", "straightedge": laid}]))
    assert survey["variation"][0]["gap"] == pytest.approx(6.35)
    assert survey["verdicts"][0]["ok"] is False


PAST_ITS_END = {"from": [0, 0], "to": [900, 0], "along": 950, "gap": 1}

WRONG: dict[str, tuple[dict[str, Any], str]] = {
    "no survey": ({"surveys": []}, "surveys: The job has no survey."),
    "no reading": (
        {"surveys": [{"surface": "floor", "points": []}]},
        "surveys[0].points: There is no",
    ),
    "twice": (
        {"surveys": [{"surface": "floor", "points": [[0, 0, 1], [5, 5, 2], [0, 0.2, 3]]}]},
        "surveys[0].points[2]: This reading stands where reading 0 does.",
    ),
    "outside": (
        {"surveys": [{"surface": "floor", "points": [[9000, 0, 1], [9000, 900, 2], [9900, 0, 3]]}]},
        "surveys[0].points: The readings lie outside the outline.",
    ),
    "a hole as deep as a house": (
        {"surveys": [{"surface": "floor", "points": [[0, 0, "30 m"]]}]},
        "surveys[0].points[0][2]: The height of the reading is 30000 mm.",
    ),
    "beyond the straightedge": (
        {
            "surveys": [
                {
                    "surface": "floor",
                    "straightedge": [{"from": [0, 0], "to": [900, 0], "along": 950, "gap": 1}],
                }
            ]
        },
        "surveys[0].straightedge[0].along: The gap is read 950 mm along",
    ),
}


@pytest.mark.parametrize(("keys", "told"), WRONG.values(), ids=WRONG)
def test_what_cannot_be_judged_is_told_with_its_place_and_mend(
    tmp_path: Path, keys: dict[str, Any], told: str
) -> None:
    path = room(tmp_path, **keys)
    done = called("flat", path, "--json")
    first, second = done.err.splitlines()
    assert (done.status, done.out) == (2, "")
    assert first.startswith(f"tilelayout: {path}: {told}")
    assert second.strip()


def test_the_program_prints_one_document_and_nothing_else(tmp_path: Path) -> None:
    """The solver of the least fill greets on standard output if it is let."""
    done = started("flat", room(tmp_path), "--json")
    assert (done.status, done.out.count("\n")) == (0, 1)
    assert json.loads(done.out)["surveys"][0]["least_fill"]


def test_the_job_says_how_to_prepare_and_the_document_what_that_takes(tmp_path: Path) -> None:
    """The floor rises 12 mm over 1.2 m: ground and filled to the level of 6 mm a wedge each way."""
    meets = [{"at": [x, y], "height": 6} for x, y in ((0, 0), (1200, 0), (0, 900))]
    points = [[x, y, x * 0.01] for y in range(0, 901, 300) for x in range(0, 1201, 300)]
    asked = {"way": "plane", "meets": meets, "bag_litres": 0.5, "fill_cost": 2, "grind_cost": 10}
    survey = {"surface": "floor", "points": points, "preparation": asked}
    (found,) = surveys(room(tmp_path, surveys=[survey]))
    made = found["preparation"]
    wedge = 6 * 600 / 2 * 900
    assert (made["way"], made["is_needed"]) == ("plane", True)
    assert [made["volume"], made["volume_removed"]] == pytest.approx([wedge, wedge])
    assert (made["deepest"], made["most_removed"]) == pytest.approx((6.0, 6.0))
    assert made["bags"] == 4
    assert made["cost"] == pytest.approx(wedge / 1e6 * 12)
    assert made["missed"] == [] and made["dams"] == []
    assert [each["ok"] for each in made["verdicts_after"]] == [True, True]


def test_heights_to_meet_are_typed_on_the_call(tmp_path: Path) -> None:
    surface = {
        "id": "floor",
        "outline": [[0, 0], [1200, 0], [1200, 900], [0, 900]],
        "edges": [{"at": 1, "is": "doorway", "name": "hall door"}],
        "cutouts": [{"name": "drain", "circle": {"centre": [300, 300], "diameter": 100}}],
    }
    path = room(tmp_path, surfaces=[surface], show_lengths="feet")
    (found,) = surveys(path, "--meet", "Hall door=5/8 in")
    assert found["preparation"]["way"] == "plane"
    assert found["preparation"]["dams"] == ["hall door", "drain"]
    assert found["preparation"]["missed"] == []
    (fallen,) = surveys(path, "--meet", "drain=-1/4, 1/4 in per ft", "--meet", "47 1/4, 0 = 3")
    (missed,) = fallen["preparation"]["missed"]
    assert missed["above"] == pytest.approx((900**2 + 300**2) ** 0.5 / 48 - 50 / 48 - 3.25 * 25.4, abs=0.02)
    assert fallen["preparation"]["verdicts_after"]
    text = called("flat", path, "--meet", "drain=, 2 %").out
    assert "drain: as low as it can be" not in text and "Judged again as filled, for slab" in text


@pytest.mark.parametrize("typed", ["drain=3", "hall door", "1200=2", "0, 0=2, steep"])
def test_a_height_to_meet_that_says_nothing_is_told_with_what_would_do(tmp_path: Path, typed: str) -> None:
    done = called("flat", room(tmp_path), "--meet", typed)
    assert (done.status, done.out) == (2, "")
    assert "rite" in done.err.splitlines()[1]


def test_the_ways_of_the_call_are_those_of_the_job(tmp_path: Path) -> None:
    for way in PreparationWay:
        assert parser().parse_args(["flat", "a.tilejob", "--way", way.value]).way == way.value
    (found,) = surveys(room(tmp_path), "--way", "level")
    assert found["preparation"]["volume"] == found["level_fill"]["volume"]


def test_f_numbers_stand_in_the_document_where_the_readings_allow_them(tmp_path: Path) -> None:
    (found,) = surveys(room(tmp_path))
    numbers = found["f_numbers"]
    assert numbers["flatness"] > 0 and numbers["levelness"] is None and numbers["lines"] == 4
    assert "indicative only" in numbers["source"]
    wide = [[x, y, 0] for y in (0, 400, 800) for x in (0, 400, 800, 1200)]
    path = room(tmp_path, surveys=[{"surface": "floor", "points": wide}])
    assert surveys(path)[0]["f_numbers"] is None
    assert "FF and FL: they need lines of five or more readings" in called("flat", path).out
