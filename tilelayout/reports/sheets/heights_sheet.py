"""The sheet of what lies under the tile and beside it: the floor cut through, and the strips of its trims."""

from __future__ import annotations

from collections.abc import Iterable

from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Job, Surface
from tilelayout.planning.floor_sections import Section, sections_of
from tilelayout.planning.plan import layout_named
from tilelayout.planning.trims import TrimPlan, possible_trims
from tilelayout.reports.figure import Mark, Text, moved
from tilelayout.reports.figures.section_figure import section_figure
from tilelayout.reports.figures.trim_figure import trim_figure
from tilelayout.reports.scales import scale_words
from tilelayout.reports.sheets.page import BODY, SMALL, Block, Frame, Page, flowed, paragraph
from tilelayout.reports.type_size import wrapped

HEADING = "Heights and trims"
_GAP = 5.0
_DRAWN = 46.0
"""A section is at most so high, in mm of paper."""

_TILE = (70.0, 28.0)
_LEADING = 1.45


def heights_pages(job: Job, layout_id: str, frame: Frame) -> tuple[Page, ...]:
    """Return the pages about a layout's surface: none where no layer, height or trim was said.

    LayoutError if the job has no such layout.
    """
    layout = layout_named(job, layout_id)
    surface, style, width = job.surface(layout.surface), job.show_lengths, frame.room[0]
    sections = (each for each in sections_of(job, surface, layout) if _is_told(each, surface))
    trims = possible_trims(job, surface, layout.joint)
    blocks = [_section_block(each, style, width) for each in sections]
    blocks += [_trim_block(each, job, width) for each in trims]
    if not blocks:
        return ()
    return tuple(Page(frame, HEADING, surface.title, marks) for marks in flowed(blocks, frame, _GAP))


def _is_told(section: Section, surface: Surface) -> bool:
    """Tell whether anything was said that the section can show or ask for."""
    if section.place:
        return section.is_met or bool(section.findings)
    return bool(surface.layers or section.findings)


def _section_block(section: Section, style: LengthStyle, width: float) -> Block:
    title = f"Finished height: {section.title}" if section.place else "Layers, from the bare base up"
    marks: list[Mark] = []
    down = 6.0
    if section.is_known:
        figure = section_figure(section, (width, _DRAWN), style)
        down += figure.height
        marks += moved(figure.marks, (0.0, -down))
        title += f" · heights at {scale_words(figure.one_to or 1.0, style)}"
    marks.append(Text((0.0, -4.0), title, BODY, is_bold=True))
    said = (*map(_sentence, section.says), *(each.sentence for each in section.findings))
    for size, sentences in ((BODY, said), (SMALL, section.limits)):
        rows = _rows(sentences, size, width)
        marks += paragraph((0.0, -down - 1.2 - size), rows, size, leading=_LEADING)
        down += 1.2 + len(rows) * size * _LEADING
    return Block(tuple(marks), down + 1.0)


def _trim_block(trim: TrimPlan, job: Job, width: float) -> Block:
    style = job.show_lengths
    figure = trim_figure(trim, _TILE, style, job.saw.kerf)
    beside = figure.width + 4.0
    lines = (trim.words(style), *(run.words(style) for run in trim.runs))
    rows = _rows(map(_sentence, lines), BODY, width - beside)
    marks: list[Mark] = [Text((0.0, -4.0), "Trim from the tile", BODY, is_bold=True)]
    marks += moved(figure.marks, (0.0, -6.0 - figure.height))
    marks += paragraph((beside, -6.0 - BODY), rows, BODY, leading=_LEADING)
    return Block(tuple(marks), 7.0 + max(figure.height, len(rows) * BODY * _LEADING))


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].rstrip('.')}."


def _rows(sentences: Iterable[str], size: float, width: float) -> tuple[str, ...]:
    return tuple(row for sentence in sentences for row in wrapped(sentence, size, width))
