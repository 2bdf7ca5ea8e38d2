from __future__ import annotations

import datetime
import itertools
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import msgspec
import numpy as np
import pdfplumber
import pytest

from tests.reports import cast
from tests.reports.conftest import DAY, Printer
from tests.reports.reading import MM, shapes, texts
from tilelayout.base.errors import OutputError
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Job, Layout
from tilelayout.reports.to_pdf import print_job

PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
"""Letter of ANSI/ASME Y14.1 (size A, 8.5 x 11 in) and A4 of ISO 216."""

EVERYBODY = [
    cast.potting_shed,
    cast.skew_porch,
    cast.kitchen_wall,
    cast.washroom,
    cast.closet,
]


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_has_the_size_of_the_paper(printed: Printer, paper: str) -> None:
    with pdfplumber.open(printed(cast.skew_porch(), paper)) as pdf:
        for page in pdf.pages:
            size = sorted((float(page.width) / MM, float(page.height) / MM))
            assert size == pytest.approx(sorted(PAPERS[paper]), abs=0.01)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("who", EVERYBODY)
def test_nothing_stands_outside_the_safe_margins(
    printed: Printer, who: Callable[[], Job], paper: str
) -> None:
    path = printed(who(), paper)
    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            marks = [*page.chars, *page.curves, *page.lines, *page.rects]
            assert min(mark["x0"] for mark in marks) >= 10 * MM
            assert max(mark["x1"] for mark in marks) <= float(page.width) - 10 * MM
            assert min(mark["top"] for mark in marks) >= 10 * MM
            assert max(mark["bottom"] for mark in marks) <= float(page.height) - 10 * MM


def test_every_page_says_whose_it_is_and_which_of_how_many(printed: Printer) -> None:
    found = texts(printed(cast.potting_shed()))
    for number, text in enumerate(found, start=1):
        assert "Potting shed" in text
        assert "Shed floor · layout A" in text
        assert "2024-02-29" in text
        assert "room.tilejob" in text
        assert "Lengths in inches" in text
        assert f"Page {number} of {len(found)}" in text


def test_pages_drawn_to_scale_say_so(printed: Printer) -> None:
    found = texts(printed(cast.skew_porch()))
    drawn = [text for text in found if re.search(r"(Set out|Tile plan)$", text.splitlines()[0])]
    assert len(drawn) == 2
    assert all(re.search(r"Scale 1:\d+", text) for text in drawn)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_wall_is_as_long_on_the_paper_as_the_scale_says(printed: Printer, paper: str) -> None:
    path = printed(cast.potting_shed(), paper)
    said = re.search(r"\(1:(\d+)\)", texts(path)[0])
    assert said
    scale = float(said[1])
    lengths = [
        float(np.hypot(*(points[-1] - points[0]))) for points, _ in shapes(path, 0) if len(points) == 2
    ]
    for wall in (3657.6, 2438.4):
        assert min(abs(length - wall / scale) for length in lengths) < 0.1


def test_the_printer_is_asked_not_to_scale(printed: Printer) -> None:
    """ISO 32000-1, 12.2: PrintScaling None in the viewer preferences."""
    assert b"/PrintScaling /None" in printed(cast.closet()).read_bytes()


def test_printing_again_gives_the_same_bytes(printed: Printer) -> None:
    job = cast.closet(title="Ζέφυρος 日本 ½")
    assert printed(job, name="one.pdf").read_bytes() == printed(job, name="two.pdf").read_bytes()


def test_the_same_bytes_come_from_another_run_of_the_program(printed: Printer, tmp_path: Path) -> None:
    here, there = printed(cast.skew_porch()), tmp_path / "there.pdf"
    program = (
        "import datetime, sys\n"
        "from tests.reports import cast\n"
        "from tilelayout.reports.to_pdf import print_job\n"
        "day = datetime.date(2024, 2, 29)\n"
        "list(print_job(cast.skew_porch(), sys.argv[1], date=day, file_name='room.tilejob'))\n"
    )
    subprocess.run([sys.executable, "-c", program, str(there)], check=True, env={"PYTHONHASHSEED": "7"})
    assert here.read_bytes() == there.read_bytes()


TITLES = [
    "Bad " * 200,
    "Ванная комната",
    "浴室のタイル",
    "욕실",
    "Baño número ½ – “azul”",
    "🛁 tiles \U0001f9f1",
    "line\nbreak\tand \x00 null",
    "(brackets) \\ and <angles> & more",
    "",
]


@pytest.mark.parametrize("title", TITLES)
def test_no_title_breaks_the_print(printed: Printer, title: str) -> None:
    path = printed(cast.closet(title=title))
    assert "Page 1 of" in texts(path)[0]
    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            assert max(char["x1"] for char in page.chars) <= float(page.width) - 10 * MM


