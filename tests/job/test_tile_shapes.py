"""The shapes of tiles in a job file: each is read, written back the same, and refused if it cannot be."""

from __future__ import annotations

from typing import Any

import pytest

from tests.job.cast import BAY, in_bytes, job_of, with_change
from tilelayout.base.errors import EditError, JobFileError
from tilelayout.job.edits import tiles
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.values import (
    Job,
    ParallelogramTile,
    PicketTile,
    PolygonTile,
    RhombusTile,
    Tile,
    TriangleTile,
)

SHAPES: dict[str, tuple[dict[str, Any], Tile]] = {
    "parallelogram": (
        {"length": "16 in", "width": 100, "angle": 45, "left_and_right": True},
        ParallelogramTile(id="comb", length=406.4, width=100.0, angle=45.0, left_and_right=True),
    ),
    "rhombus": ({"side": "6 in", "angle": 60}, RhombusTile(id="comb", side=152.4, angle=60.0)),
    "triangle": ({"side": 200}, TriangleTile(id="comb", side=200.0)),
    "picket": (
        {"length": 300, "width": 75, "point": "1 1/2 in"},
        PicketTile(id="comb", length=300.0, width=75.0, point=38.1),
    ),
    "polygon": (
        {"outline": [[0, 0], ["10 cm", 0], [100, 50], [50, 90]]},
        PolygonTile(id="comb", outline=((0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (50.0, 90.0))),
    ),
}


def with_tile(**keys: Any) -> dict[str, Any]:
    return with_change(BAY, "tiles 0", {"id": "comb", **keys})


@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_is_read_and_written_back_the_same(shape: str) -> None:
    keys, tile = SHAPES[shape]
    job = job_of(with_tile(shape=shape, **keys))
    assert job.tile("comb") == tile
    written = job_to_bytes(job)
    assert f'"shape": "{shape}"'.encode() in written
    assert job_from_bytes(written) == job
    assert job_to_bytes(job_from_bytes(written)) == written


def test_a_tile_of_one_hand_is_the_usual_one() -> None:
    job = job_of(with_tile(shape="parallelogram", length=400, width=100, angle=60))
    tile = job.tile("comb")
    assert isinstance(tile, ParallelogramTile) and not tile.left_and_right
    assert b"left_and_right" not in job_to_bytes(job)


SQUARE = [[0, 0], [90, 0], [90, 90], [0, 90]]
LEAN = {"shape": "parallelogram", "length": 400, "width": 100, "angle": 60}

WRONG = [
    (LEAN | {"angle": 10}, "angle", "15 to 165 degrees"),
    (LEAN | {"angle": "60 in"}, "angle", "a number is wanted"),
    (LEAN | {"length": 6000}, "length", "6000 mm"),
    (LEAN | {"left_and_right": 1}, "left_and_right", "true or false"),
    (LEAN | {"side": 9}, "side", "not known here"),
    ({"shape": "parallelogram", "length": 400, "width": 100}, "", "angle is missing"),
    ({"shape": "rhombus", "side": 0.5, "angle": 60}, "side", "0.5 mm"),
    ({"shape": "rhombus", "side": 90, "angle": 170}, "angle", "170 degrees"),
    ({"shape": "triangle", "side": -5}, "side", "-5 mm"),
    ({"shape": "triangle", "side": 90, "angle": 60}, "angle", "not known here"),
    ({"shape": "picket", "length": 100, "width": 50, "point": 50}, "point", "nothing straight"),
    ({"shape": "picket", "length": 100, "width": 50, "point": 0}, "point", "is 0 mm"),
    ({"shape": "polygon", "outline": SQUARE[:2]}, "outline", "3 to 40"),
    ({"shape": "polygon", "outline": [[0, k * k] for k in range(50)]}, "outline", "3 to 40"),
    ({"shape": "polygon", "outline": [*SQUARE, [0, 90]]}, "outline[4]", "stands where"),
    ({"shape": "polygon", "outline": [SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3]]}, "outline", "crosses"),
    ({"shape": "polygon", "outline": [[0, 0], [5, 0], [5, 5]]}, "outline", "next to nothing"),
    ({"shape": "polygon", "outline": [[0, 0], [6000, 0], [0, 6000]]}, "outline", "6000 mm"),
    ({"shape": "polygon", "outline": [[0, 0], [900, 0], [900, 90]]}, "outline[0]", "10 to 180 degrees"),
    ({"shape": "polygon", "outline": [[0, 0], [900, "far"], [900, 90]]}, "outline[1][1]", "no number"),
    ({"shape": "rombus", "side": 9}, "shape", "Did you mean rhombus"),
]  # fmt: skip


@pytest.mark.parametrize(("keys", "place", "words"), WRONG)
def test_a_wrong_shape_is_named_with_its_place(keys: dict[str, Any], place: str, words: str) -> None:
    with pytest.raises(JobFileError) as caught:
        job_from_bytes(in_bytes(with_tile(**keys)))
    assert caught.value.place == f"tiles[0].{place}".rstrip(".")
    assert words in str(caught.value)
    assert caught.value.mend


def test_an_edit_holds_to_the_same_limits() -> None:
    with pytest.raises(EditError, match="170 degrees"):
        tiles.add_tile(Job(), RhombusTile(id="r", side=90.0, angle=170.0))
