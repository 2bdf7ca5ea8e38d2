from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import shapely

from tests.reports import cast
from tests.reports.conftest import Printer
from tests.reports.reading import pages_headed, shapes, texts
from tilelayout.base.units import LengthStyle, parse_length
from tilelayout.job.values import Job, RectangleTile
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.plan import Plan, plan
from tilelayout.reports.figure import Path as Drawn
from tilelayout.reports.figure import Role, Text
from tilelayout.reports.pdf_painter import INKS
from tilelayout.reports.sheets.cautions import CAUTIONS
from tilelayout.reports.sheets.cut_sheet import cut_pages
from tilelayout.reports.sheets.page import BODY, upright

ROOMS = [cast.potting_shed, cast.skew_porch, cast.kitchen_wall, cast.washroom]


def _listed(job: Job) -> Plan:
    return plan(job, "A")


def _words_of(found: Plan) -> list[Text]:
    pages = cut_pages(found, upright("letter"))
    return [mark for page in pages for mark in page.marks if isinstance(mark, Text)]


@pytest.mark.parametrize("room", ROOMS)
def test_there_is_one_row_for_each_distinct_cut(printed: Printer, room: Callable[[], Job]) -> None:
    job = room()
    found = " ".join(pages_headed(printed(job), "Cut list"))
    counts = [int(count) for count in re.findall(r"(\d+) pc\b", found)]
    assert counts == [row.count for row in _listed(job).cut_rows]


@pytest.mark.parametrize("room", ROOMS)
def test_every_cut_piece_has_a_box_and_stands_there_once(room: Callable[[], Job]) -> None:
    found = _listed(room())
    ids = {piece.id for piece in found.laid.cut}
    written = [text.words for text in _words_of(found) if text.words in ids]
    assert sorted(written) == sorted(ids)
    pages = cut_pages(found, upright("letter"))
    boxes = [mark for page in pages for mark in page.marks if isinstance(mark, Drawn) and _is_tick_box(mark)]
    assert len(boxes) == len(ids)


def _is_tick_box(mark: Drawn) -> bool:
    size = np.ptp(mark.lines[0], axis=0)
    return mark.is_closed and mark.fill is None and len(mark.lines) == 1 and np.allclose(size, 4.6)


@pytest.mark.parametrize("style", [LengthStyle.MM, LengthStyle.INCH, LengthStyle.FEET])
def test_every_printed_size_reads_back_as_a_mark_no_larger_than_the_piece(
    printed: Printer, style: LengthStyle
) -> None:
    job = cast.potting_shed(style)
    found = " ".join(pages_headed(printed(job), "Cut list"))
    for row in _listed(job).cut_rows:
        words = row.size.replace(" x ", " × ")
        assert words in found
        extent = np.ptp(row.pieces[0].in_tile(row.pieces[0].outline), axis=0)
        step = 1.0 if style.is_metric else 25.4 / 16
        for said, size in zip(words.split(" × "), extent, strict=True):
            read = parse_length(said, style)
            assert read <= size + 1e-6
            assert size - read < step
            assert read / step == pytest.approx(round(read / step))


@pytest.mark.parametrize("style", [LengthStyle.MM, LengthStyle.INCH])
def test_a_course_cut_to_the_printed_sizes_is_never_longer_than_its_space(style: LengthStyle) -> None:
    job = cast.potting_shed(style)
    found = _listed(job)
    tile = found.tile
    assert isinstance(tile, RectangleTile)
    printed_length = {
        p.id: parse_length(r.size.split(" x ")[0], style) for r in found.cut_rows for p in r.pieces
    }
    left, _, right, _ = found.region.shape.bounds
    for course in "ABCDEFGHI":
        pieces = [piece for piece in found.laid.pieces() if piece.id.rstrip("0123456789") == course]
        lengths = [printed_length.get(piece.id, tile.length) for piece in pieces]
        total = sum(lengths) + found.layout.joint * (len(pieces) - 1)
        assert total <= right - left + 1e-6
        assert total > right - left - 4.0


def _drawn_pieces(path: Path) -> list[shapely.Polygon]:
    """Return what is tinted on the pages of the cut list, in mm, from the first page's top downwards."""
    tint = INKS[Role.CUT_TINT]
    found = []
    for number, text in enumerate(texts(path)):
        if text.splitlines()[0].endswith("Cut list"):
            on_page = [points for points, shape in shapes(path, number) if _is_filled(shape, tint)]
            found += sorted(on_page, key=lambda points: -float(points[:, 1].max()))
    return [shapely.Polygon(points) for points in found]


def _is_filled(shape: dict[str, object], ink: tuple[float, float, float]) -> bool:
    colour = shape["non_stroking_color"]
    return bool(shape["fill"]) and isinstance(colour, tuple) and np.allclose(colour, ink, atol=1e-3)