@pytest.mark.parametrize("title", ["Ванная комната", "浴室のタイル", "Baño número ½ – “azul”"])
def test_a_title_in_any_script_can_be_read(printed: Printer, title: str) -> None:
    assert texts(printed(cast.closet(title=title)))[0].splitlines()[0].startswith(title)


def test_an_untitled_job_is_called_so(printed: Printer) -> None:
    assert "Untitled job" in texts(printed(cast.closet(title="")))[0]


def test_all_layouts_of_a_job_are_printed_or_only_those_asked_for(tmp_path: Path) -> None:
    closet, wash = cast.closet(), cast.washroom()
    both = Job(
        title="Two rooms",
        surfaces=(*closet.surfaces, *wash.surfaces),
        tiles=wash.tiles,
        layouts=(closet.layouts[0], _renamed(wash)),
    )
    list(print_job(both, tmp_path / "all.pdf", date=DAY))
    list(print_job(both, tmp_path / "one.pdf", layout_ids=("B",), date=DAY))
    every, one = " ".join(texts(tmp_path / "all.pdf")), " ".join(texts(tmp_path / "one.pdf"))
    assert "closet · layout A" in every
    assert "washroom · layout B" in every
    assert "closet · layout A" not in one
    assert "closet, washroom" in one, "surfaces to be laid share their tiles, so they share the cut list"
    assert every.count("Cut list") == one.count("Cut list")


def _renamed(job: Job) -> Layout:
    return msgspec.structs.replace(job.layouts[0], id="B")


def test_steps_count_up_to_the_end_with_words(tmp_path: Path) -> None:
    steps = list(print_job(cast.washroom(), tmp_path / "a.pdf", date=DAY))
    shares = [step.done / step.total for step in steps]
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    assert all(str(step) for step in steps)


def test_stopping_half_way_leaves_the_old_file_and_nothing_beside_it(tmp_path: Path) -> None:
    path = tmp_path / "old.pdf"
    path.write_bytes(b"what was there")
    steps = print_job(cast.potting_shed(), path, date=DAY)
    for _ in itertools.islice(steps, 3):
        pass
    steps.close()
    assert path.read_bytes() == b"what was there"
    assert list(tmp_path.iterdir()) == [path]


def test_a_place_that_cannot_be_written_is_an_output_error(tmp_path: Path) -> None:
    for path in (tmp_path / "none" / "a.pdf", tmp_path):
        with pytest.raises(OutputError):
            list(print_job(cast.closet(), path, date=DAY))


def test_an_unknown_paper_and_an_empty_job_are_output_errors(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="letter, a4"):
        list(print_job(cast.closet(), tmp_path / "a.pdf", "quarto"))
    with pytest.raises(OutputError, match="no layout"):
        list(print_job(Job(title="Empty"), tmp_path / "a.pdf"))


def test_the_day_is_today_if_none_is_given(tmp_path: Path) -> None:
    list(print_job(cast.closet(), tmp_path / "a.pdf"))
    assert datetime.date.today().isoformat() in texts(tmp_path / "a.pdf")[0]


def test_a_full_disk_keeps_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "old.pdf"
    path.write_bytes(b"what was there")

    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OutputError, match="No space left"):
        list(print_job(cast.closet(), path, date=DAY))
    assert path.read_bytes() == b"what was there"
    assert list(tmp_path.iterdir()) == [path]


def test_printing_loads_no_window(tmp_path: Path) -> None:
    program = (
        "import sys\n"
        "from tests.reports import cast\n"
        "from tilelayout.reports.to_pdf import print_job\n"
        "list(print_job(cast.closet(), sys.argv[1]))\n"
        "assert not any(name.startswith(('PySide6', 'shiboken6')) for name in sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", program, str(tmp_path / "a.pdf")], check=True)


def test_figures_are_built_without_the_pdf_library() -> None:
    program = (
        "import sys\n"
        "from tests.reports import cast\n"
        "from tilelayout.reports.sheets.order import pages_of\n"
        "from tilelayout.reports.sheets.page import upright\n"
        "pages_of(cast.closet(), 'A', upright('a4'))\n"
        "assert 'reportlab' not in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", program], check=True)


@pytest.mark.parametrize("style", list(LengthStyle))
def test_every_style_of_lengths_is_named_and_used(printed: Printer, style: LengthStyle) -> None:
    found = " ".join(texts(printed(cast.closet(style))))
    names = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "inch": "inches"}
    names |= {"feet": "feet and inches", "decimal-feet": "decimal feet"}
    assert f"Lengths in {names[style]}" in found
