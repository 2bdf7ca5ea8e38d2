"""The page every sheet shares: paper, safe margins, the head with its title and the foot with its number.

A sheet returns the bodies of its pages; the frame is put round them when the number of pages is known.
Margins are wide enough for any printer, so nothing falls into an edge that cannot be printed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tilelayout.base.units import LengthStyle
from tilelayout.planning.plan import Plan
from tilelayout.reports.figure import Align, Figure, Mark, Pen, Place, Role, Text, moved
from tilelayout.reports.figures.plan_figure import Question, plan_scale
from tilelayout.reports.marks import MEDIUM, THIN, line
from tilelayout.reports.scales import scale_words
from tilelayout.reports.type_size import POINT, shortened, text_width

MARGIN = 12.0
HEAD = 17.0
FOOT = 9.0

TITLE = 15 * POINT
BODY = 10 * POINT
SMALL = 8 * POINT

PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
"""Width and height of each paper in mm, upright."""

_UNITS = {
    LengthStyle.MM: "millimetres",
    LengthStyle.CM: "centimetres",
    LengthStyle.M: "metres",
    LengthStyle.INCH: "inches",
    LengthStyle.FEET: "feet and inches",
    LengthStyle.DECIMAL_FEET: "decimal feet",
}


@dataclass(frozen=True)
class Frame:
    """A page of `width` by `height` mm; the properties bound the room inside its head and foot."""

    width: float
    height: float

    @property
    def left(self) -> float:
        """Left end of the room."""
        return MARGIN

    @property
    def right(self) -> float:
        """Right end of the room."""
        return self.width - MARGIN

    @property
    def bottom(self) -> float:
        """Lower end of the room."""
        return MARGIN + FOOT

    @property
    def top(self) -> float:
        """Upper end of the room."""
        return self.height - MARGIN - HEAD

    @property
    def room(self) -> tuple[float, float]:
        """Width and height of the room."""
        return self.right - self.left, self.top - self.bottom

    def turned(self) -> Frame:
        """Return the same paper lying on its other side."""
        return Frame(self.height, self.width)


@dataclass(frozen=True, eq=False)
class Page:
    """The body of a page: what stands inside the frame, the sheet's heading and what it is about."""

    frame: Frame
    heading: str
    about: str
    marks: tuple[Mark, ...]
    one_to: float | None = None


@dataclass(frozen=True, eq=False)
class Block:
    """Marks that hang below (0, 0), and how far down they reach in mm."""

    marks: tuple[Mark, ...]
    height: float


@dataclass(frozen=True)
class Imprint:
    """What stands on every page of a print: the job, its lengths, its file and the day."""

    title: str
    style: LengthStyle
    file_name: str
    day: date


def upright(paper: str) -> Frame:
    """Return the upright frame of `paper`, a name in `PAPERS`."""
    return Frame(*PAPERS[paper])


def framed(page: Page, number: int, total: int, imprint: Imprint) -> Figure:
    """Return the whole page, with head and foot, as page `number` of `total`."""
    marks = (*_head(page, imprint), *_foot(page, number, total, imprint), *page.marks)
    return Figure(marks, page.frame.width, page.frame.height, page.one_to)


def _head(page: Page, imprint: Imprint) -> tuple[Mark, ...]:
    frame = page.frame
    base = frame.height - MARGIN - 5.0
    heading_width = text_width(page.heading, TITLE)
    title = shortened(
        imprint.title.strip() or "Untitled job", TITLE, frame.room[0] - heading_width - 8, is_bold=True
    )
    scale = f"Scale {scale_words(page.one_to, imprint.style)}" if page.one_to else ""
    about = shortened(page.about, BODY, frame.room[0] - text_width(scale, BODY) - 8)
    return (
        Text((frame.left, base), title, TITLE, is_bold=True),
        Text((frame.right, base), page.heading, TITLE, align=Align.RIGHT),
        Text((frame.left, base - 6.0), about, BODY),
        Text((frame.right, base - 6.0), scale, BODY, align=Align.RIGHT),
        line((frame.left, base - 8.6), (frame.right, base - 8.6), pen=Pen(Role.INK, MEDIUM)),
    )


def _foot(page: Page, number: int, total: int, imprint: Imprint) -> tuple[Mark, ...]:
    frame = page.frame
    base = MARGIN + 0.8
    units = f"Lengths in {_UNITS[imprint.style]}"
    if page.one_to:
        units += " · print at 100 %"
    day = imprint.day.isoformat()
    room = (frame.room[0] - text_width(units, SMALL)) / 2 - text_width(f"{day}  ·  ", SMALL) - 4.0
    file_name = shortened(imprint.file_name, SMALL, room)
    return (
        line((frame.left, base + 4.2), (frame.right, base + 4.2), pen=Pen(Role.INK, THIN)),
        Text((frame.left, base), f"{day}  ·  {file_name}".rstrip(" ·"), SMALL),
        Text((frame.width / 2, base), units, SMALL, align=Align.CENTRE),
        Text((frame.right, base), f"Page {number} of {total}", SMALL, align=Align.RIGHT),
    )


def paragraph(at: Place, lines: tuple[str, ...], height: float, *, leading: float = 1.35) -> tuple[Text, ...]:
    """Return `lines` of text, the first one's baseline at `at`, each `leading` type sizes below the last."""
    return tuple(Text((at[0], at[1] - n * leading * height), words, height) for n, words in enumerate(lines))


def about(plan: Plan) -> str:
    """Return what a sheet of this plan is about: the surface and the layout."""
    name = f", {plan.layout.name}" if plan.layout.name else ""
    return f"{plan.surface.title} · layout {plan.layout.id}{name}"


def best_way_up(plan: Plan, frame: Frame, strip: float, question: Question) -> Frame:
    """Return `frame` turned if that draws the plan at a larger scale, else upright.

    `strip` is the height in mm that the page keeps free below the plan.
    """

    def scale(way: Frame) -> float:
        width, height = way.room
        return plan_scale(plan, (width, height - strip), question)

    return frame.turned() if scale(frame.turned()) < scale(frame) else frame


def flowed(blocks: Iterable[Block], frame: Frame, gap: float) -> tuple[tuple[Mark, ...], ...]:
    """Return the marks of each page when `blocks` are set below each other, `gap` mm apart, none parted."""
    pages: list[list[Mark]] = [[]]
    y = frame.top - gap / 2
    for block in blocks:
        if y - block.height < frame.bottom and pages[-1]:
            pages.append([])
            y = frame.top - gap / 2
        pages[-1] += moved(block.marks, (frame.left, y))
        y -= block.height + gap
    return tuple(tuple(marks) for marks in pages)
