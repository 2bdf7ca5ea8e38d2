"""The cut list on paper, in the order of the saw, read back and looked at mark by mark."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeGuard

import numpy as np
import pytest
import shapely

from tests.reports import cast
from tests.reports.conftest import Printer
from tests.reports.reading import pages_headed
from tests.rooms import MOSAIC, layout_of, rectangle
from tilelayout.base.units import LengthStyle, parse_length
from tilelayout.job.edits.cuts import tick_cuts
from tilelayout.job.values import Job
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.saw_list import MARKED_LINE, named_offcuts, saw_list
from tilelayout.planning.saw_words import setting_words
from tilelayout.planning.ticks import ListedCut, Ticks
from tilelayout.reports.figure import Path as Drawn
from tilelayout.reports.figure import Role, Text
from tilelayout.reports.figures.tile_figure import tile_figure
from tilelayout.reports.sheets.cautions import CAUTIONS
from tilelayout.reports.sheets.cut_sheet import BY_HAND, BY_KNIFE, HEADING, cut_pages
from tilelayout.reports.sheets.order import pages_of
from tilelayout.reports.sheets.page import BODY, Page, upright
from tilelayout.reports.sheets.tile_pages import HEADING as TILES
from tilelayout.reports.sheets.tile_pages import PER_PAGE

ROOMS = [cast.potting_shed, cast.skew_porch, cast.kitchen_wall, cast.washroom]


def _listed(job: Job) -> Plan:
    return plan(job, "A")


def _pages(found: Plan, heading: str) -> list[Page]:
    return [page for page in cut_pages(saw_list(found), upright("letter")) if page.heading == heading]


def _words_of(found: Plan) -> list[Text]:
    return [mark for page in _pages(found, HEADING) for mark in page.marks if isinstance(mark, Text)]


def _is_tick_box(mark: object) -> TypeGuard[Drawn]:
    if not isinstance(mark, Drawn) or not mark.is_closed or mark.fill is not None or len(mark.lines) != 1:
        return False
    return bool(np.allclose(np.ptp(mark.lines[0], axis=0), 4.6))


@pytest.mark.parametrize("room", ROOMS)
def test_every_setting_stands_there_in_its_order(printed: Printer, room: Callable[[], Job]) -> None:
    job = room()
    made = _listed(job)
    found = " ".join(pages_headed(printed(job), HEADING))
    at = 0
    for setting in saw_list(made).settings:
        at = found.find(setting_words(setting, made.style), at) + 1
        assert at > 0, setting_words(setting, made.style)


@pytest.mark.parametrize("room", ROOMS)
def test_every_cut_has_a_box_and_stands_there_once(room: Callable[[], Job]) -> None:
    made = _listed(room())
    listed = saw_list(made)
    cuts = [f"T{step.tile.number}.{step.number}" for each in listed.settings for step in each.steps]
    written = [text.words for text in _words_of(made) if re.fullmatch(r"T\d+\.\d+", text.words)]
    assert sorted(written) == sorted(cuts)
    boxes = [mark for page in _pages(made, HEADING) for mark in page.marks if _is_tick_box(mark)]
    rows = {
        row.number
        for row in made.cut_rows
        for piece in row.pieces
        for w in listed.by_hand
        if w.piece is piece
    }
    by_hand = sum(row.count for row in made.cut_rows if row.number in rows)
    assert len(boxes) == len(cuts) + by_hand


@pytest.mark.parametrize("room", ROOMS)
def test_every_piece_is_on_a_tile_that_is_drawn(printed: Printer, room: Callable[[], Job]) -> None:
    job = room()
    made = _listed(job)
    pages = pages_headed(printed(job), TILES)
    assert len(pages) == -(-len(made.cut_from) // PER_PAGE)
    drawn = [
        mark.words
        for page in _pages(made, TILES)
        for mark in page.marks
        if isinstance(mark, Text) and mark.is_bold
    ]
    ids = sorted(piece.id for piece in made.laid.cut)
    assert sorted(words for words in drawn if words in set(ids)) == ids
    assert all(re.search(rf"Tile {tile.number}\b", " ".join(pages)) for tile in made.cut_from)


@pytest.mark.parametrize("style", [LengthStyle.MM, LengthStyle.INCH, LengthStyle.FEET])
def test_every_printed_setting_reads_back_as_a_mark(printed: Printer, style: LengthStyle) -> None:
    job = cast.potting_shed(style)
    found = " ".join(pages_headed(printed(job), HEADING))
    step = 1.0 if style.is_metric else 25.4 / 16
    settings = [each.distance for each in saw_list(_listed(job)).settings if each.distance != MARKED_LINE]
    said = [parse_length(words, style) for words in re.findall(r"Fence at (.+?)\s+tiles? \d", found)]
    assert said == pytest.approx(settings)
    assert all(each / step == pytest.approx(round(each / step)) for each in said)


def _tinted(found: Plan) -> list[tuple[str, list[shapely.Polygon]]]:
    listed = saw_list(found)
    return [
        (
            tile.pieces[0].piece,
            [
                shapely.Polygon(mark.lines[0])
                for mark in tile_figure(tile, listed, (50.0, 50.0)).marks
                if isinstance(mark, Drawn) and mark.fill is Role.CUT_TINT
            ],
        )
        for tile in listed.opened
    ]


def _difference(drawn: shapely.Polygon, laid: shapely.Polygon) -> float:
    """Return the share of the laid shape that the drawn one misses once both have one size and place."""
    one, other = (_in_unit_place(shape, laid) for shape in (drawn, laid))
    return float((one ^ other).area / other.area)


def _in_unit_place(shape: shapely.Polygon, like: shapely.Polygon) -> shapely.Polygon:
    points = shapely.get_coordinates(shape)
    span = np.ptp(shapely.get_coordinates(like), axis=0)
    return shapely.Polygon((points - points.min(axis=0)) / np.ptp(points, axis=0)[0] * span[0]).buffer(0)


def test_every_drawn_piece_is_the_laid_shape_and_not_its_mirror_image() -> None:
    made = _listed(cast.skew_porch())
    pieces = {piece.id: piece for piece in made.laid.cut}
    lopsided = 0
    for tile, (_, shapes) in zip(made.cut_from, _tinted(made), strict=True):
        for sawn, shape in zip(tile.pieces, shapes, strict=True):
            turned = pieces[sawn.piece].in_tile(pieces[sawn.piece].outline)
            laid = shapely.Polygon(tile.blank.turned(turned, sawn.turned))
            mirrored = shapely.Polygon(shapely.get_coordinates(laid) * [-1.0, 1.0])
            assert _difference(shape, laid) < 0.02
            if _difference(mirrored, laid) > 0.1:
                lopsided += 1
                assert _difference(shape, mirrored) > 0.05
    assert lopsided >= 5


@pytest.mark.parametrize("room", ROOMS)
def test_tiles_keep_to_the_page_and_to_their_room(room: Callable[[], Job]) -> None:
    made = _listed(room())
    frame = upright("letter")
    for page in _pages(made, TILES):
        for mark in page.marks:
            points = np.array([mark.at]) if isinstance(mark, Text) else np.concatenate(mark.lines)
            assert points.min(axis=0)[0] >= frame.left - 0.1 and points.max(axis=0)[0] <= frame.right + 0.1
            assert points.min(axis=0)[1] >= frame.bottom - 1.0 and points.max(axis=0)[1] <= frame.top + 0.1


def test_offcuts_to_keep_are_named_on_the_list_and_on_the_drawing(printed: Printer) -> None:
    job = cast.skew_porch()
    made = _listed(job)
    tiles = " ".join(pages_headed(printed(job), TILES))
    names = [each.name for tile in made.cut_from for each in named_offcuts(tile)]
    kept = [name for each in saw_list(made).settings for step in each.steps for name in step.kept]
    assert names and kept and all(name in tiles for name in kept)


def test_what_sharing_saves_and_what_is_proved_stands_on_the_first_page(printed: Printer) -> None:
    job = cast.skew_porch()
    sharing = _listed(job).sharing
    first = " ".join(pages_headed(printed(job), HEADING)[0].split())
    assert (
        f"{sharing.tiles_needed} tiles; without sharing {sharing.without_sharing}; no plan can need" in first
    )
    assert ("fewest possible" in first) == sharing.is_fewest


def test_a_long_list_goes_on_and_loses_none() -> None:
    made = _listed(cast.dance_hall())
    cuts = sum(len(each.steps) for each in saw_list(made).settings)
    written = [text.words for text in _words_of(made) if re.fullmatch(r"T\d+\.\d+", text.words)]
    assert len(written) == len(set(written)) == cuts > 50


def test_settings_are_large_enough_to_read_at_arms_length() -> None:
    found = _listed(cast.potting_shed())
    heights = [text.height for text in _words_of(found) if text.words.startswith("Fence at")]
    assert len(heights) == len(saw_list(found).settings)
    assert min(heights) >= 16 * 25.4 / 72 > BODY


def test_the_cautions_stand_on_the_first_page(printed: Printer) -> None:
    first = pages_headed(printed(cast.potting_shed()), HEADING)[0]
    assert all(title in first for title, _ in CAUTIONS)
    for word in ("silica", "Saw wet", "ground-fault", "eye and ear protection", "gloves", "Local codes"):
        assert word in first


def test_a_floor_of_whole_tiles_says_that_there_is_nothing_to_cut(printed: Printer) -> None:
    assert "nothing to cut" in pages_headed(printed(cast.closet()), HEADING)[0]


def test_what_is_done_by_hand_is_drawn_with_its_sizes(printed: Printer) -> None:
    job = cast.potting_shed()
    found = " ".join(" ".join(pages_headed(printed(job), HEADING)).split())
    listed = saw_list(_listed(job))
    assert listed.by_hand and "By hand, inside the piece" in found
    assert "core bit" in found.lower() or "grinder" in found


def _is_tick(mark: object) -> TypeGuard[Drawn]:
    """A tick lies within a box: an open line of two strokes as large as the box."""
    if not isinstance(mark, Drawn) or mark.is_closed or len(mark.lines) != 1 or len(mark.lines[0]) != 3:
        return False
    return bool(np.all(np.ptp(mark.lines[0], axis=0) < 4.6) and np.all(np.ptp(mark.lines[0], axis=0) > 2.0))


@pytest.mark.parametrize("room", ROOMS)
def test_what_is_ticked_in_the_window_is_ticked_on_paper_and_nothing_else(room: Callable[[], Job]) -> None:
    listed = saw_list(_listed(room()))
    ticks = Ticks(listed)
    cuts: list[ListedCut] = [*list(listed.steps)[::2], *listed.by_hand[:1]]
    made = frozenset(each for cut in cuts for each in ticks.says[cut])
    pages = [page for page in cut_pages(listed, upright("letter"), made) if page.heading == HEADING]
    empty = [page for page in cut_pages(listed, upright("letter")) if page.heading == HEADING]
    drawn, none = (
        [mark for page in some for mark in page.marks if _is_tick(mark)] for some in (pages, empty)
    )
    assert len(drawn) == ticks.count(ticks.says, made) >= len(cuts)
    assert none == []
    boxes = [m.lines[0].min(axis=0) for page in pages for m in page.marks if _is_tick_box(m)]
    for mark in drawn:
        assert any(np.all(np.abs(mark.lines[0].min(axis=0) - box) < 2.0) for box in boxes)


def test_printed_from_the_job_the_ticks_are_those_of_its_file() -> None:
    job = cast.potting_shed()
    ticks = Ticks(saw_list(_listed(job)))
    first = next(iter(ticks.says))
    ticked = tick_cuts(job, ticks.says[first])
    for one, count in ((job, 0), (ticked, 1)):
        marks = [mark for page in pages_of(one, "A", upright("a4")) for mark in page.marks]
        assert sum(map(_is_tick, marks)) == count


def test_a_list_of_mosaic_sheets_speaks_of_sheets_and_of_no_saw() -> None:
    floor = rectangle(1003, 700)
    layout = layout_of(MOSAIC, pattern="mosaic", joint=2.5)
    job = Job(surfaces=(floor,), tiles=(MOSAIC,), layouts=(layout,))
    words = " ".join(text.words for text in _words_of(_listed(job)))
    assert BY_KNIFE in words and BY_HAND not in words
    assert "no setting of the saw is needed" in words
    assert "0 settings" not in words and "T3.2" not in words and "The fence is set" not in words
    assert re.search(r"\d+ pieces from \d+ sheets?\.", words)


def test_a_job_in_decimal_feet_is_sawn_in_inches() -> None:
    """A hundredth of a foot is 3 mm, too coarse for a fence, and no rule carries it."""
    decimal, inches = (_listed(cast.potting_shed(s)) for s in (LengthStyle.DECIMAL_FEET, LengthStyle.INCH))
    said = [
        [t.words for t in _words_of(each) if t.words.startswith("Fence at")] for each in (decimal, inches)
    ]
    assert said[0] == said[1] and said[0]
