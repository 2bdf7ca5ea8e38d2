"""The plan of a surface at a standard scale, drawn for one of two questions.

`SET_OUT` answers "where do I snap my lines": quiet tiles, chalk lines with their distances, the border cut at
each wall. `NUMBERS` answers "which piece goes where": cut pieces with their numbers, slivers that cannot be
missed. Both are the same drawing of the same plan with other marks on top.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum, auto

import shapely

from tilelayout.geometry.overlays import beyond, covered
from tilelayout.planning.joints import start_lines
from tilelayout.planning.plan import Plan
from tilelayout.reports.figure import Figure, Mark, Text
from tilelayout.reports.figures.edge_labels import border_labels, edge_labels
from tilelayout.reports.figures.piece_numbers import Numbered, number_marks
from tilelayout.reports.figures.scale_bar_marks import scale_bar_marks
from tilelayout.reports.figures.start_marks import chalk_marks, distance_marks
from tilelayout.reports.figures.surface_marks import BAND, cutout_ring, outline_of, surface_marks
from tilelayout.reports.figures.tile_marks import tile_marks
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import footprint
from tilelayout.reports.scales import fitting_scale


class Question(Enum):
    """What a plan is drawn to answer."""

    SET_OUT = auto()
    NUMBERS = auto()


RIM = {Question.SET_OUT: 16.0, Question.NUMBERS: 8.0}
"""Paper in mm kept free round the surface for what is written outside it."""

_BAR = 9.0
"""Height in mm of the scale bar and its numbers, below the rim."""


def plan_scale(plan: Plan, room: tuple[float, float], question: Question) -> float:
    """Return the largest standard scale at which the plan fits in `room`, width and height in mm."""
    rim = 2 * RIM[question]
    return fitting_scale(surface_size(plan), (room[0] - rim, room[1] - rim - _BAR), plan.style)


def plan_figure(plan: Plan, room: tuple[float, float], question: Question) -> Figure:
    """Return the plan, with its scale bar, at the largest standard scale at which it fits in `room` mm."""
    return framed_plan(plan, plan_scale(plan, room, question), question, _MARKS[question])


def framed_plan(
    plan: Plan, one_to: float, question: Question, drawn: Callable[[Plan, View], tuple[Mark, ...]]
) -> Figure:
    """Return what `drawn` draws of the plan at 1:`one_to`, with the rim of `question` and a scale bar."""
    rim = RIM[question]
    low = outline_of(plan.surface).min(axis=0)
    view = View(one_to, (float(low[0]), float(low[1])), (rim, rim + _BAR))
    width, height = surface_size(plan)
    marks = (*drawn(plan, view), *scale_bar_marks(one_to, plan.style, (rim, 2.0)))
    return Figure(marks, width / one_to + 2 * rim, height / one_to + 2 * rim + _BAR, one_to)


def surface_size(plan: Plan) -> tuple[float, float]:
    """Return the width and height of the surface in mm."""
    outline = outline_of(plan.surface)
    width, height = outline.max(axis=0) - outline.min(axis=0)
    return float(width), float(height)


def set_out_marks(plan: Plan, view: View) -> tuple[Mark, ...]:
    """Return the plan with its start lines and the border cut at each wall."""
    lines = start_lines(plan)
    outline = view.on_paper(outline_of(plan.surface))
    chalk = (*chalk_marks(lines, view), *distance_marks(lines, view, plan.style, outline))
    return (
        *tile_marks(plan, view, is_quiet=True),
        *surface_marks(plan.surface, view),
        *border_labels(plan, view, chalk),
        *chalk,
    )


def numbered_marks(plan: Plan, view: View) -> tuple[Mark, ...]:
    """Return the plan with the number of every cut piece, and the names of its walls."""
    pieces, labels = numbered_pieces(plan, view), edge_labels(plan, view)
    return (
        *tile_marks(plan, view),
        *surface_marks(plan.surface, view),
        *labels,
        *number_marks(pieces, _grounds(plan, view, pieces, labels)),
    )


def numbered_pieces(plan: Plan, view: View) -> list[Numbered]:
    """Return the cut pieces as they lie on the paper."""
    return [
        Numbered(
            piece.id,
            shapely.Polygon(view.on_paper(piece.outline), [view.on_paper(hole) for hole in piece.holes]),
            piece.id in plan.sliver_ids,
        )
        for piece in plan.laid.cut
    ]


def _grounds(
    plan: Plan, view: View, pieces: list[Numbered], labels: tuple[Text, ...]
) -> tuple[shapely.Geometry, shapely.Geometry]:
    """Return where a number may stand that finds no room in its piece: on whole tiles, else outside."""
    inside = shapely.Polygon(view.on_paper(outline_of(plan.surface)))
    cutouts = [shapely.Polygon(view.on_paper(cutout_ring(cutout))) for cutout in plan.surface.cutouts]
    within = covered([*(piece.shape for piece in pieces), *cutouts])
    rim = RIM[Question.NUMBERS] - 0.5
    sheet = inside.envelope.buffer(rim, join_style="mitre")
    around = beyond(sheet, inside.buffer(BAND + 0.3, join_style="mitre"))
    return beyond(inside, within), beyond(around, covered(footprint(label) for label in labels))


_MARKS = {Question.SET_OUT: set_out_marks, Question.NUMBERS: numbered_marks}
