"""The sheet on which a layout is chosen with the client: small plans to one scale, and every figure below.

What is better in a row carries a tick and bold type; what parts the others from it stands beside it in words.
"""

from __future__ import annotations

from tilelayout.planning.compare import Comparison
from tilelayout.planning.plan import Plan
from tilelayout.reports.figure import Mark, Text, moved
from tilelayout.reports.figures.plan_figure import surface_size
from tilelayout.reports.figures.scale_bar_marks import scale_bar_marks
from tilelayout.reports.figures.surface_marks import BAND, outline_of, surface_marks
from tilelayout.reports.figures.tile_marks import tile_marks
from tilelayout.reports.figures.view import View
from tilelayout.reports.scales import fitting_scale
from tilelayout.reports.sheets.compare_table import table_blocks
from tilelayout.reports.sheets.page import BODY, Block, Frame, Page, flowed
from tilelayout.reports.type_size import shortened

HEADING = "Layouts side by side"

_RIM = BAND + 1.2
_NAME = 7.0
_BAR = 9.0
_GAP = 5.0
_LEAST_HIGH = 45.0
"""Plans lower than this are no use: the table then follows on the next page."""


def compare_pages(comparison: Comparison, frame: Frame) -> tuple[Page, ...]:
    """Return the sheet, upright or lying, whichever shows the plans larger; more pages if it must be."""
    composed = [_Composed(comparison, way) for way in (frame, frame.turned())]
    best = min(composed, key=lambda each: (len(each.pages), each.one_to))
    return best.pages


class _Composed:
    """The sheet on a frame one way up."""

    def __init__(self, comparison: Comparison, frame: Frame) -> None:
        width, height = frame.room
        table = table_blocks(comparison, width)
        below = sum(block.height for block in table) + _GAP
        is_one_page = height - below - _BAR >= _LEAST_HIGH
        room = (width, height - _BAR - (below if is_one_page else _GAP))
        self.one_to, columns = _scale(comparison, room)
        blocks = [_plans_block(comparison.plans, self.one_to, columns, room)]
        blocks += [_together(table)] if is_one_page else table
        self.pages = tuple(
            Page(frame, HEADING, about(comparison), marks, None if number else self.one_to)
            for number, marks in enumerate(flowed(blocks, frame, 0.0))
        )


def about(comparison: Comparison) -> str:
    """Return what the sheet is about: the surface and its layouts."""
    ids = [plan.layout.id for plan in comparison.plans]
    return f"{comparison.plans[0].surface.title} · layouts {', '.join(ids[:-1])} and {ids[-1]}"


def _scale(comparison: Comparison, room: tuple[float, float]) -> tuple[float, int]:
    """Return the one scale of all plans, and how many stand in a row so that it is the largest."""
    plans = comparison.plans
    size, style = surface_size(plans[0]), plans[0].style

    def scale(columns: int) -> float:
        wide, high = _cell(len(plans), columns, room)
        return fitting_scale(size, (max(wide - 2 * _RIM, 1.0), max(high - 2 * _RIM - _NAME, 1.0)), style)

    columns = min(range(len(plans), 0, -1), key=scale)
    return scale(columns), columns


def _cell(count: int, columns: int, room: tuple[float, float]) -> tuple[float, float]:
    return (room[0] + _GAP) / columns - _GAP, room[1] / -(-count // columns)


def _plans_block(plans: tuple[Plan, ...], one_to: float, columns: int, room: tuple[float, float]) -> Block:
    """Return the plans in rows, each under its name, and one scale bar for all."""
    wide, _ = _cell(len(plans), columns, room)
    high = surface_size(plans[0])[1] / one_to + 2 * _RIM + _NAME
    marks: list[Mark] = []
    for number, plan in enumerate(plans):
        row, column = divmod(number, columns)
        marks += moved(_plan_marks(plan, one_to, wide), (column * (wide + _GAP), -row * high))
    bottom = -high * -(-len(plans) // columns)
    marks += scale_bar_marks(one_to, plans[0].style, (_RIM, bottom - _BAR + 3.5))
    return Block(tuple(marks), _BAR - bottom)


def _plan_marks(plan: Plan, one_to: float, wide: float) -> tuple[Mark, ...]:
    """Return one small plan hanging below (0, 0), with its name above."""
    low = outline_of(plan.surface).min(axis=0)
    high = surface_size(plan)[1] / one_to
    view = View(one_to, (float(low[0]), float(low[1])), (_RIM, -_NAME - _RIM - high))
    name = Text((_RIM - BAND, -4.6), _shortened_title(plan, wide), BODY, is_bold=True)
    return (name, *tile_marks(plan, view), *surface_marks(plan.surface, view))


def _shortened_title(plan: Plan, wide: float) -> str:
    return shortened(plan.layout.title, BODY, wide, is_bold=True)


def _together(blocks: list[Block]) -> Block:
    """Return the blocks below each other as one that is not parted."""
    marks: list[Mark] = []
    y = -2.5
    for block in blocks:
        marks += moved(block.marks, (0.0, y))
        y -= block.height
    return Block(tuple(marks), -y)
