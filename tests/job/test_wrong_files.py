"""Every error of a job file names the file, the place and the mend."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest

from tests.job.cast import BAY, POTTING_SHED, in_bytes, with_change
from tilelayout.base.errors import JobFileError
from tilelayout.job.files import job_from_bytes, read_job

SQUARE = [[0, 0], [1000, 0], [1000, 1000], [0, 1000]]
NOT_A_NUMBER, ENDLESS = float("nan"), float("inf")

WRONG: list[tuple[str, Any, str, str]] = [
    # where in the tree, what stands there, the place named, words of the error
    ("format", ..., "format", "does not say that it is a job"),
    ("format", "other", "format", "not “tilejob”"),
    ("version", ..., "version", "missing"),
    ("version", "1", "version", "no number of a version"),
    ("version", True, "version", "no number of a version"),
    ("version", 0, "version", "no number of a version"),
    ("version", 2, "version", "newer program"),
    ("colour", "red", "colour", "not known"),
    ("title", 5, "title", "a text is wanted"),
    ("title", None, "title", "null; a text"),
    ("show_lengths", "inches", "show_lengths", "Did you mean inch"),
    ("saw", [], "saw", "a group of keys is wanted"),
    ("saw kerf", -1, "saw.kerf", "0 to 20 mm"),
    ("saw dressed", "yes", "saw.dressed", "true or false"),
    ("saw least_offcut", 9000, "saw.least_offcut", "0 to 5000 mm"),
    ("surfaces", {}, "surfaces", "a list is wanted"),
    ("surfaces 0", 5, "surfaces[0]", "a group of keys is wanted"),
    ("surfaces 0 id", ..., "surfaces[0]", "The key id is missing"),
    ("surfaces 0 id", " ", "surfaces[0].id", "empty"),
    ("surfaces 0 kind", "roof", "surfaces[0].kind", "floor, wall"),
    ("surfaces 0 edge", [], "surfaces[0].edge", "Did you mean edges"),
    ("surfaces 0 outline", ..., "surfaces[0]", "The key outline is missing"),
    ("surfaces 0 outline", SQUARE[:2], "surfaces[0].outline", "2 corners"),
    ("surfaces 0 outline", [], "surfaces[0].outline", "0 corners"),
    ("surfaces 0 outline 2", ["a", 0], "surfaces[0].outline[2][0]", "no number in it"),
    ("surfaces 0 outline 2", [0, 0, 0], "surfaces[0].outline[2]", "A point is [x, y]"),
    ("surfaces 0 outline 2", ["1,600", 0], "surfaces[0].outline[2][0]", "Write 1600 or 1.600"),
    ("surfaces 0 outline 2", [True, 0], "surfaces[0].outline[2][0]", "no length"),
    ("surfaces 0 outline 2", [NOT_A_NUMBER, 0], "surfaces[0].outline[2][0]", "no number"),
    ("surfaces 0 outline 2", [0, ENDLESS], "surfaces[0].outline[2][1]", "no number"),
    ("surfaces 0 outline 2", [0, 2e6], "surfaces[0].outline[2][1]", "kilometre"),
    ("surfaces 0 outline 2", [0, 10**30], "surfaces[0].outline[2][1]", "no number"),
    ("surfaces 0 outline 4", [0, 0], "surfaces[0].outline[0]", "This corner stands where the one before"),
    (
        "surfaces 0 outline 2",
        ["12 ft", 1e-9],
        "surfaces[0].outline[2]",
        "This corner stands where the one before",
    ),
    ("surfaces 0 outline", [SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3]], "surfaces[0].outline", "(500, 500)"),
    ("surfaces 0 outline", [[0, 0], [500, 0], [900, 0]], "surfaces[0].outline", "next to nothing"),
    ("surfaces 0 outline", [[0, 0], [1, 0], [1, 1]], "surfaces[0].outline", "next to nothing"),
    ("surfaces 0 outline", [*SQUARE[:3], [500, 0]], "surfaces[0].outline", "crosses or touches itself"),
    ("surfaces 0 edges 0 at", 4, "surfaces[0].edges[0].at", "0 to 3"),
    ("surfaces 0 edges 0 at", -1, "surfaces[0].edges[0].at", "no edge -1"),
    ("surfaces 0 edges 0 at", 0.5, "surfaces[0].edges[0].at", "a whole number is wanted"),
    ("surfaces 0 edges 1", {"at": 0}, "surfaces[0].edges[1].at", "described twice"),
    ("surfaces 0 edges 0 is", "door", "surfaces[0].edges[0].is", "Did you mean doorway"),
    ("surfaces 0 edges 0 seen", "no", "surfaces[0].edges[0].seen", "hidden, ordinary, looked-at"),
    ("surfaces 0 edges 0 through", [1000, 0], "surfaces[0].edges[0].through", "in line"),
    ("surfaces 0 edges 0 through", [0, 0], "surfaces[0].edges[0].through", "in line"),
    ("surfaces 0 edges 0 through", ["12 ft", 0], "surfaces[0].edges[0].through", "in line"),
    ("surfaces 0 edges 0 through", [-9000, 0], "surfaces[0].edges[0].through", "in line"),
    ("surfaces 0 edges 0 through", ["6 ft", "9 ft"], "surfaces[0].outline", "crosses or touches itself"),
    ("surfaces 0 cutouts 0 circle", ..., "surfaces[0].cutouts[0]", "no shape"),
    ("surfaces 0 cutouts 0 polygon", SQUARE, "surfaces[0].cutouts[0]", "two shapes"),
    ("surfaces 0 cutouts 0 clearance", -1, "surfaces[0].cutouts[0].clearance", "0 to 500 mm"),
    ("surfaces 0 cutouts 0 circle diameter", 0, "surfaces[0].cutouts[0].circle.diameter", "is 0 mm"),
    ("surfaces 0 cutouts 0 circle centre", [-60, 0], "surfaces[0].cutouts[0].circle", "outside"),
    ("surfaces 0 cutouts 1 polygon", [[0, 0], [9, 0]], "surfaces[0].cutouts[1].polygon", "2 corners"),
    (
        "surfaces 0 cutouts 1 polygon",
        [[-9, -9], [-99, 0], [-9, 0]],
        "surfaces[0].cutouts[1].polygon",
        "outside",
    ),
    (
        "surfaces 0 cutouts 1 polygon",
        [SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3]],
        "surfaces[0].cutouts[1].polygon",
        "crosses",
    ),
    ("surfaces 1", POTTING_SHED["surfaces"][0], "surfaces[1].id", "used by surface 0 and surface 1"),
    ("tiles 1", POTTING_SHED["tiles"][0], "tiles[1].id", "used by tile 0"),
    ("layouts 1", POTTING_SHED["layouts"][0], "layouts[1].id", "used by layout 0"),
    ("tiles 0 shape", ..., "tiles[0]", "The key shape is missing"),
    ("tiles 0 shape", "oval", "tiles[0].shape", "rectangle, hexagon"),
    ("tiles 0 shape", "hexagon", "tiles[0].length", "across_flats"),
    ("tiles 0 length", 0, "tiles[0].length", "1 to 5000 mm"),
    ("tiles 0 width", "-12 in", "tiles[0].width", "-304.8 mm"),
    ("tiles 0 width", "6 m", "tiles[0].width", "is 6000 mm"),
    ("tiles 0 thickness", 0, "tiles[0].thickness", "is 0 mm"),
    ("tiles 0 per_box", 0, "tiles[0].per_box", "is 0."),
    ("tiles 0 per_box", 10**17, "tiles[0].per_box", "can be 1 to"),
    ("tiles 0 per_box", 1.5, "tiles[0].per_box", "a whole number or null is wanted"),
    ("tiles 0 price_per_box", -0.5, "tiles[0].price_per_box", "-0.5"),
    ("tiles 0 price_per_box", "32", "tiles[0].price_per_box", "a number or null is wanted"),
    ("tiles 0 whole_on_hand", -1, "tiles[0].whole_on_hand", "is -1"),
    ("tiles 0 directional", 1, "tiles[0].directional", "true or false is wanted"),
    ("layouts 0 surface", "attic", "layouts[0].surface", "Use one of floor"),
    ("layouts 0 tile", "brick", "layouts[0].tile", "no tile “brick”"),
    ("layouts 0 joint", -1, "layouts[0].joint", "0 to 100 mm"),
    ("layouts 0 joint", 101, "layouts[0].joint", "0 to 100 mm"),
    ("layouts 0 gap", -1, "layouts[0].gap", "0 to 500 mm"),
    ("layouts 0 least_piece", 501, "layouts[0].least_piece", "0 to 500 mm"),
    ("layouts 0 angle", ENDLESS, "layouts[0].angle", "no number"),
    ("layouts 0 angle", 361, "layouts[0].angle", "-360 to 360 degrees"),
    ("layouts 0 start", [0], "layouts[0].start", "1 of the 2 values"),
    ("layouts 0 row_offsets", [0, NOT_A_NUMBER], "layouts[0].row_offsets[1]", "no number"),
    ("layouts 0 row_offsets", "\ud800", "layouts[0].row_offsets", "half a character"),
    ("surveys 0 surface", "attic", "surveys[0].surface", "no surface “attic”"),
    ("surveys 0 points 1", [0, 0], "surveys[0].points[1]", "A reading is [x, y, height]"),
]


@pytest.mark.parametrize(("path", "value", "place", "words"), WRONG)
def test_a_wrong_part_is_named_with_its_place_and_mend(path: str, value: Any, place: str, words: str) -> None:
    with pytest.raises(JobFileError) as caught:
        job_from_bytes(in_bytes(with_change(POTTING_SHED, path, value)), "shed.tilejob")
    error = caught.value
    assert (error.file, error.place) == ("shed.tilejob", place)
    assert words in str(error)
    assert str(error).startswith(f"shed.tilejob: {place}: ")
    assert error.mend
    assert "\n" not in str(error)


def test_a_layout_of_a_job_without_tiles_says_so() -> None:
    with pytest.raises(JobFileError, match="Add the tile to the job"):
        job_from_bytes(in_bytes(with_change(BAY, "tiles", [])))


@pytest.mark.parametrize(
    ("content", "place", "words"),
    [
        (b"", "", "empty"),
        (b" \n ", "", "empty"),
        (b"\xff\xfe{\x00", "", "UTF-8"),
        (b'{"format": "tilejob",\n "version" 1}', "line 2, column 12", "not JSON: expecting ':'"),
        (b'{"format": "tilejob"', "line 1, column 21", "not JSON"),
        (b"[1, 2]", "", "no job"),
        (b"7", "", "no job"),
        (b"[" * 100_000, "", "too deep"),
        (b"[" * 40 + b"]" * 40, "", "too deep"),
        (b'{"a": ' * 40 + b"1" + b"}" * 40, "", "too deep"),
        (b'{"title": "a", "title": "b"}', "", "title stands here more than once"),
        (b'{"saw": {"kerf": 1, "x": 2, "kerf": 3}}', "saw", "kerf stands here more than once"),
        (b'{"saw": {"kerf": ' + b"9" * 5000 + b"}}", "saw.kerf", "no number"),
        (b'{"saw": {"kerf": 1e999}}', "saw.kerf", "no number"),
        (b'{"saw": {"kerf": -Infinity}}', "saw.kerf", "no number"),
        (b'{"saw": {"\\ud800": 1}}', "saw", "half a character"),
        (b'"\\u0000"', "", "no job"),
    ],
)
def test_what_is_no_job_at_all_is_refused(content: bytes, place: str, words: str) -> None:
    with pytest.raises(JobFileError) as caught:
        job_from_bytes(content, "x.tilejob")
    assert caught.value.place == place
    assert words in str(caught.value)
    assert caught.value.mend


def test_a_file_of_fifty_megabytes_is_refused_before_it_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "huge.tilejob"
    with path.open("wb") as file:
        file.truncate(50 * 1024 * 1024)
    monkeypatch.setattr(Path, "read_bytes", lambda _: pytest.fail("the file was read"))
    with pytest.raises(JobFileError, match=r"50\.0 MB; a job has at most 16 MB"):
        read_job(path)


def test_fifty_megabytes_in_memory_are_refused_before_they_are_parsed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(json, "loads", lambda *_, **__: pytest.fail("the text was parsed"))
    with pytest.raises(JobFileError, match="at most 16 MB"):
        job_from_bytes(b" " * (50 * 1024 * 1024))


def test_a_missing_file_a_folder_and_a_pipe_are_refused(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path, words in (
        (tmp_path / "none.tilejob", "no such file"),
        (tmp_path, "is a folder"),
        (tmp_path / "pipe", "no ordinary file"),
        (tmp_path / ("n" * 300), "name too long"),
        (tmp_path / "a\0b", "null"),
    ):
        with pytest.raises(JobFileError, match=words) as caught:
            read_job(path)
        assert caught.value.file == str(path)
        assert caught.value.mend


def test_an_unreadable_file_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "locked.tilejob"
    path.write_bytes(in_bytes(BAY))

    def refused(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refused)
    with pytest.raises(JobFileError, match="cannot be read: permission denied"):
        read_job(path)
