"""What the cards say of heights in a line, and the way from there to their sheet."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.heights.sheet import HeightsSheet
from tilelayout.app.rule_findings import LEVEL_WORDS
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.values import Surface
from tilelayout.planning.floor_sections import Section, sections_of
from tilelayout.practice.finding import Level


def section_at(bench: Bench, surface: Surface, place: str) -> Section | None:
    """Return the section at "edge 2" or "cutout 0"; None if no height counts there."""
    sections = sections_of(bench.job, surface, bench.layout)
    return next((each for each in sections if each.place == place), None)


def step_words(section: Section | None) -> str:
    """Return what is so there, without the name of the place, and how serious it is."""
    if section is None:
        return ""
    said = "; ".join(words.partition(": ")[2] or words for words in section.says)
    worst = min(section.findings, key=lambda each: tuple(Level).index(each.level), default=None)
    sign = f"{LEVEL_WORDS[worst.level]}: " if worst is not None else ""
    return f"{sign}{said}" if sign else f"{said[:1].upper()}{said[1:]}"


def open_heights(bench: Bench, button: QWidget, pick: Pick | None = None) -> None:
    """Open the sheet over the window, at the edge or cutout that is chosen."""
    if bench.surface is not None:
        HeightsSheet(button.window(), bench, bench.surface, place_of(pick)).open()


def place_of(pick: Pick | None) -> str:
    """Return what is chosen as a section names it: "edge 2", "cutout 0", "" for anything else."""
    if pick is None or pick.kind not in (PickKind.EDGE, PickKind.CUTOUT):
        return ""
    return f"{pick.kind.value} {pick.index}"


def faint_label() -> QLabel:
    """Return a label for a sentence below a field."""
    label = QLabel()
    label.setObjectName("faint")
    label.setWordWrap(True)
    return label
