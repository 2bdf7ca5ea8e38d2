from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.calls import SAMPLES, called, started

SHED = str(SAMPLES / "potting_shed.tilejob")


def document(*arguments: str) -> dict[str, Any]:
    outcome = called("seek", *arguments, "--json")
    assert outcome.status == 0, outcome.err
    found: dict[str, Any] = json.loads(outcome.out)
    return found


def test_every_layout_found_can_be_put_into_the_job_and_lays_to_its_figures(tmp_path: Path) -> None:
    found = document(SHED, "--surface", "floor", "--aim", "widest-cut", "--most", "3")
    assert found["proved"] is True and found["found"][0]["proved"] is True
    tree = json.loads(Path(SHED).read_text(encoding="utf-8"))
    tree["layouts"] = [one["layout"] for one in found["found"]]
    path = tmp_path / "found.tilejob"
    path.write_text(json.dumps(tree), encoding="utf-8")
    laid = json.loads(called("lay", str(path), "--json").out)["layouts"]
    for one, layout in zip(found["found"], laid, strict=True):
        assert {"layout", "slivers", "narrowest", "tiles_needed", "cuts", "why"} <= set(one)
        assert (one["slivers"], one["cuts"]) == (layout["slivers"], layout["cut"])
        assert one["narrowest"] == pytest.approx(layout["narrowest"], abs=1e-4)
        assert one["tiles_needed"] == layout["tiles_needed"]
    widths = [one["narrowest"] for one in found["found"]]
    assert widths == sorted(widths, reverse=True)


def test_a_room_with_a_round_drain_is_not_said_to_be_proved() -> None:
    house = str(SAMPLES / "wash_house.tilejob")
    found = document(house, "--surface", "floor", "--aim", "fewest-cuts", "--most", "1")
    assert found["proved"] is False and len(found["found"]) == 1


def test_text_names_surface_and_tile_and_says_how_certain_it_is() -> None:
    outcome = called("seek", SHED, "--surface", "floor", "--aim", "widest-cut", "--most", "2")
    assert outcome.status == 0
    first, *rest = outcome.out.splitlines()
    assert first == "Layouts of Shed floor with Slate look 12 x 24, best first"
    assert rest[-1] == "The first is the best there is: no start leaves a wider narrowest cut."
    assert "best so far" in outcome.err and "best so far" not in outcome.out


def test_the_balanced_aim_is_the_usual_one() -> None:
    usual = called("seek", SHED, "--surface", "floor", "--most", "1").out
    assert usual == called("seek", SHED, "--surface", "floor", "--most", "1", "--aim", "balanced").out
    assert "balanced: " in usual


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("--surface", "attic"), 'no surface "attic"'),
        (("--surface", "floor", "--tile", "none"), 'no tile "none"'),
        (("--surface", "floor", "--aim", "pretty"), "balanced"),
        (("--surface", "floor", "--most", "0"), "--most"),
        ((), "--surface"),
    ],
)
def test_a_wrong_call_is_told_in_two_lines_at_most(arguments: tuple[str, ...], told: str) -> None:
    outcome = called("seek", SHED, *arguments)
    assert (outcome.status, outcome.out) == (2, "")
    assert told in outcome.err and "Traceback" not in outcome.err
    assert len([line for line in outcome.err.splitlines() if not line.startswith("seeking")]) <= 2


def test_the_same_call_prints_the_same_in_another_process() -> None:
    arguments = ("seek", SHED, "--surface", "floor", "--aim", "fewest-cuts", "--most", "2", "--json")
    assert started(*arguments).out == called(*arguments).out


def test_alternatives_are_printed_for_a_person_and_for_a_program() -> None:
    call = (SHED, "--surface", "floor", "--most", "3")
    found = document(*call, "--aim", "all")
    assert found == document(*call, "--alternatives")
    assert 1 <= len(found["found"]) <= 3
    told = called("seek", *call, "--aim", "all").out
    assert told.startswith("Layouts of Shed floor with Slate look 12 x 24 that nothing else beats")
    for one in found["found"]:
        assert one["why"] in told
        assert {"layout", "slivers", "narrowest", "tiles_needed", "cuts", "saw_settings"} <= set(one)
    assert all(words in told for words in found["cannot"])


def test_row_offsets_and_joints_can_be_wished_for() -> None:
    ways = (
        "--row-offsets",
        "0,1/2",
        "--row-offsets",
        "0, 0.25",
        "--joint-from",
        "2 mm",
        "--joint-to",
        "2.25",
    )
    found = document(SHED, "--surface", "floor", "--aim", "widest-cut", "--most", "2", *ways)
    for one in found["found"]:
        assert one["layout"]["row_offsets"] in ([0, 0.5], [0, 0.25])
        assert one["layout"]["joint"] in (2, 2.25)


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("--row-offsets", "half"), "is not like"),
        (("--row-offsets", "1/0"), "is not like"),
        (("--joint-from", "wide"), "wide"),
        (("--joint-from", "2 mm"), "--joint-to"),
        (("--joint-from", "3 mm", "--joint-to", "2 mm"), "--joint-from is more"),
        (("--joint-from", "2 mm", "--joint-to", "500 mm"), "The joint is 500 mm"),
    ],
)
def test_a_wish_that_cannot_be_is_refused_with_a_mend(arguments: tuple[str, ...], told: str) -> None:
    outcome = called("seek", SHED, "--surface", "floor", *arguments)
    assert (outcome.status, outcome.out) == (2, "")
    assert told in outcome.err and "Traceback" not in outcome.err
