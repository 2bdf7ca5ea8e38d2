"""The settings of the saw as blocks of a page: what to set in large type, and a box to tick for each cut."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.base.units import LengthStyle
from tilelayout.planning.saw_list import SawStep, Setting
from tilelayout.planning.saw_words import by_lying, setting_words, tiles_words
from tilelayout.planning.ticks import Made, Ticks
from tilelayout.reports.figure import Mark, Pen, Role, Text, moved
from tilelayout.reports.marks import HAIRLINE, line
from tilelayout.reports.sheets.page import BODY, Block, paragraph
from tilelayout.reports.sheets.tick_boxes import SIZE as _TICK
from tilelayout.reports.sheets.tick_boxes import box_to_tick
from tilelayout.reports.type_size import CAP, POINT, text_width, wrapped

SETTING = 18 * POINT
ENTRY = 12 * POINT
_LINE = 7.0
_INDENT = 6.0
_GAP = 5.0


def all_setting_blocks(ticks: Ticks, made: Made, width: float) -> list[Block]:
    """Return all settings of a list as blocks, in the order of the saw; cuts that are made have a tick."""
    return [
        block for setting in ticks.found.settings for block in setting_blocks(setting, ticks, made, width)
    ]


def setting_blocks(setting: Setting, ticks: Ticks, made: Made, width: float) -> Iterator[Block]:
    """Yield a setting in blocks that are not to be parted: its name with the first boxes, then the others."""
    style = ticks.found.of.style
    head = _head(setting, style, width)
    for words, steps in by_lying(setting, style):
        rows = list(_rows([(step, ticks.is_made(step, made)) for step in steps], width - _INDENT))
        said = _lying(words, width)
        yield _below(head, said, rows[0])
        head = Block((), 0.0)
        yield from rows[1:]


def _head(setting: Setting, style: LengthStyle, width: float) -> Block:
    name = setting_words(setting, style)
    left = text_width(name, SETTING, is_bold=True) + 4.0
    base = -4.0 - SETTING * CAP
    lines = wrapped(tiles_words(setting), BODY, width - left)
    marks: tuple[Mark, ...] = (
        line((0.0, -0.5), (width, -0.5), pen=Pen(Role.FAINT_INK, HAIRLINE)),
        Text((0.0, base), name, SETTING, is_bold=True),
        *paragraph((left, base), lines, BODY, leading=1.25),
    )
    return Block(marks, 3.0 - base + (len(lines) - 1) * BODY * 1.25)


def _lying(words: str, width: float) -> Block:
    lines = wrapped(f"{words[:1].upper()}{words[1:]}", ENTRY, width)
    marks = paragraph((0.0, -ENTRY), lines, ENTRY, leading=1.25)
    return Block(marks, len(lines) * ENTRY * 1.25 + 1.0)


def _rows(steps: list[tuple[SawStep, bool]], room: float) -> Iterator[Block]:
    """Yield lines of boxes, ticked or not, with the cut, the pieces that come off and the offcuts kept."""
    entries = [(_entry(step), is_made) for step, is_made in steps]
    step = max(40.0, _TICK + 1.6 + _GAP + max(_entry_width(entry) for entry, _ in entries))
    per_line = max(1, int(room // step))
    for first in range(0, len(entries), per_line):
        marks: list[Mark] = []
        for at, (entry, is_made) in enumerate(entries[first : first + per_line]):
            left = _INDENT + at * step
            marks += box_to_tick(left, -_TICK - 0.4, is_ticked=is_made)
            marks += _entry_marks(left + _TICK + 1.6, entry)
        yield Block(tuple(marks), _LINE)


def _entry(step: SawStep) -> tuple[str, str]:
    kept = f"keep {', '.join(step.kept)}" if step.kept else ""
    done = ", ".join(step.done)
    return f"T{step.tile.number}.{step.number}", "; ".join(filter(None, (done, kept)))


def _entry_width(entry: tuple[str, str]) -> float:
    return text_width(entry[0], ENTRY, is_bold=True) + 2.0 + text_width(entry[1], ENTRY)


def _entry_marks(at: float, entry: tuple[str, str]) -> tuple[Mark, ...]:
    name, result = entry
    base = -_TICK + 0.6
    after = at + text_width(name, ENTRY, is_bold=True) + 2.0
    return (
        Text((at, base), name, ENTRY, is_bold=True),
        *((Text((after, base), result, ENTRY),) if result else ()),
    )


def _below(*blocks: Block) -> Block:
    """Return blocks below each other as one."""
    marks: list[Mark] = []
    depth = 0.0
    for block in blocks:
        marks += moved(block.marks, (0.0, -depth))
        depth += block.height
    return Block(tuple(marks), depth)
