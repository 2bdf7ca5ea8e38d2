from __future__ import annotations

import numpy as np
import pytest
import shapely

from tests.reports import cast
from tilelayout.base.units import LengthStyle, format_length, parse_length
from tilelayout.layout.values import CutKind
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.saw_sizes import saw_sizes
from tilelayout.reports.figure import Figure, Path, Role, Text
from tilelayout.reports.figures.measures import Span, measures_of
from tilelayout.reports.figures.piece_figure import piece_figure
from tilelayout.reports.marks import bounds_of

ROOM = (94.0, 50.0)


def _plans() -> list[Plan]:
    rooms = (cast.potting_shed(LengthStyle.MM), cast.skew_porch(), cast.kitchen_wall(), cast.washroom())
    return [plan(job, "A") for job in rooms]


def _tinted(figure: Figure) -> shapely.Polygon:
    (path,) = [mark for mark in figure.marks if isinstance(mark, Path) and mark.fill is Role.CUT_TINT]
    return shapely.Polygon(path.lines[0], path.lines[1:])


def test_the_drawn_piece_is_the_laid_one_seen_from_its_face() -> None:
    """Moved and scaled only: the signed area and every corner agree, so it is neither turned nor mirrored."""
    for found in _plans():
        for row in found.cut_rows:
            figure = piece_figure(row, found, ROOM)
            assert figure.one_to
            drawn = shapely.get_coordinates(_tinted(figure).exterior)[:-1] * figure.one_to
            laid = row.pieces[0].in_tile(row.pieces[0].outline)
            shift = drawn[0] - laid[0]
            assert np.allclose(drawn - shift, laid, atol=1e-6)


def test_a_drawing_keeps_to_its_bounds_and_its_room() -> None:
    for found in _plans():
        for row in found.cut_rows:
            figure = piece_figure(row, found, ROOM)
            left, bottom, right, top = bounds_of(figure.marks)
            assert left >= -1e-6 and bottom >= -1e-6
            assert right <= figure.width + 3.0 and top <= figure.height + 1e-6
            assert figure.width <= ROOM[0] and figure.height <= ROOM[1]


def test_every_size_of_a_rip_or_cross_cut_stands_in_the_drawing() -> None:
    for found in _plans():
        for row in found.cut_rows:
            said = {m.words for m in piece_figure(row, found, ROOM).marks if isinstance(m, Text)}
            for cut in row.cuts:
                if cut.kind in (CutKind.RIP, CutKind.CROSS, CutKind.NOTCH, CutKind.CORNER, CutKind.OBLIQUE):
                    sizes = saw_sizes(cut, row.pieces[0], found.style)
                    assert {format_length(size, found.style) for size in sizes} <= said


def test_a_size_is_drawn_between_places_that_far_apart() -> None:
    """The size on the saw and the distance it is drawn over differ by less than one rounding step."""
    for found in _plans():
        for row in found.cut_rows:
            for cut in row.cuts:
                for measure in measures_of(cut, row.pieces[0], found):
                    if isinstance(measure, Span):
                        size = parse_length(measure.words, found.style)
                        assert size == pytest.approx(float(np.hypot(*(measure.end - measure.start))), abs=1.6)


def test_sawn_sides_are_drawn_heavier_than_factory_sides() -> None:
    found = plan(cast.potting_shed(), "A")
    for row in found.cut_rows:
        heavy = [
            mark
            for mark in piece_figure(row, found, ROOM).marks
            if isinstance(mark, Path) and mark.pen and mark.pen.weight > 0.8
        ]
        assert len(heavy) == 1


def test_a_tile_with_a_direction_carries_its_own_arrow() -> None:
    directional, plain = plan(cast.kitchen_wall(), "A"), plan(cast.potting_shed(), "A")
    heads = [
        sum(isinstance(m, Path) and m.fill in (Role.INK, Role.FAINT_INK) for m in figure.marks)
        for figure in (piece_figure(found.cut_rows[0], found, ROOM) for found in (directional, plain))
    ]
    assert heads == [2, 1]


def test_the_arrow_points_up_on_the_plan() -> None:
    for found in _plans():
        for row in found.cut_rows:
            marks = piece_figure(row, found, ROOM).marks
            (head,) = [m for m in marks if isinstance(m, Path) and m.fill is Role.INK]
            tip, *feet = head.lines[0]
            way = tip - np.mean(feet, axis=0)
            turn = np.radians(row.pieces[0].turn)
            on_plan = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]]) @ way
            assert on_plan[1] > 0
            assert on_plan[0] == pytest.approx(0.0, abs=1e-6)
