"""A device-free picture: what the window paints and what the paper prints are the same value.

Two kinds of mark are enough: a `Path` (lines, outlines, fills) and a `Text`. Hatching, dimensions, arrows
and tick boxes are composed of them (in `reports.marks`), so every painter is short and none can differ in
how it draws a dimension. All coordinates, sizes and line weights are millimetres of paper with y up and
(0, 0) at the lower left; a painter for the screen scales the whole picture to its own size. Colours are
role names (`ink`, `chalk`, `sliver`), which each painter looks up in its own table.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
Place = tuple[float, float]


class Role(StrEnum):
    """What a mark is for; the painter decides the colour."""

    PAPER = "paper"
    INK = "ink"
    FAINT_INK = "faint_ink"
    CHALK = "chalk"
    TILE_FACE = "tile_face"
    TILE_JOINT = "tile_joint"
    CUT_TINT = "cut_tint"
    SLIVER = "sliver"
    WALL = "wall"
    DOORWAY = "doorway"
    CUTOUT = "cutout"


class Align(StrEnum):
    """Which end of a text stands at its place."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


@dataclass(frozen=True)
class Pen:
    """How a line is drawn: `weight` and the on and off lengths of `dashes` in mm of paper."""

    role: Role = Role.INK
    weight: float = 0.18
    dashes: tuple[float, ...] = ()


@dataclass(frozen=True, eq=False)
class Path:
    """Lines drawn as one mark: each of `lines` is (n, 2).

    `is_closed` joins each line's end to its start. `fill` fills all lines together by the even-odd rule,
    so an outline given with its holes keeps them. Ends are butt and corners mitred, unless `is_round`.
    """

    lines: tuple[Points, ...]
    pen: Pen | None = Pen()
    fill: Role | None = None
    is_closed: bool = False
    is_round: bool = False


@dataclass(frozen=True)
class Text:
    """One line of text: its baseline starts, is centred or ends at `at` and runs at `angle` degrees.

    `height` is the type size in mm (1 pt is 0.3528 mm). `has_halo` asks for a rim of paper round the letters,
    for text that stands on lines.
    """

    at: Place
    words: str
    height: float
    role: Role = Role.INK
    is_bold: bool = False
    align: Align = Align.LEFT
    angle: float = 0.0
    has_halo: bool = False


Mark = Path | Text


@dataclass(frozen=True, eq=False)
class Figure:
    """A picture of `width` by `height` mm of paper. Marks are painted in order.

    `one_to` is the scale: 20 for 1:20, None where nothing is drawn to scale.
    """

    marks: tuple[Mark, ...]
    width: float
    height: float
    one_to: float | None = None


def moved(marks: Iterable[Mark], by: Place) -> tuple[Mark, ...]:
    """Return the marks shifted by `by` mm: how a figure is put in its place on a page."""
    shift = np.array(by, dtype=float)
    return tuple(_moved(mark, by, shift) for mark in marks)


def _moved(mark: Mark, by: Place, shift: Points) -> Mark:
    """Make a mark anew elsewhere: in full, since copying it by names takes thrice as long."""
    if isinstance(mark, Text):
        at = (mark.at[0] + by[0], mark.at[1] + by[1])
        look = (mark.role, mark.is_bold, mark.align, mark.angle, mark.has_halo)
        return Text(at, mark.words, mark.height, *look)
    lines = tuple(line + shift for line in mark.lines)
    return Path(lines, mark.pen, mark.fill, mark.is_closed, mark.is_round)
