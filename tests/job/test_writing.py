"""Saving: the same job gives the same bytes, nothing drifts, and no half file is ever left."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.job.cast import BAY, POTTING_SHED, job_of, with_change
from tilelayout.base.errors import JobFileError
from tilelayout.job.files import job_from_bytes, job_to_bytes, read_job, write_job
from tilelayout.job.values import Job, Layout, Surface

ROOT = Path(__file__).resolve().parent.parent.parent
CAST = pytest.mark.parametrize("tree", [POTTING_SHED, BAY], ids=["shed", "bay"])


@CAST
def test_what_was_written_reads_as_the_same_job(tree: dict[str, Any]) -> None:
    job = job_of(tree)
    assert job_from_bytes(job_to_bytes(job)) == job


@CAST
def test_a_hundred_savings_change_no_byte(tree: dict[str, Any]) -> None:
    tree = with_change(tree, "surfaces 0 outline 2", ["9' 3-1/3\"", "2718.281828459045"])
    first = content = job_to_bytes(job_of(tree))
    for _ in range(100):
        content = job_to_bytes(job_from_bytes(content))
    assert content == first


def test_typed_inches_are_saved_as_the_number_they_are() -> None:
    content = job_to_bytes(job_of(with_change(BAY, "tiles 0 across_flats", "9' 3-1/2\"")))
    assert b'"across_flats": 2832.1\n' in content


def test_equal_jobs_give_equal_bytes_however_they_came_about() -> None:
    read = job_of({"format": "tilejob", "version": 1, "saw": {}, "surfaces": [], "title": ""})
    corner = np.array([0.0, -0.0])
    made = Surface(id="s", outline=((corner[0], corner[1]), (100.0, 0), (0.0, np.float64(90))))
    same = Surface(id="s", outline=((0.0, 0.0), (100.0, 0.0), (0.0, 90.0)), edges=(), name="")
    assert job_to_bytes(read) == job_to_bytes(Job())
    assert job_to_bytes(Job(surfaces=(made,))) == job_to_bytes(Job(surfaces=(same,)))


def test_the_name_of_a_layout_is_written_after_its_id_and_left_out_if_it_has_none() -> None:
    named = job_of(with_change(POTTING_SHED, "layouts 0 name", "half tiles at the door"))
    assert named.layouts[0].name == "half tiles at the door"
    assert named.layouts[0].settings == job_of(POTTING_SHED).layouts[0].settings
    content = job_to_bytes(named)
    assert list(json.loads(content)["layouts"][0])[:3] == ["id", "name", "surface"]
    assert job_from_bytes(content) == named
    assert "name" not in json.loads(job_to_bytes(job_of(POTTING_SHED)))["layouts"][0]


def test_settings_stand_flat_and_in_one_order() -> None:
    job = job_of(with_change(POTTING_SHED, "layouts 0 b_key", {"y": [1.0, 2.5], "x": None}))
    other = replace(job.layouts[0], settings=dict(reversed(job.layouts[0].settings.items())))
    content = job_to_bytes(job)
    layout = json.loads(content)["layouts"][0]
    assert layout["row_offsets"] == [0, 0.3333333333]
    assert layout["b_key"] == {"y": [1, 2.5], "x": None}
    assert "settings" not in layout
    assert job_to_bytes(replace(job, layouts=(other,))) == content


def test_a_person_can_read_the_file() -> None:
    lines = job_to_bytes(job_of(POTTING_SHED)).decode().splitlines()
    assert lines[:3] == ["{", '  "format": "tilejob",', '  "version": 1,']
    assert '      "outline": [[0, 0], [3657.6, 0], [3657.6, 2438.4], [0, 2438.4]],' in lines
    assert all(len(line) <= 110 for line in lines)


def test_letters_of_all_scripts_are_kept() -> None:
    job = Job(title='Küche 台所 🧱 \u0001"')
    assert job_from_bytes(job_to_bytes(job)) == job
    assert "台所" in job_to_bytes(job).decode()


@settings(max_examples=60, deadline=None)
@given(
    st.text(st.characters(exclude_categories=["Cs"]), max_size=20),
    st.lists(st.tuples(st.floats(-9e5, 9e5), st.floats(-9e5, 9e5)), min_size=1, max_size=4),
    st.dictionaries(st.text("abc_", min_size=5), st.floats(-1e300, 1e300) | st.booleans() | st.none()),
)
def test_any_numbers_and_texts_come_back(
    text: str, points: list[tuple[float, float]], keys: dict[str, Any]
) -> None:
    base = job_of(BAY)
    layouts = tuple(replace(base.layouts[0], id=f"L{n}", start=point) for n, point in enumerate(points))
    job = replace(base, title=text, layouts=(*layouts, replace(base.layouts[1], settings=keys)))
    read = job_from_bytes(job_to_bytes(job))
    assert read == job
    assert job_to_bytes(read) == job_to_bytes(job)


def test_a_job_is_saved_under_a_new_name_and_over_an_old_one(tmp_path: Path) -> None:
    path = tmp_path / "room.tilejob"
    write_job(job_of(BAY), path)
    write_job(job_of(POTTING_SHED), str(path))
    assert read_job(path) == job_of(POTTING_SHED)
    assert [entry.name for entry in tmp_path.iterdir()] == ["room.tilejob"]


def test_a_full_disk_keeps_the_old_file_and_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "room.tilejob"
    write_job(job_of(BAY), path)

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(JobFileError, match="no space left on device") as caught:
        write_job(job_of(POTTING_SHED), path)
    assert caught.value.file == str(path)
    assert "Make room" in caught.value.mend
    assert read_job(path) == job_of(BAY)


def test_saving_where_there_is_no_folder_says_so(tmp_path: Path) -> None:
    with pytest.raises(JobFileError, match="no such file or directory"):
        write_job(Job(), tmp_path / "nowhere" / "room.tilejob")
    with pytest.raises(JobFileError, match="is a folder"):
        write_job(Job(), tmp_path)


def test_a_program_killed_while_saving_leaves_the_old_or_the_new_file(tmp_path: Path) -> None:
    path = tmp_path / "room.tilejob"
    either = {job_to_bytes(job_of(tree)) for tree in (BAY, POTTING_SHED)}
    moments = random.Random(3)
    for _ in range(12):
        with subprocess.Popen(
            [sys.executable, "-m", "tests.job.saving_for_ever", str(path)], cwd=ROOT, stdout=subprocess.PIPE
        ) as saver:
            assert saver.stdout is not None
            assert saver.stdout.readline() == b"saved\n"
            time.sleep(moments.uniform(0, 0.02))
            saver.kill()
        assert path.read_bytes() in either


def test_a_layout_of_every_default_is_written_with_the_figures_that_matter() -> None:
    job = replace(job_of(BAY), layouts=(Layout(id="A", surface="bay", tile="comb"),))
    layout = json.loads(job_to_bytes(job))["layouts"][0]
    assert (layout["joint"], layout["gap"], layout["least_piece"], layout["start"]) == (3, 6, 5, [0, 0])
