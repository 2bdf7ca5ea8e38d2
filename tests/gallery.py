"""Pictures of everything a person can see: `python -m tests.gallery FOLDER`.

Every place of the window by day and by night, on a small and a large screen, in inches and in mm, and
every page of the sheets of every sample room. Nothing is compared; a person looks at all of it at once.
`index.html` in the folder shows them side by side. `python -m tests.gallery FOLDER --readme` also makes the
README's picture, `resources/window.png`.
"""

from __future__ import annotations

import datetime
import os
import sys
import time
from collections.abc import Callable, Iterator
from html import escape
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pdfplumber
from msgspec.structs import replace
from PySide6.QtWidgets import QApplication

from tests.app.opened import bare_window, close, settle
from tilelayout.app.actions import ACTIONS
from tilelayout.app.bench import Stage
from tilelayout.app.look import Scheme
from tilelayout.app.samples import samples
from tilelayout.app.sheet import Sheet
from tilelayout.app.surface.desk import Face
from tilelayout.app.window import Window
from tilelayout.base.units import LengthStyle
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.edits.cuts import tick_cuts
from tilelayout.job.edits.jobs import set_show_lengths
from tilelayout.job.edits.lines import add_line
from tilelayout.job.edits.readings import set_preparation, survey_at
from tilelayout.job.kinds import LineKind
from tilelayout.job.preparation import Preparation, PreparationWay
from tilelayout.job.values import Job, ReferenceLine
from tilelayout.planning.compare import MOST
from tilelayout.planning.cut_views import CutView
from tilelayout.planning.given_heights import offered_places
from tilelayout.reports.to_pdf import print_comparison, print_job

SIZES = ((1280, 720), (1920, 1080))
SCHEMES = (Scheme.LIGHT, Scheme.DARK)
STYLES = (LengthStyle.FEET, LengthStyle.MM)
DAY = datetime.date(2025, 1, 6)
README = "wash_house"


def make(folder: Path) -> list[Path]:
    """Make every picture in the folder and return them in order."""
    folder.mkdir(parents=True, exist_ok=True)
    QApplication.instance() or QApplication(["gallery"])
    with TemporaryDirectory() as settings:
        made = [*_window_pictures(folder, settings), *_sheet_pictures(folder)]
    rows = (
        f'<figure><img src="{path.name}"><figcaption>{escape(path.stem)}</figcaption></figure>'
        for path in made
    )
    page = f"<!doctype html><title>Gallery</title><style>img{{max-width:100%}}</style>{''.join(rows)}"
    (folder / "index.html").write_text(page, "utf-8")
    return made


def _window_pictures(folder: Path, settings: str) -> Iterator[Path]:
    for scheme in SCHEMES:
        for width, height in SIZES:
            window = bare_window(Path(settings))
            window.resize(width, height)
            window.choose_scheme(scheme)
            yield _shot(window, folder / f"first_{scheme}_{width}.png")
            for style in STYLES:
                for path, job in samples() if width == SIZES[0][0] else samples()[:2]:
                    yield from _places(
                        window, set_show_lengths(job, style), folder, f"{path.stem}_{style}_{scheme}_{width}"
                    )
            close(window)


def _places(window: Window, job: Job, folder: Path, name: str) -> Iterator[Path]:
    window.bench.session.replace(_with_lines(job))
    for stage in Stage:
        window.bench.show(stage=stage)
        window.place.sight.fit()
        if stage is Stage.CUT:
            yield from _cut_views(window, folder, name)
        yield _shot(window, folder / f"{name}_{stage}.png")
        if stage is Stage.COMPARE and window.compare.can_wipe:
            window.compare.toggle_wipe()
            yield _shot(window, folder / f"{name}_wipe.png")
            window.compare.toggle_wipe()
    yield from _sought(window, folder, name)
    yield from _faces_of_surface(window, folder, name)
    window.bench.show(stage=Stage.MEASURE)
    surface = job.surfaces[0].id
    for kind in (PickKind.EDGE, PickKind.CORNER, PickKind.CUTOUT):
        if kind is not PickKind.CUTOUT or job.surfaces[0].cutouts:
            window.bench.choose(Pick(kind, surface, 0))
            yield _shot(window, folder / f"{name}_{kind}.png")
    for action in ("heights", "trims"):
        yield _sheet_shot(window, action, folder / f"{name}_{action}.png")


def _cut_views(window: Window, folder: Path, name: str) -> Iterator[Path]:
    """Show the cut list by surface and by tile, its first cuts ticked; the list by setting comes last."""
    card = window.cut
    _until(lambda: card.is_ready)
    ticks = card.ticks
    if ticks is None or not ticks.says:
        return
    made = [each for cut in list(ticks.says)[:4] for each in ticks.says[cut]]
    window.bench.apply("Tick", lambda job: tick_cuts(job, made))
    for view in (CutView.SURFACE, CutView.TILE, CutView.SETTING):
        card.show_by(view)
        if view is not CutView.SETTING:
            yield _shot(window, folder / f"{name}_cut_{view}.png")


