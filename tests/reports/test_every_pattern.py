"""Every pattern and every shape of tile goes all the way: laid, cut, listed, printed, told as text."""

from __future__ import annotations

import datetime
from pathlib import Path

import pdfplumber
import pytest
from msgspec.structs import replace

from tests.rooms import LAYINGS, MOSAICS, OFFSET_SHEETS, floor_of, round_cutout
from tilelayout.base.units import LengthStyle
from tilelayout.cli.lay_json import as_json
from tilelayout.cli.lay_text import as_text
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.values import Job, Layout, Tile
from tilelayout.planning.open_job import check_job
from tilelayout.planning.plan import plan
from tilelayout.reports.to_pdf import print_job

ROOM = floor_of((0, 0), (1500, 0), (1420, 1100), (0, 1250), cutouts=(round_cutout(700, 500, 90, 3),))


ALL: dict[str, tuple[Tile, Layout]] = {**LAYINGS, **MOSAICS, **OFFSET_SHEETS}


@pytest.mark.parametrize("name", ALL)
def test_a_small_room_is_planned_and_printed(name: str, tmp_path: Path) -> None:
    tile, layout = ALL[name]
    layout = replace(layout, start=(31.0, 17.0))
    written = Job(
        title="Porch", show_lengths=LengthStyle.INCH, surfaces=(ROOM,), tiles=(tile,), layouts=(layout,)
    )
    job = check_job(job_from_bytes(job_to_bytes(written)))
    assert job_to_bytes(check_job(job)) == job_to_bytes(job)
    made = plan(job, "A")
    assert made.cut > 0 and sum(row.count for row in made.cut_rows) == made.cut
    assert all(words for row in made.cut_rows for words in row.words)
    target = tmp_path / "sheets.pdf"
    for _step in print_job(job, target, "a4", date=datetime.date(2025, 1, 6)):
        pass
    with pdfplumber.open(target) as document:
        text = "\n".join(page.extract_text() or "" for page in document.pages)
    assert f"Tile: {tile.title}, measured" in text
    assert "The lines" in text
    told = as_text(job, [made], [])
    assert f"{made.tiles_needed}" in told and "Cut list" in told
    assert as_json([made]).count('"turned"') == made.cut
