"""The sample rooms: each a good example, in the file's own form, planned and printed as a person would."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pdfplumber
import pytest

from tests.cli.calls import SAMPLES, started
from tilelayout.job.files import job_to_bytes
from tilelayout.job.values import EdgeRole, Job, SurfaceKind
from tilelayout.layout.slivers import sliver_limit
from tilelayout.planning.open_job import open_job
from tilelayout.planning.plan import plan
from tilelayout.reports.to_pdf import print_job

FILES = sorted(SAMPLES.glob("*.tilejob"))
STARTED = ("potting_shed", "kitchen_wall")


@pytest.fixture(params=FILES, ids=[path.stem for path in FILES])
def room(request: pytest.FixtureRequest) -> Path:
    path: Path = request.param
    return path


def all_jobs() -> list[Job]:
    return [open_job(path) for path in FILES]


def test_there_are_rooms_that_show_what_can_be_planned() -> None:
    jobs = all_jobs()
    surfaces = [surface for job in jobs for surface in job.surfaces]
    layouts = [layout for job in jobs for layout in job.layouts]
    assert len(jobs) >= 7
    assert {layout.pattern for layout in layouts} >= {"rows", "herringbone", "hexagon", "random_planks"}
    assert any(layout.border for layout in layouts)
    assert any(layout.more_tiles for layout in layouts)
    assert {job.show_lengths.is_metric for job in jobs} == {True, False}
    assert any(surface.kind is SurfaceKind.WALL and len(surface.cutouts) > 1 for surface in surfaces)
    assert any(edge.through for surface in surfaces for edge in surface.edges)
    assert any(cutout.circle for surface in surfaces for cutout in surface.cutouts)
    assert any(cutout.polygon for surface in surfaces for cutout in surface.cutouts)
    assert any(
        len({tuple(layout.settings) for layout in job.layouts}) and len(job.layouts) > 1 for job in jobs
    )


def test_the_file_is_in_the_form_the_program_saves(room: Path) -> None:
    assert job_to_bytes(open_job(room)) == room.read_bytes()


def test_a_room_has_a_title_and_names_for_its_walls(room: Path) -> None:
    job = open_job(room)
    assert job.title
    for surface in job.surfaces:
        assert surface.name
        assert len([edge for edge in surface.edges if edge.name]) >= 3
        assert any(edge.role in (EdgeRole.DOORWAY, EdgeRole.OPEN) for edge in surface.edges)


def test_the_first_layout_is_one_to_be_proud_of(room: Path) -> None:
    job = open_job(room)
    made = plan(job, job.layouts[0].id)
    assert not made.slivers
    assert made.left_to_joint == 0
    assert made.narrowest is not None
    assert made.narrowest >= min(sliver_limit(tile) for tile in made.tiles)
    assert made.whole > made.cut / 2


def test_some_other_layout_shows_honestly_what_slivers_are() -> None:
    others = [plan(job, layout.id) for job in all_jobs() for layout in job.layouts[1:]]
    assert len(others) >= 3
    assert all(made.slivers for made in others)


def test_a_room_is_planned_and_printed_by_the_program(room: Path, tmp_path: Path) -> None:
    """Two rooms go through the program itself, the rest through what it calls."""
    target = tmp_path / "sheets.pdf"
    job = open_job(room)
    if room.stem in STARTED:
        laid = started("lay", str(room), "--json")
        assert laid.status == 0
        layouts = json.loads(laid.out)["layouts"]
        printed = started("print", str(room), "--to", str(target), "--paper", "a4")
        assert printed.status == 0, printed.err
        assert [layout["whole"] for layout in layouts] == [
            plan(job, layout.id).whole for layout in job.layouts
        ]
    else:
        assert list(print_job(job, target, date=date(2024, 5, 6)))
    with pdfplumber.open(target) as sheets:
        text = "\n".join(page.extract_text() for page in sheets.pages)
    assert job.title in text
    for layout in job.layouts:
        made = plan(job, layout.id)
        assert str(made.tiles_needed) in text
        assert all(row.pieces[0].id in text for row in made.cut_rows)
