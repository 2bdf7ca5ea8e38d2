"""Prints a job: every sheet of its layouts in one PDF, a page at a time.

The pages are composed first, because each says how many there are, and painted one by one between the
steps of a generator, so that a caller can show progress and stop by closing it. The file is written aside and
swapped in at the end: whoever stops, or has a full disk, keeps the file that was there before. The same
job, paper and day give the same bytes.
"""

from __future__ import annotations

import datetime
import io
import os
import tempfile
from collections.abc import Generator
from dataclasses import dataclass
from pathlib import Path

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from tilelayout.base.errors import OutputError
from tilelayout.job.edits.readings import survey_at
from tilelayout.job.values import Job
from tilelayout.planning.compare import compare
from tilelayout.planning.plan import plan
from tilelayout.planning.sitting import sitting
from tilelayout.planning.surface import flatness
from tilelayout.reports.pdf_painter import PT, PdfPainter
from tilelayout.reports.sheets.compare_sheet import compare_pages
from tilelayout.reports.sheets.order import before_cut_lists, pages_of
from tilelayout.reports.sheets.page import PAPERS, Frame, Imprint, Page, framed, upright
from tilelayout.reports.sheets.sit_sheet import sit_pages
from tilelayout.reports.sheets.surface_sheet import surface_pages


@dataclass(frozen=True)
class Step:
    """How far a long piece of work has come: `done` of `total`, and what was done last in `words`."""

    done: int
    total: int
    words: str

    def __str__(self) -> str:
        return self.words


def print_job(
    job: Job,
    path: str | os.PathLike[str],
    paper: str = "letter",
    layout_ids: tuple[str, ...] | None = None,
    date: datetime.date | None = None,
    file_name: str = "",
) -> Generator[Step, None, None]:
    """Print the sheets of the layouts named (all, if none are) to the PDF at `path`, step by step.

    `paper` is a name in `PAPERS`; `date` (today, if not given) and `file_name` stand at each page's foot.
    OutputError if the paper is unknown, there is nothing to print or the file cannot be written; LayoutError
    if a layout cannot be laid.
    """
    _check_paper(paper)
    ids = layout_ids if layout_ids is not None else tuple(layout.id for layout in job.layouts)
    if not ids:
        raise OutputError("There is nothing to print: the job has no layout.", "Add a layout first.")
    target = Path(path)
    imprint = Imprint(job.title, job.show_lengths, file_name or target.name, date or datetime.date.today())
    _check_folder(target)
    composed: list[Page] = []
    for number, layout_id in enumerate(ids):
        yield Step(number, 2 * len(ids), f"Laying out the sheets of layout {layout_id}")
        has_cuts = layout_id in before_cut_lists(job, ids)
        composed += pages_of(job, layout_id, upright(paper), with_cuts=has_cuts)
    for at in _surveys_of(job, ids):
        one = flatness(job, at)
        yield Step(len(ids), 2 * len(ids), f"Judging the surface of {one.surface.title}")
        composed += surface_pages(one, upright(paper), job.show_lengths)
        composed += _sit_pages(job, ids, at, upright(paper))
    yield from _painted(composed, imprint, target)


def _sit_pages(job: Job, ids: tuple[str, ...], at: int, frame: Frame) -> tuple[Page, ...]:
    """Return how the first of the layouts on survey `at` lies on it; nothing where only lines are known."""
    first = next(id for id in ids if job.layout(id).surface == job.surveys[at].surface)
    found = sitting(job, first, at)
    return () if found is None else sit_pages(found, frame)


def _surveys_of(job: Job, ids: tuple[str, ...]) -> list[int]:
    """Return the surveys in front of the surfaces that layouts lie on, each once."""
    surfaces = dict.fromkeys(job.layout(id).surface for id in ids)
    found = [survey_at(job, surface) for surface in surfaces]
    return [at for at in found if at is not None]


def print_comparison(
    job: Job,
    path: str | os.PathLike[str],
    layout_ids: tuple[str, ...],
    paper: str = "letter",
    date: datetime.date | None = None,
    file_name: str = "",
) -> Generator[Step, None, None]:
    """Print the sheet that shows the layouts named side by side to the PDF at `path`, step by step.

    The layouts are two to four of one surface; everything else is as with `print_job`.
    """
    _check_paper(paper)
    target = Path(path)
    imprint = Imprint(job.title, job.show_lengths, file_name or target.name, date or datetime.date.today())
    _check_folder(target)
    yield Step(0, 2, "Comparing the layouts")
    comparison = compare(tuple(plan(job, layout_id) for layout_id in layout_ids))
    yield from _painted(list(compare_pages(comparison, upright(paper))), imprint, target)


def _check_paper(paper: str) -> None:
    if paper not in PAPERS:
        raise OutputError(f'There is no paper called "{paper}".', f"Choose one of {', '.join(PAPERS)}.")


def _painted(pages: list[Page], imprint: Imprint, target: Path) -> Generator[Step, None, None]:
    total = len(pages)
    written = io.BytesIO()
    canvas = _canvas(written, imprint.title)
    painter = PdfPainter(canvas)
    for number, page in enumerate(pages, start=1):
        canvas.setPageSize((page.frame.width * PT, page.frame.height * PT))
        painter.paint(framed(page, number, total, imprint).marks)
        canvas.showPage()
        yield Step(total + number, 2 * total, f"Page {number} of {total}")
    canvas.save()
    _swap_in(written.getvalue(), target)


def _canvas(written: io.BytesIO, title: str) -> Canvas:
    rl_config.useA85 = 0  # pages as plain bytes: spelling them in letters takes as long as painting them
    canvas = Canvas(written, pageCompression=1, invariant=1)
    canvas.setTitle(title or "Tile layout")
    canvas.setViewerPreference("PrintScaling", "None")
    return canvas


def _check_folder(target: Path) -> None:
    if target.is_dir():
        raise OutputError(f"{target} is a folder.", "Give the name of a file in it.")
    if not target.parent.is_dir():
        raise OutputError(f"There is no folder {target.parent}.", "Make it first, or choose another place.")


def _swap_in(content: bytes, target: Path) -> None:
    try:
        handle, aside = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    except OSError as trouble:
        raise _cannot_write(target, trouble) from trouble
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(aside).chmod(0o666 & ~_umask())
        Path(aside).replace(target)
    except OSError as trouble:
        Path(aside).unlink(missing_ok=True)
        raise _cannot_write(target, trouble) from trouble


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _cannot_write(target: Path, trouble: OSError) -> OutputError:
    why = trouble.strerror or "it could not be written"
    return OutputError(
        f"{target} cannot be written: {why}.", "Close it where it is open, or choose another place."
    )
