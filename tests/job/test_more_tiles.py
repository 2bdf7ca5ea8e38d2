"""The further tiles of a layout: read, written, checked with their place, and kept by edits."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.job.cast import POTTING_SHED, job_of
from tilelayout.base.errors import EditError, JobFileError
from tilelayout.job.edits import layouts, tiles
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.values import Job, OctagonTile, RectangleTile
from tilelayout.planning.open_job import check_job

DOT = RectangleTile(id="dot-85", length=85.0, width=85.0)
OCTAGON = OctagonTile(id="slate-look", across_flats=200.0, side=83.0)


@pytest.fixture
def job() -> Job:
    """A shed laid with octagons, and the dots to go with them."""
    shed = tiles.replace_tile(tiles.add_tile(job_of(POTTING_SHED), DOT), "slate-look", OCTAGON)
    shed = layouts.replace_layout(shed, "A", pattern="octagon_and_dot", settings={})
    return layouts.set_more_tile(shed, "A", "dot", "dot-85")


def test_they_stand_in_the_file_beside_the_tile(job: Job) -> None:
    content = job_to_bytes(job)
    assert b'"more_tiles": {"dot": "dot-85"}' in content
    assert b'"shape": "octagon"' in content and b'"side": 83' in content
    assert check_job(job_from_bytes(content)) == job
    assert b"more_tiles" not in job_to_bytes(job_of(POTTING_SHED))
    assert job.more_tiles(job.layout("A")) == {"dot": DOT}


@pytest.mark.parametrize(
    ("wrong", "place"),
    [
        (b'{"dot": "dot-58"}', "layouts[0].more_tiles.dot"),
        (b'{"dot": 85}', "layouts[0].more_tiles"),
        (b'["dot-85"]', "layouts[0].more_tiles"),
        (b'{"dit": "dot-85"}', "layouts[0].more_tiles.dit"),
    ],
)
def test_a_wrong_one_is_named_by_its_place(job: Job, wrong: bytes, place: str) -> None:
    content = job_to_bytes(job).replace(b'{"dot": "dot-85"}', wrong)
    with pytest.raises(JobFileError) as caught:
        check_job(job_from_bytes(content))
    assert caught.value.place.startswith(place)


def test_a_tile_in_a_role_is_not_removed(job: Job) -> None:
    with pytest.raises(EditError, match="still laid by layout A"):
        tiles.remove_tile(job, "dot-85")
    freed = layouts.set_more_tile(job, "A", "dot", None)
    assert freed.layout("A").more_tiles == {}
    assert tiles.remove_tile(freed, "dot-85").tiles == freed.tiles[:-1]


def test_only_tiles_of_the_job_take_a_role(job: Job) -> None:
    with pytest.raises(EditError, match="no tile “dot-58”"):
        layouts.set_more_tile(job, "A", "dot", "dot-58")
    again = layouts.set_more_tile(job, "A", "dot", "dot-85")
    assert again == job and again.tiles is job.tiles


@pytest.mark.parametrize("side", [0.5, 198.5, 250.0])
def test_an_octagon_has_sides_of_both_kinds(job: Job, side: float) -> None:
    with pytest.raises(EditError):
        tiles.replace_tile(job, "slate-look", replace(OCTAGON, side=side))
