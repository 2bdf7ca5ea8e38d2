"""The sheet of heights and trims, read back with another library."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from tests.planning.test_heights import doorway, flange, floor
from tests.reports.reading import pages_headed
from tilelayout.job.edits.grounds import set_trims
from tilelayout.job.ground import Trim
from tilelayout.job.values import Job
from tilelayout.reports.to_pdf import print_job

HEADING = "Heights and trims"


def printed(job: Job, path: Path) -> str:
    target = path / "sheets.pdf"
    for _step in print_job(job, target, "a4"):
        pass
    return "\n".join(pages_headed(target, HEADING))


def test_sections_are_printed_with_step_limit_and_source(tmp_path: Path) -> None:
    text = printed(floor(doorway(meets=10.0, door=24.0), cutouts=(flange(22.0),)), tmp_path)
    assert "Finished height: Doorway · heights at 1:1" in text
    assert "Doorway: 9 mm above the floor beyond." in text
    assert "an upright step trips people from 6 mm on" in text
    assert "ADA Standards, 303" in text
    assert "cut the door by 1 mm" in text
    assert "Toilet: 3 mm above the finished floor." in text
    assert "tile 10 mm" in text


def test_trims_are_printed_wall_by_wall_with_the_reason(tmp_path: Path) -> None:
    job = floor(doorway(), layers=())
    job = set_trims(job, "floor", (Trim(tile="t", height=75.0),))
    text = " ".join(printed(job, tmp_path).split())
    assert "Base 75 mm high" in text
    assert "2 to a tile, for each" in text
    assert "shows one of its 2 factory edges" in text
    assert "3 if sawn edges may show" in text
    assert "Top wall: 3000 mm; 9 of 304 mm and 1 of" in text
    assert "Doorway: 3000" not in text


def test_what_to_find_out_is_printed_where_a_height_was_said(tmp_path: Path) -> None:
    text = printed(floor(doorway(meets=10.0), adhesive=None), tmp_path)
    assert "find out the bed of the adhesive" in " ".join(text.split())


def test_a_job_that_says_nothing_of_heights_has_no_such_page(tmp_path: Path) -> None:
    plain = floor(doorway(), layers=())
    assert printed(plain, tmp_path) == ""
    assert printed(replace(plain, title="x"), tmp_path) == ""
