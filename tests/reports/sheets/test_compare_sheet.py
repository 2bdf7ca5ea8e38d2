"""The comparison on paper, read back with another library."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pdfplumber
import pytest
from msgspec.structs import replace

from tests.reports import cast
from tests.reports.reading import shapes, texts
from tilelayout.base.errors import LayoutError, OutputError
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Job
from tilelayout.planning.compare import compare
from tilelayout.planning.plan import plan
from tilelayout.reports.sheets.page import PAPERS
from tilelayout.reports.to_pdf import print_comparison

DAY = datetime.date(2024, 2, 29)


def job_with(count: int, job: Job) -> Job:
    """The job with so many layouts, each from another start."""
    first = job.layouts[0]
    more = [
        replace(
            first, id="ABCD"[at], name="moved on" if at == 1 else "", start=(first.start[0] + 75 * at, 40)
        )
        for at in range(1, count)
    ]
    return replace(job, layouts=(first, *more))


def printed(job: Job, folder: Path, paper: str = "letter", name: str = "side_by_side.pdf") -> Path:
    """Print all layouts of the job side by side and return the PDF's path."""
    path = folder / name
    ids = tuple(layout.id for layout in job.layouts)
    for _ in print_comparison(job, path, ids, paper, DAY, "room.tilejob"):
        pass
    return path


CASES = [
    (count, make, style)
    for count, make, style in (
        (2, cast.potting_shed, LengthStyle.FEET),
        (3, cast.potting_shed, LengthStyle.MM),
        (4, cast.skew_porch, LengthStyle.INCH),
        (4, cast.kitchen_wall, LengthStyle.CM),
        (2, cast.washroom, LengthStyle.M),
    )
]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("count", "make", "style"), CASES)
def test_it_is_one_sheet_with_every_figure_of_every_layout(
    tmp_path: Path, paper: str, count: int, make: object, style: LengthStyle
) -> None:
    assert callable(make)
    job = job_with(count, make(style))
    found = texts(printed(job, tmp_path, paper))
    assert len(found) == 1
    lines = found[0].splitlines()
    assert lines[0].endswith("Layouts side by side")
    comparison = compare(tuple(plan(job, layout.id) for layout in job.layouts))
    for row in comparison.rows:
        said = next(line for line in lines if line.startswith(row.figure))
        rest = said.removeprefix(row.figure).removeprefix(" equal")
        for cell in row.cells:
            assert cell.words in rest
            assert cell.difference in rest or cell.difference in found[0]
    for words in ("moved on", *comparison.remarks[:1]):
        assert " ".join(words.split()[:3]) in " ".join(found[0].split())


def test_the_plans_stand_at_one_scale_that_is_named(tmp_path: Path) -> None:
    """The walls' outer faces bound each plan: the distances between plans' left ends repeat, sizes agree."""
    job = job_with(2, cast.potting_shed(LengthStyle.MM))
    path = printed(job, tmp_path, "a4")
    one_to = float(re.findall(r"Scale 1:(\d+)", texts(path)[0])[0])
    walls = [
        ring for ring, _ in shapes(path, 0) if np.ptp(ring[:, 0]) == pytest.approx(3657.6 / one_to, abs=4)
    ]
    lefts = {round(float(ring[:, 0].min())) for ring in walls}
    assert len(lefts) == 2 or len({round(float(ring[:, 1].min())) for ring in walls}) >= 2


def test_nothing_is_printed_outside_the_margins(tmp_path: Path) -> None:
    path = printed(job_with(4, cast.potting_shed()), tmp_path)
    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            for thing in (*page.chars, *page.lines, *page.curves, *page.rects):
                assert thing["x0"] > 0.38 * 72 and thing["x1"] < float(page.width) - 0.38 * 72
                assert thing["top"] > 0.38 * 72 and thing["bottom"] < float(page.height) - 0.38 * 72


def test_a_surface_of_many_walls_runs_on_to_a_second_page_and_loses_no_row(tmp_path: Path) -> None:
    job = job_with(4, cast.potting_shed())
    corners = [(0.0, 0.0)]
    for at in range(22):
        corners += [(300.0 + 140 * at, 40.0 * (at % 2)), (370.0 + 140 * at, 40.0 * (at % 2))]
    surface = replace(
        job.surfaces[0], outline=(*corners, (3657.6, 0), (3657.6, 2438.4), (0, 2438.4)), edges=(), cutouts=()
    )
    job = replace(job, surfaces=(surface,))
    found = texts(printed(job, tmp_path))
    comparison = compare(tuple(plan(job, layout.id) for layout in job.layouts))
    assert len(found) > 1
    for row in comparison.rows:
        assert any(line.startswith(row.figure) for text in found for line in text.splitlines())


def test_the_same_print_gives_the_same_bytes(tmp_path: Path) -> None:
    job = job_with(2, cast.potting_shed())
    first, second = (printed(job, tmp_path, name=name).read_bytes() for name in ("a.pdf", "b.pdf"))
    assert first == second


def _steps(tmp_path: Path, ids: tuple[str, ...], paper: str = "letter") -> Iterator[object]:
    return print_comparison(cast.potting_shed(), tmp_path / "x.pdf", ids, paper, DAY)


def test_what_cannot_be_printed_is_said_and_leaves_no_file(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="no paper"):
        list(_steps(tmp_path, ("A", "A"), "napkin"))
    with pytest.raises(LayoutError, match='"Z"'):
        list(_steps(tmp_path, ("A", "Z")))
    assert list(tmp_path.iterdir()) == []
