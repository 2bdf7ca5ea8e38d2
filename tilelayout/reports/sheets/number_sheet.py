"""The tile plan: every cut piece with its number, on one page if it can be read there, else in parts.

A floor too large for one readable page is drawn whole, with the frames of its parts, and then part by part
at a larger scale. Parts overlap, so a piece on a border is whole on one of them; parts without a cut piece
are not printed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.planning.plan import Plan
from tilelayout.reports.clipping import clipped
from tilelayout.reports.figure import Figure, Mark, Pen, Points, Role, Text, moved
from tilelayout.reports.figures.piece_numbers import share_inside
from tilelayout.reports.figures.plan_figure import (
    RIM,
    Question,
    framed_plan,
    numbered_marks,
    numbered_pieces,
    plan_figure,
    plan_scale,
    surface_size,
)
from tilelayout.reports.figures.surface_marks import outline_of, surface_marks
from tilelayout.reports.figures.tile_marks import tile_marks
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import MEDIUM, box, middle_text
from tilelayout.reports.scales import scales
from tilelayout.reports.sheets.page import BODY, SMALL, Frame, Page, about, best_way_up
from tilelayout.reports.type_size import POINT

HEADING = "Tile plan"
_STRIP = 12.0
_READABLE = 0.5
_WORTH_PARTS = 1.9
_MOST_PARTS = 16
_OVERLAP = 12.0
_FRAME = Pen(Role.CHALK, MEDIUM, (3.0, 1.2))


@dataclass(frozen=True)
class Part:
    """One part of a large plan: its name, and the rectangle of the surface it shows."""

    name: str
    left: float
    bottom: float
    right: float
    top: float


def number_pages(plan: Plan, frame: Frame) -> tuple[Page, ...]:
    """Return the tile plan on one page, or an overview and its parts."""
    frame = best_way_up(plan, frame, _STRIP, Question.NUMBERS)
    width, height = frame.room
    room = (width, height - _STRIP)
    whole = plan_scale(plan, room, Question.NUMBERS)
    one_to = whole if _readable_share(plan, whole) >= _READABLE else _part_scale(plan, whole, frame)
    parts = parts_of(plan, one_to, _window(frame))
    if len(parts) < 2 or one_to * _WORTH_PARTS > whole:
        return (_page(plan, frame, plan_figure(plan, room, Question.NUMBERS), legend_words(plan)),)
    overview = _page(plan, frame, _overview(plan, whole, parts), _overview_words(parts))
    marks = numbered_marks(plan, View(one_to, (0.0, 0.0)))
    return (overview, *(_part_page(plan, part, marks, one_to, frame) for part in parts))


def legend_words(plan: Plan) -> str:
    """Return how the plan is read, in one line."""
    sliver = " Hatched with a heavy outline: a sliver." if plan.slivers else ""
    return f"Tinted with a number: a cut piece, see the cut list.{sliver} The rest is laid whole."


def _overview_words(parts: tuple[Part, ...]) -> str:
    return f"The numbers are on the {len(parts)} parts that follow; what lies in none of them is laid whole."


def _page(plan: Plan, frame: Frame, figure: Figure, words: str) -> Page:
    width, height = frame.room
    place = (
        frame.left + (width - figure.width) / 2,
        frame.bottom + _STRIP + (height - _STRIP - figure.height) / 2,
    )
    legend = Text((frame.left, frame.bottom + 4.0), words, BODY)
    return Page(frame, HEADING, about(plan), (*moved(figure.marks, place), legend), figure.one_to)


def _readable_share(plan: Plan, one_to: float) -> float:
    pieces = [piece for piece in numbered_pieces(plan, View(one_to, (0.0, 0.0))) if not piece.is_bold]
    return share_inside(pieces)


def _part_scale(plan: Plan, whole: float, frame: Frame) -> float:
    """Return the smallest drawing in which enough numbers can be read, if it does not take too many pages."""
    best = whole
    for one_to in reversed([scale for scale in scales(plan.style) if scale < whole]):
        if len(parts_of(plan, one_to, _window(frame))) > _MOST_PARTS:
            break
        best = one_to
        if _readable_share(plan, one_to) >= _READABLE:
            break
    return best


def _window(frame: Frame) -> tuple[float, float]:
    width, height = frame.room
    return width - 2.0, height - _STRIP - 2.0


def parts_of(plan: Plan, one_to: float, window: tuple[float, float]) -> tuple[Part, ...]:
    """Return the parts with cut pieces, row by row from the top left, that `window` mm shows at 1:`one_to`.

    They are spread evenly, so that none hangs over the end of the surface more than another.
    """
    rim = RIM[Question.NUMBERS] * one_to
    low = outline_of(plan.surface).min(axis=0) - rim
    size, room = np.array(surface_size(plan)) + 2 * rim, np.array(window) * one_to
    lefts, bottoms = (_spread(*along, _OVERLAP * one_to) for along in zip(low, size, room, strict=True))
    cut = shapely.STRtree([shapely.Polygon(piece.outline) for piece in plan.laid.cut])
    corners = [(left, bottom) for bottom in reversed(bottoms) for left in lefts]
    shown = [
        (left, bottom, left + float(room[0]), bottom + float(room[1]))
        for left, bottom in corners
        if cut.query(shapely.box(left, bottom, left + room[0], bottom + room[1]), "intersects").size
    ]
    return tuple(Part(str(number), *bounds) for number, bounds in enumerate(shown, start=1))


def _spread(low: float, size: float, room: float, overlap: float) -> list[float]:
    """Return where windows of `room` start that cover `size` from `low`, overlapping by `overlap` or more."""
    if size <= room:
        return [float(low - (room - size) / 2)]
    count = int(np.ceil((size - overlap) / (room - overlap)))
    return [float(low + n * (size - room) / (count - 1)) for n in range(count)]


def _overview(plan: Plan, one_to: float, parts: tuple[Part, ...]) -> Figure:
    """Return the whole plan without numbers, with the frame and name of each part."""
    rim = RIM[Question.NUMBERS] - 0.5

    def drawn(plan: Plan, view: View) -> tuple[Mark, ...]:
        corners = view.on_paper(outline_of(plan.surface))
        low, high = corners.min(axis=0) - rim, corners.max(axis=0) + rim
        frames = (mark for part in parts for mark in _part_frame(part, view, low, high))
        return (*tile_marks(plan, view), *surface_marks(plan.surface, view), *frames)

    return framed_plan(plan, one_to, Question.NUMBERS, drawn)


def _part_frame(part: Part, view: View, low: Points, high: Points) -> tuple[Mark, ...]:
    """Draw the frame of a part, as far as it lies between `low` and `high`, with its name in the middle."""
    corners = np.clip(view.on_paper(np.array([(part.left, part.bottom), (part.right, part.top)])), low, high)
    (left, bottom), (right, top) = corners.tolist()
    return (
        box(left, bottom, right - left, top - bottom, pen=_FRAME),
        middle_text(((left + right) / 2, (bottom + top) / 2), part.name, 16 * POINT, is_bold=True),
    )


def _part_page(plan: Plan, part: Part, drawn: tuple[Mark, ...], one_to: float, frame: Frame) -> Page:
    width, height = _window(frame)
    left, bottom = frame.left + 1.0, frame.bottom + _STRIP + 1.0
    shift = (left - part.left / one_to, bottom - part.bottom / one_to)
    words = f"Part {part.name}. {legend_words(plan)}"
    marks = (
        *clipped(moved(drawn, shift), (left, bottom, left + width, bottom + height)),
        box(left, bottom, width, height, pen=_FRAME),
        Text((frame.left, frame.bottom + 4.0), words, BODY),
        Text((frame.left, frame.bottom - 0.2), "It overlaps its neighbours; see the overview.", SMALL),
    )
    return Page(frame, f"{HEADING}, part {part.name}", about(plan), marks, one_to)