def _difference(drawn: shapely.Polygon, laid: shapely.Polygon) -> float:
    """Return the share of the laid shape that the drawn one misses once both have one size and place."""
    one, other = (_in_unit_place(shape, laid) for shape in (drawn, laid))
    return float((one ^ other).area / other.area)


def _in_unit_place(shape: shapely.Polygon, like: shapely.Polygon) -> shapely.Polygon:
    points = shapely.get_coordinates(shape)
    span = np.ptp(shapely.get_coordinates(like), axis=0)
    return shapely.Polygon((points - points.min(axis=0)) / np.ptp(points, axis=0)[0] * span[0]).buffer(0)


def _outline(row: CutRow) -> shapely.Polygon:
    piece = row.pieces[0]
    return shapely.Polygon(piece.in_tile(piece.outline))


def _mirrored(shape: shapely.Polygon) -> shapely.Polygon:
    return shapely.Polygon(shapely.get_coordinates(shape) * [-1.0, 1.0])


def test_every_printed_piece_is_the_laid_shape_and_not_its_mirror_image(printed: Printer) -> None:
    job = cast.skew_porch()
    rows = _listed(job).cut_rows
    drawn = _drawn_pieces(printed(job))
    assert len(drawn) == len(rows)
    lopsided = 0
    for shape, row in zip(drawn, rows, strict=True):
        laid = _outline(row)
        assert _difference(shape, laid) < 0.02
        if _difference(_mirrored(laid), laid) > 0.1:
            lopsided += 1
            assert _difference(shape, _mirrored(laid)) > 0.05
    assert lopsided >= 5


def test_a_row_with_more_boxes_than_a_page_holds_goes_on_and_loses_none() -> None:
    job = cast.dance_hall()
    found = _listed(job)
    ids = {piece.id for piece in found.laid.cut}
    assert sorted(text.words for text in _words_of(found) if text.words in ids) == sorted(ids)


def test_sizes_are_large_enough_to_read_at_arms_length() -> None:
    found = _listed(cast.potting_shed())
    sizes = {row.size.replace(" x ", " × ") for row in found.cut_rows}
    heights = [text.height for text in _words_of(found) if text.words in sizes]
    assert len(heights) == len(found.cut_rows)
    assert min(heights) >= 12 * 25.4 / 72
    assert min(heights) > BODY


def test_each_row_names_the_walls_it_meets(printed: Printer) -> None:
    job = cast.skew_porch()
    found = " ".join(" ".join(pages_headed(printed(job), "Cut list")).split())
    for row in _listed(job).cut_rows:
        assert all(wall in found for wall in row.walls)
    assert "garden wall" in found


def test_slivers_are_marked_in_words(printed: Printer) -> None:
    job = cast.skew_porch()
    rows = _listed(job).cut_rows
    found = " ".join(pages_headed(printed(job), "Cut list"))
    assert found.count("SLIVER") == sum(row.is_sliver for row in rows) > 0


def test_the_cautions_stand_on_the_first_page(printed: Printer) -> None:
    first = pages_headed(printed(cast.potting_shed()), "Cut list")[0]
    assert all(title in first for title, _ in CAUTIONS)
    for word in ("silica", "Saw wet", "ground-fault", "eye and ear protection", "gloves", "Local codes"):
        assert word in first


def test_a_floor_of_whole_tiles_says_that_there_is_nothing_to_cut(printed: Printer) -> None:
    assert "nothing to cut" in pages_headed(printed(cast.closet()), "Cut list")[0]


def test_a_row_is_never_parted_by_the_end_of_a_page() -> None:
    """Every page but the first begins with a row's number, and holds as many drawings as numbers."""
    for page in cut_pages(_listed(cast.skew_porch()), upright("a4"))[1:]:
        numbers = [
            m for m in page.marks if isinstance(m, Text) and m.is_bold and re.fullmatch(r"\d+", m.words)
        ]
        drawings = [m for m in page.marks if isinstance(m, Drawn) and m.fill is Role.CUT_TINT]
        counts = [m for m in page.marks if isinstance(m, Text) and m.words.endswith(" pc")]
        assert len(numbers) == len(drawings) == len(counts)


def test_a_job_in_decimal_feet_is_sawn_in_inches() -> None:
    """A hundredth of a foot is 3 mm, too coarse for a fence, and no rule carries it."""
    decimal, inches = (_listed(cast.potting_shed(s)) for s in (LengthStyle.DECIMAL_FEET, LengthStyle.INCH))
    assert [row.size for row in decimal.cut_rows] == [row.size for row in inches.cut_rows]
    said = {text.words for text in _words_of(decimal)}
    assert not any(words.endswith("'") for words in said)
