from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
import shapely

from tests.reports import cast
from tilelayout.base.units import LengthStyle, parse_length
from tilelayout.job.values import Job
from tilelayout.planning.joints import start_lines
from tilelayout.planning.plan import plan
from tilelayout.reports.figure import Figure, Path, Role, Text
from tilelayout.reports.figures.plan_figure import Question, plan_figure
from tilelayout.reports.figures.start_marks import CHALK
from tilelayout.reports.marks import bounds_of

ROOM = (180.0, 200.0)


def _paths(figure: Figure) -> list[Path]:
    return [mark for mark in figure.marks if isinstance(mark, Path)]


def test_tiles_cover_on_paper_what_they_cover_on_the_floor() -> None:
    found = plan(cast.potting_shed(LengthStyle.MM), "A")
    figure = plan_figure(found, ROOM, Question.NUMBERS)
    assert figure.one_to
    cut = [path for path in _paths(figure) if path.fill is Role.CUT_TINT]
    area = sum(shapely.Polygon(line).area for path in cut for line in path.lines)
    hole = np.pi * (55.0 + 3.0) ** 2
    laid = sum(piece.area for piece in found.laid.cut if piece.id not in found.sliver_ids)
    assert area * figure.one_to**2 == pytest.approx(laid + 2 * hole, rel=1e-3)


def test_every_whole_tile_is_drawn_once() -> None:
    found = plan(cast.potting_shed(LengthStyle.MM), "A")
    figure = plan_figure(found, ROOM, Question.NUMBERS)
    joints = [p for p in _paths(figure) if p.pen and p.pen.role is Role.TILE_JOINT]
    assert sum(len(path.lines) for path in joints) == found.whole


def test_a_thousand_whole_tiles_are_a_handful_of_marks() -> None:
    found = plan(cast.dance_hall(), "A")
    figure = plan_figure(found, ROOM, Question.SET_OUT)
    assert found.whole > 5000
    assert len(figure.marks) < 500


@pytest.mark.parametrize("question", list(Question))
@pytest.mark.parametrize("room", [cast.potting_shed, cast.skew_porch, cast.washroom, cast.kitchen_wall])
def test_the_figure_keeps_to_its_bounds_and_room(room: Callable[[], Job], question: Question) -> None:
    found = plan(room(), "A")
    figure = plan_figure(found, ROOM, question)
    left, bottom, right, top = bounds_of(figure.marks)
    assert figure.width <= ROOM[0]
    assert figure.height <= ROOM[1]
    assert left >= -1.0 and bottom >= -0.5
    assert right <= figure.width + 1.0 and top <= figure.height + 1.0


def test_start_lines_look_like_no_other_line_even_in_grey() -> None:
    figure = plan_figure(plan(cast.potting_shed(), "A"), ROOM, Question.SET_OUT)
    chalk = [path for path in _paths(figure) if path.pen == CHALK]
    others = [path for path in _paths(figure) if path.pen and path.pen != CHALK]
    assert sum(len(path.lines) for path in chalk) == 2
    assert all(path.pen and path.pen.dashes != CHALK.dashes for path in others)


def test_each_start_line_carries_its_distances_at_both_ends() -> None:
    found = plan(cast.potting_shed(LengthStyle.MM), "A")
    figure = plan_figure(found, ROOM, Question.SET_OUT)
    said = [m.words for m in figure.marks if isinstance(m, Text) and m.role is Role.CHALK]
    distances = sorted(parse_length(words) for words in said if words.endswith(" mm"))
    marks = [mark for line in start_lines(found) for mark in (*line.at_start, *line.at_end)]
    assert distances == pytest.approx(sorted(mark.distance for mark in marks), abs=0.5)


def test_slivers_differ_from_other_pieces_without_colour() -> None:
    found = plan(cast.skew_porch(), "A")
    figure = plan_figure(found, ROOM, Question.NUMBERS)
    heavy = [path for path in _paths(figure) if path.pen and path.pen.role is Role.SLIVER]
    assert len(heavy) == len(found.slivers) > 0
    other = max(p.pen.weight for p in _paths(figure) if p.pen and p.pen.role is Role.FAINT_INK)
    assert min(path.pen.weight for path in heavy if path.pen) > 2 * other


def test_a_wall_on_paper_is_drawn_outside_the_room() -> None:
    found = plan(cast.washroom(), "A")
    figure = plan_figure(found, ROOM, Question.NUMBERS)
    assert figure.one_to
    bands = [shapely.Polygon(p.lines[0], p.lines[1:]) for p in _paths(figure) if p.fill is Role.WALL]
    tiles = [shapely.Polygon(line) for p in _paths(figure) if p.fill is Role.CUT_TINT for line in p.lines]
    assert bands
    assert shapely.union_all(bands).intersection(shapely.union_all(tiles)).area == pytest.approx(0, abs=1e-6)
