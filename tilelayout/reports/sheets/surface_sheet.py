"""The surface sheet: the map of what was read with its verdicts, then the map of what to do about it.

The second page goes to the mixer: depths at the readings, litres and bags, dams, and what to mind.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle
from tilelayout.job.preparation import Preparation
from tilelayout.job.values import SurfaceKind
from tilelayout.planning.preparing import UPRIGHT_WAY_WORDS, WAY_WORDS, Prepared, prepared
from tilelayout.planning.surface import Flatness
from tilelayout.planning.surface_words import (
    CAUTIONS,
    JUDGED,
    checked_words,
    f_number_words,
    measured_words,
    mend_words,
    plumb_words,
    slip_words,
)
from tilelayout.reports.figure import Figure, Mark, Text, moved
from tilelayout.reports.figures.surface_map import Charted, depths_charted, heights_charted, surface_map
from tilelayout.reports.sheets.page import BODY, SMALL, Block, Frame, Page, flowed
from tilelayout.reports.type_size import wrapped

HEADING, MEND_HEADING = "Surface", "Surface: what to do"
_LEADING = 1.4
TEXT_SHARE = 0.36
"""The share of the page that is kept for words below the map."""

Line = tuple[str, float, bool]
"""Words, type size, whether they are bold."""


def surface_pages(one: Flatness, frame: Frame, style: LengthStyle) -> tuple[Page, ...]:
    """Return the pages about one survey, on upright paper. SurveyError if its readings make no surface."""
    pages = _pages(HEADING, one, frame, style, heights_charted(one, style), list(_verdict_lines(one, style)))
    made = prepared(one, one.survey.preparation or Preparation())
    if made is not None and made.is_needed:
        lines = list(_mend_lines(one, made, style))
        pages += _pages(MEND_HEADING, one, frame, style, depths_charted(made), lines)
    return pages


def _pages(
    heading: str, one: Flatness, frame: Frame, style: LengthStyle, charted: Charted | None, lines: list[Line]
) -> tuple[Page, ...]:
    width, height = frame.room
    room = (width, height * (1.0 - TEXT_SHARE))
    figure = None if charted is None else surface_map(charted, one.surface, room, style)
    return figured_pages(heading, one, frame, figure, lines)


def figured_pages(
    heading: str, one: Flatness, frame: Frame, figure: Figure | None, lines: list[Line]
) -> tuple[Page, ...]:
    """Return pages about a survey: a figure, if there is one, and lines of words below it."""
    width = frame.room[0]
    blocks, one_to = [], None
    if figure is not None:
        one_to = figure.one_to
        shifted = moved(figure.marks, ((width - figure.width) / 2, -figure.height))
        blocks.append(Block(shifted, figure.height))
    blocks += [_block(line, width) for line in lines]
    about = one.title if one.title == one.surface.title else f"{one.surface.title} · {one.title}"
    return tuple(
        Page(frame, heading, about, marks, None if number else one_to)
        for number, marks in enumerate(flowed(blocks, frame, 1.2))
    )


def _block(line: Line, width: float) -> Block:
    words, size, is_bold = line
    rows = wrapped(words, size, width * (0.92 if is_bold else 1.0))
    marks: list[Mark] = [
        Text((0.0, -size - n * _LEADING * size), row, size, is_bold=is_bold) for n, row in enumerate(rows)
    ]
    return Block(tuple(marks), len(rows) * _LEADING * size + (1.0 if is_bold else 0.0))


def _verdict_lines(one: Flatness, style: LengthStyle) -> Iterator[Line]:
    count = len(one.survey.points) + len(one.survey.straightedge)
    yield _read_words(one, count, style), BODY, False
    for slip in one.slips:
        yield f"Check before buying anything: {slip_words(slip, style)}", BODY, True
    if not one.tiles:
        yield "No tile is laid on this surface yet, so it is judged for none.", BODY, False
    for tile in one.tiles:
        yield f"For {tile.title}", BODY, True
        verdicts = [each for each in one.verdicts if each.tile == tile.id]
        for each in verdicts:
            yield (
                f"{JUDGED[each.ok]} {measured_words(each, style)}. {each.why_in(style)}".strip(),
                BODY,
                False,
            )
        for source in dict.fromkeys(each.limit.source.words for each in verdicts):
            yield source, SMALL, False
    for words in filter(None, (plumb_words(one, style), f_number_words(one))):
        yield words, SMALL, False
    for trap in one.traps:
        yield trap, SMALL, False


def _read_words(one: Flatness, count: int, style: LengthStyle) -> str:
    plane = "plumb" if one.surface.kind is SurfaceKind.WALL else "level"
    way = "out from any plumb" if one.surface.kind is SurfaceKind.WALL else "up from any level"
    shown = one.survey.resolution
    fine = f", read to {format_height(shown, style)}" if shown else ""
    unit = "mm" if style.is_metric else "inches"
    return (
        f"{count} readings{fine}; heights in {unit} {way} plane. A slope alone is no fault here: "
        f"whether the surface is {plane} is another question. The heavy line is the worst straightedge."
    )


def _mend_lines(one: Flatness, made: Prepared, style: LengthStyle) -> Iterator[Line]:
    words = UPRIGHT_WAY_WORDS if one.surface.kind is SurfaceKind.WALL else WAY_WORDS
    yield words[made.asked.way], BODY, True
    for sentence in (*mend_words(made, style), *checked_words(made, style)):
        yield sentence, BODY, False
    unit = "mm" if style.is_metric else "inches"
    figures = f"Figures at the dots: depth of fill there in {unit}; hatched and below nought: grind off."
    yield figures, BODY, False
    yield CAUTIONS, SMALL, False
