"""Calls, good and bad: exit statuses, what goes where, and plain lines instead of tracebacks."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.cli.calls import ROOT, SAMPLES, called, no_window, started
from tilelayout.cli import command_line
from tilelayout.cli.command_line import run

SHED = str(SAMPLES / "potting_shed.tilejob")
HALL = str(SAMPLES / "herringbone_hall.tilejob")


def changed(folder: Path, **keys: Any) -> str:
    """Return the path of the potting shed with some keys of the job replaced."""
    job = {**json.loads(Path(SHED).read_bytes()), **keys}
    path = folder / "changed.tilejob"
    path.write_text(json.dumps(job), encoding="utf-8")
    return str(path)


def test_lay_prints_the_figures_and_the_cut_list_of_every_layout() -> None:
    done = called("lay", SHED)
    assert done.status == 0
    lines = done.out.splitlines()
    assert lines[0] == "Potting shed floor"
    assert [line.split(":")[0] for line in lines if line.startswith("Layout")] == ["Layout A", "Layout B"]
    assert any(line.split()[:3] == ["tiles", "to", "open"] for line in lines)
    assert any('rip to 9 1/16", keep the upper edge' in line for line in lines)
    assert done.err == "laid A (1 of 2)\nlaid B (2 of 2)\n"


def test_the_values_stand_under_each_other() -> None:
    lines = called("lay", HALL, "--layout", "A").out.splitlines()
    figures = lines[lines.index(next(line for line in lines if line.startswith("Layout"))) + 1 :][:6]
    names = ("area to tile", "whole tiles", "cut pieces", "tiles to open", "narrowest piece", "slivers")
    assert [line.strip().startswith(name) for line, name in zip(figures, names, strict=True)] == [True] * 6
    found = [re.match(r"  \S+(?: \S+)* {2,}\S+(?: \S+)*", line) for line in figures]
    assert len({value.end() if value else None for value in found}) == 1


def test_lay_as_json_prints_one_document_and_nothing_else() -> None:
    done = called("lay", SHED, "--json")
    assert [layout["id"] for layout in json.loads(done.out)["layouts"]] == ["A", "B"]
    assert done.out.count("\n") == 1
    assert done.err


def test_one_layout_can_be_asked_for() -> None:
    assert [
        layout["id"] for layout in json.loads(called("lay", SHED, "--layout", "B", "--json").out)["layouts"]
    ] == ["B"]


def test_strict_fails_for_slivers_only() -> None:
    assert called("lay", SHED, "--strict", "--layout", "A").status == 0
    failed = called("lay", SHED, "--strict")
    assert failed.status == 1
    assert "slivers" in failed.out
    assert failed.err.splitlines()[-1] == "strict: layout B has 1 sliver"


def test_print_writes_a_pdf_and_says_how_to_open_the_window(tmp_path: Path) -> None:
    done = called("print", SHED, "--to", str(tmp_path / "shed.pdf"), "--paper", "a4", "--layout", "A")
    assert done.status == 0
    assert (tmp_path / "shed.pdf").read_bytes().startswith(b"%PDF-")
    wrote, how_to_open = done.out.splitlines()
    assert wrote == f"Wrote {tmp_path / 'shed.pdf'}."
    assert how_to_open.startswith("To see it and change it in the window: ")
    assert how_to_open.endswith(f" open {SHED}")


@pytest.mark.parametrize(
    ("arguments", "shown"),
    [((), "window on None"), (("open",), "window on None"), (("open", SHED), f"window on {SHED}")],
)
def test_no_command_and_open_hand_over_to_the_window(arguments: tuple[str, ...], shown: str) -> None:
    done = called(*arguments)
    assert (done.status, done.out.strip()) == (0, shown)


@pytest.mark.parametrize(
    "arguments", [("--help",), ("lay", "--help"), ("flat", "--help"), ("print", "--help"), ("open", "--help")]
)
def test_help_is_for_reading(arguments: tuple[str, ...]) -> None:
    done = called(*arguments)
    assert (done.status, done.err) == (0, "")
    assert done.out.startswith("usage: tilelayout")
    assert max(map(len, done.out.splitlines())) <= 110


def test_help_names_every_command_and_no_other() -> None:
    text = called("--help").out
    commands = {line.split()[0] for line in text.splitlines() if line.startswith("    ")}
    assert commands == {"open", "lay", "seek", "flat", "print"}
    assert "exit status: 0 done, 1 done but a check" in text


def test_the_version_is_told() -> None:
    done = called("--version")
    assert (done.status, done.out.split()[0]) == (0, "tilelayout")


WRONG = {
    "no such command": (("dance",), "dance"),
    "an unknown option": (("lay", SHED, "--colour"), "--colour"),
    "a shortened option": (("lay", SHED, "--lay", "A"), "--lay"),
    "no job": (("lay",), "JOB"),
    "no target": (("print", SHED), "--to"),
    "no such paper": (("print", SHED, "--to", "x.pdf", "--paper", "a3"), "a3"),
    "no such file": (("lay", "nowhere.tilejob"), "nowhere.tilejob"),
    "a folder": (("lay", str(SAMPLES)), str(SAMPLES)),
    "not a job": (("lay", __file__), __file__),
    "no such layout": (("lay", SHED, "--layout", "C"), '"A", "B"'),
    "no such layout to print": (("print", SHED, "--to", "x.pdf", "--layout", "C"), '"A", "B"'),
    "a target in no folder": (("print", SHED, "--to", "no/such/folder/x.pdf"), "no/such/folder"),
    "a target that is a folder": (("print", SHED, "--to", str(SAMPLES)), str(SAMPLES)),
}


@pytest.mark.parametrize(("arguments", "named"), WRONG.values(), ids=WRONG.keys())
def test_a_wrong_call_is_told_in_one_or_two_lines(arguments: tuple[str, ...], named: str) -> None:
    done = called(*arguments)
    lines = [line for line in done.err.splitlines() if not line.startswith(("laid", "Laying", "Page"))]
    assert (done.status, done.out) == (2, "")
    assert 1 <= len(lines) <= 2
    assert lines[0].startswith("tilelayout: ")
    assert named in " ".join(lines)


def test_a_wrong_value_is_told_with_file_place_and_mend(tmp_path: Path) -> None:
    surfaces = [{"id": "floor", "outline": [[0, 0], [100, 0], ["12 fathoms", 100]]}]
    path = changed(tmp_path, surfaces=surfaces)
    first, second = called("lay", path).err.splitlines()
    assert first.startswith(f"tilelayout: {path}: surfaces[0].outline[2]")
    assert "12 fathoms" in first
    assert second.strip()


def test_a_job_without_layouts_says_what_to_do(tmp_path: Path) -> None:
    path = changed(tmp_path, layouts=[])
    done = called("lay", path)
    assert (done.status, done.out) == (2, "")
    assert done.err.startswith(f"tilelayout: {path}: layouts: The job has no layout.")


def test_a_layout_that_cannot_be_laid_is_named_by_its_place(tmp_path: Path) -> None:
    layouts = [
        {"id": "A", "surface": "floor", "tile": "slate-look"},
        {"id": "B", "surface": "floor", "tile": "slate-look", "pattern": "hexagon"},
    ]
    done = called("lay", changed(tmp_path, layouts=layouts), "--json")
    assert (done.status, done.out) == (2, "")
    assert "layouts[1]" in done.err


def test_a_wrong_setting_is_named_by_its_place(tmp_path: Path) -> None:
    layouts = [{"id": "A", "surface": "floor", "tile": "slate-look", "row_offset": [0]}]
    done = called("lay", changed(tmp_path, layouts=layouts))
    assert "layouts[0].row_offset" in done.err


def test_an_interrupted_call_ends_quietly(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def interrupted(*_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(command_line, "_carry_out", interrupted)
    assert run(["lay", SHED], no_window) == 130
    assert capsys.readouterr() == ("", "")


def test_a_fault_of_the_program_is_not_hidden_as_a_wrong_call(monkeypatch: pytest.MonkeyPatch) -> None:
    def faulty(*_: object) -> int:
        raise ZeroDivisionError

    monkeypatch.setattr(command_line, "_carry_out", faulty)
    with pytest.raises(ZeroDivisionError):
        run(["lay", SHED], no_window)


# What follows starts the program itself.


def test_the_program_lays_a_room_from_any_folder(tmp_path: Path) -> None:
    done = started("lay", SHED, "--json", folder=tmp_path)
    assert done.status == 0
    assert json.loads(done.out)["layouts"][0]["whole"] == 35


def test_the_program_tells_a_wrong_call_and_its_status(tmp_path: Path) -> None:
    done = started("lay", "nowhere.tilejob", folder=tmp_path)
    assert (done.status, done.out) == (2, "")
    assert "nowhere.tilejob" in done.err
    assert "Traceback" not in done.err


def test_a_reader_that_leaves_early_is_no_fault() -> None:
    command = f'"{sys.executable}" -m tilelayout lay "{SHED}" --json | head -c 10; echo "${{PIPESTATUS[0]}}"'
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        ["bash", "-c", command], env=environment, capture_output=True, text=True, check=True
    )
    assert done.stdout.startswith('{"layouts"')
    assert "Traceback" not in done.stderr
    assert "BrokenPipe" not in done.stderr


def test_a_program_stopped_from_the_keyboard_says_nothing_more(tmp_path: Path) -> None:
    layouts = [{"id": f"L{k}", "surface": "floor", "tile": "slate-look", "start": [k, 0]} for k in range(900)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    with subprocess.Popen(
        [sys.executable, "-m", "tilelayout", "lay", changed(tmp_path, layouts=layouts)],
        env=environment, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    ) as program:  # fmt: skip
        assert program.stderr is not None
        assert program.stderr.readline() == "laid L0 (1 of 900)\n"
        program.send_signal(signal.SIGINT)
        out, err = program.communicate(timeout=60)
    assert (program.returncode, out) == (130, "")
    assert "Traceback" not in err


def test_ranges_are_told_only_when_asked_for() -> None:
    room = str(SAMPLES / "potting_shed.tilejob")
    plain, told = called("lay", room, "--layout", "A"), called("lay", room, "--layout", "A", "--ranges")
    assert told.status == 0
    assert "one wall" not in plain.out
    assert "may be with one wall" in told.out
    assert "counts:" in told.out
    without, with_ranges = (
        json.loads(called("lay", room, "--layout", "A", "--json", *more).out)["layouts"][0]
        for more in ((), ("--ranges",))
    )
    ranges = with_ranges.pop("ranges")
    assert with_ranges == without
    assert ranges["whole"][0] <= without["whole"] <= ranges["whole"][1]
    assert ranges["cut"][0] <= without["cut"] <= ranges["cut"][1]
    assert all(each["cut"] is None or each["cut"][0] <= each["cut"][1] for each in ranges["borders"])
    assert (ranges["wall_off"], ranges["tile_off"]) == (3.0, 0.5)