def _sheet_shot(window: Window, action: str, path: Path) -> Path:
    """Show the sheet that an action opens over the window."""
    next(each for each in ACTIONS if each.id == action).does(window.place)
    settle()
    sheet = next(each for each in window.findChildren(Sheet) if each.isVisible())
    sheet.grab().save(str(path))
    sheet.reject()
    settle()
    return path


def _with_lines(job: Job) -> Job:
    """Return the job with a wall to centre on and one for full tiles, so that there are lines to see."""
    layout = job.layouts[0]
    last = len(job.surface(layout.surface).outline) - 1
    for kind, edge in ((LineKind.CENTRE, 0), (LineKind.FULL_TILE, last)):
        job = add_line(job, layout.id, ReferenceLine(kind=kind, edge=edge))
    return job


def _faces_of_surface(window: Window, folder: Path, name: str) -> Iterator[Path]:
    """Show every step of the surface question where heights were read, and the plane that meets a doorway."""
    surface = window.bench.surface
    if surface is None or survey_at(window.bench.job, surface.id) is None:
        return
    window.bench.show(stage=Stage.SURFACE)
    for face in Face:
        window.desk.show(face)
        _until(lambda: not window.desk.is_working)
        yield _shot(window, folder / f"{name}_surface_{face}.png")
    meets = tuple(replace(place, height=6.0) for place in offered_places(surface))
    asked = Preparation(way=PreparationWay.PLANE, meets=meets)
    window.bench.apply("Meet heights", lambda job: set_preparation(job, surface.id, asked))
    _until(lambda: not window.desk.is_working)
    yield _shot(window, folder / f"{name}_surface_meets.png")


def _sought(window: Window, folder: Path, name: str) -> Iterator[Path]:
    """Seek once for each room, on the small screen by day, and show every state of it."""
    if window.width() != SIZES[0][0] or window.bench.look.scheme is not Scheme.LIGHT or "_mm_" not in name:
        return
    window.find_start()
    _until(lambda: window.bench.seeker.step is not None)
    yield _shot(window, folder / f"{name}_seeking.png")
    _until(lambda: not window.bench.seeker.is_working)
    yield _shot(window, folder / f"{name}_found.png")
    window.bench.show(stage=Stage.COMPARE)
    yield _shot(window, folder / f"{name}_found_compared.png")
    window.bench.seeker.dismiss()
    window.bench.show(stage=Stage.SET_OUT)
    window.toggle_map()
    _until(lambda: window.map_panel.best.found is not None)
    yield _shot(window, folder / f"{name}_map.png")
    window.toggle_map()


def _until(is_so: Callable[[], bool]) -> None:
    while not is_so():
        time.sleep(0.01)
        settle()


def _sheet_pictures(folder: Path) -> Iterator[Path]:
    for path, job in samples():
        for paper in ("letter", "a4"):
            target = folder / f"{path.stem}_{paper}.pdf"
            for _step in print_job(job, target, paper, date=DAY):
                pass
            yield from _pages_of(target)
            ids = tuple(layout.id for layout in job.layouts if layout.surface == job.surfaces[0].id)[:MOST]
            if len(ids) > 1:
                compared = folder / f"{path.stem}_{paper}_compared.pdf"
                for _step in print_comparison(job, compared, ids, paper, DAY):
                    pass
                yield from _pages_of(compared)


def _pages_of(target: Path) -> Iterator[Path]:
    with pdfplumber.open(target) as document:
        for number, page in enumerate(document.pages, start=1):
            picture = target.with_name(f"{target.stem}_{number:02}.png")
            page.to_image(resolution=100).save(picture)
            yield picture


def _shot(window: Window, path: Path) -> Path:
    settle()
    while window.choice.is_working:
        time.sleep(0.01)
        settle()
    window.grab().save(str(path))
    return path


def readme_picture(resources: Path) -> Path:
    """Make the picture that stands at the top of the README."""
    QApplication.instance() or QApplication(["gallery"])
    with TemporaryDirectory() as settings:
        window = bare_window(Path(settings))
        picture = _readme_shot(window, resources / "window.png")
        close(window)
    return picture


def _readme_shot(window: Window, target: Path) -> Path:
    window.resize(1280, 800)
    window.bench.session.replace(next(job for path, job in samples() if path.stem == README))
    window.bench.show(stage=Stage.SET_OUT)
    settle()
    window.board.fit()
    return _shot(window, target)


def main(arguments: list[str]) -> int:
    """Make the gallery in the folder that is named."""
    if not arguments:
        print("usage: python -m tests.gallery FOLDER [--readme]", file=sys.stderr)
        return 2
    made = make(Path(arguments[0]))
    print(f"{len(made)} pictures in {arguments[0]}")
    if "--readme" in arguments:
        print(readme_picture(Path(__file__).resolve().parent.parent / "resources"))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
