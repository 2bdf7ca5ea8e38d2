from __future__ import annotations

from collections.abc import Callable

import pytest
import shapely

from tests.reports import cast
from tilelayout.job.values import Job
from tilelayout.planning.plan import plan
from tilelayout.reports.figure import Text
from tilelayout.reports.marks import footprint
from tilelayout.reports.sheets.number_sheet import number_pages, parts_of
from tilelayout.reports.sheets.page import upright


@pytest.mark.parametrize("room", [cast.potting_shed, cast.kitchen_wall, cast.washroom, cast.skew_porch])
def test_every_cut_piece_has_its_number_on_the_plan(room: Callable[[], Job]) -> None:
    found = plan(room(), "A")
    words = {
        m.words for page in number_pages(found, upright("a4")) for m in page.marks if isinstance(m, Text)
    }
    assert {piece.id for piece in found.laid.cut} <= words


def test_numbers_do_not_cover_each_other() -> None:
    found = plan(cast.skew_porch(), "A")
    ids = {piece.id for piece in found.laid.cut}
    (page,) = number_pages(found, upright("a4"))
    areas = [footprint(m) for m in page.marks if isinstance(m, Text) and m.words in ids]
    union = shapely.union_all(areas)
    assert union.area == pytest.approx(sum(area.area for area in areas))


def test_a_large_floor_is_printed_in_parts_that_hold_every_number() -> None:
    found = plan(cast.dance_hall(), "A")
    overview, *parts = number_pages(found, upright("letter"))
    assert len(parts) >= 2
    assert overview.one_to and parts[0].one_to and parts[0].one_to < overview.one_to
    words = {mark.words for page in parts for mark in page.marks if isinstance(mark, Text)}
    missing = {piece.id for piece in found.laid.cut} - words
    assert not missing


def test_the_parts_cover_every_cut_piece_and_overlap() -> None:
    found = plan(cast.dance_hall(), "A")
    parts = [shapely.box(p.left, p.bottom, p.right, p.top) for p in parts_of(found, 20, (180.0, 200.0))]
    together = shapely.union_all(parts)
    for piece in found.laid.cut:
        assert any(part.covers(shapely.Polygon(piece.outline)) for part in parts)
    assert together.area < sum(part.area for part in parts)
