"""What `lay` says of buying, trims, heights and the trade's rules, and what `--strict` makes of it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tests.cli.calls import SAMPLES, called

SHED = SAMPLES / "potting_shed.tilejob"


def shed(folder: Path, *, surface: dict[str, Any] | None = None, tile: dict[str, Any] | None = None) -> str:
    """Return the path of the potting shed with more said of its floor and tile."""
    job = json.loads(SHED.read_bytes())
    job["surfaces"][0] |= surface or {}
    job["tiles"][0] |= tile or {}
    path = folder / "shed.tilejob"
    path.write_text(json.dumps(job), encoding="utf-8")
    return str(path)


def test_a_broken_rule_is_said_and_strict_fails_on_it(tmp_path: Path) -> None:
    wet = shed(tmp_path, surface={"wetness": "wet", "adhesive": {"class": "D1"}})
    done = called("lay", wet, "--layout", "A", "--strict")
    assert done.status == 1
    assert "  stop    Slate look 12 x 24 on Shed floor gets wet, and mastic softens" in done.out
    assert "strict: stop, mastic-wet:" in done.err
    assert called("lay", wet, "--layout", "A").status == 0


def test_advices_alone_do_not_fail_and_are_only_counted(tmp_path: Path) -> None:
    done = called("lay", str(SHED), "--layout", "A", "--strict")
    assert done.status == 0
    assert "more advices and cautions: --findings shows all" in done.out
    assert "caution-dust" not in done.out


def test_all_findings_stand_with_their_source_when_asked_for(tmp_path: Path) -> None:
    done = called("lay", str(SHED), "--layout", "A", "--findings")
    assert "[lippage] ANSI A108.02-2013, 4.3.7 (as trade bodies" in done.out
    assert "common practice" in called("lay", shed(tmp_path, surface={"wetness": "wet"}), "--findings").out


def test_json_has_findings_only_when_asked_for(tmp_path: Path) -> None:
    long_bed = shed(tmp_path, surface={"adhesive": {"class": "C2", "bed": [3, 9]}})
    assert list(json.loads(called("lay", long_bed, "--json").out)) == ["layouts"]
    found = json.loads(called("lay", long_bed, "--json", "--findings").out)["findings"]
    thick = next(each for each in found if each["code"] == "thick-bed")
    assert (thick["level"], thick["measured"], thick["unit"], thick["grade"]) == ("warn", 9.0, "mm", "B")
    assert thick["limit"] == 6.35
    assert thick["subject"] == ["floor", "slate-look"]
    assert {"sentence", "source"} <= set(thick)


def test_buying_stands_line_by_line(tmp_path: Path) -> None:
    few = shed(tmp_path, tile={"spare": 0, "whole_on_hand": 4})
    lines = called("lay", few, "--layout", "A").out.splitlines()
    numbers = {
        line[:18].strip(): int(line[18:23])
        for line in lines
        if line.startswith("    ") and line[18:23].strip().isdigit()
    }
    assert {"laid whole", "opened to cut", "breakage", "spare", "on hand", "tiles to buy", "boxes"} <= set(
        numbers
    )
    there = sum(numbers[name] for name in ("laid whole", "opened to cut", "breakage", "spare"))
    assert numbers["spare"] == 0
    assert numbers["tiles to buy"] == there - 4
    assert numbers["boxes"] == -(-numbers["tiles to buy"] // 8)


def test_trims_and_heights_have_their_lines(tmp_path: Path) -> None:
    trim = {"tile": "slate-look", "height": 75, "edges": [2]}
    built = {
        "trims": [trim],
        "adhesive": {"class": "C2", "bed": [3, 4]},
        "edges": [{"at": 0, "is": "doorway", "meets": 10}],
    }
    out = called("lay", shed(tmp_path, surface=built), "--layout", "A").out
    assert 'base 2 15/16" high: ' in out
    assert "2 to a tile, for each shows one of its 2 factory edges; 3 if sawn edges may show" in out
    assert "above the floor beyond" in out


def test_a_trim_its_tile_cannot_give_is_a_plain_error(tmp_path: Path) -> None:
    tall = shed(tmp_path, surface={"trims": [{"tile": "slate-look", "height": 500}]})
    done = called("lay", tall)
    assert done.status == 2
    assert 'No strip of 19 11/16" can be sawn from' in done.err
    assert "shed.tilejob" in done.err


def test_an_unknown_practice_names_those_there_are(tmp_path: Path) -> None:
    job = json.loads(SHED.read_bytes()) | {"practice": "mars"}
    path = tmp_path / "mars.tilejob"
    path.write_text(json.dumps(job), encoding="utf-8")
    done = called("lay", str(path))
    assert done.status == 2
    assert "It can be: us, uk, de, au." in done.err
