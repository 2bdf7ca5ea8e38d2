"""Names the wall that each sawn side of a piece goes to, written along it: on the waste if it fits there."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.geometry.overlays import beyond
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Cut, CutKind, Points
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.plan import Plan
from tilelayout.planning.wall_names import wall_name
from tilelayout.reports.figure import Mark, Text
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import footprint, middle_text, readable
from tilelayout.reports.type_size import CAP, POINT, shortened

_SIZES = (8 * POINT, 7 * POINT, 6 * POINT)
_AWAY = 1.2
_LEAST = 5.0
_SHARES = (0.5, 0.35, 0.65, 0.25, 0.75)


@dataclass(frozen=True, eq=False)
class _Run:
    """The straight run of a cut that is written along: its ends, and the way to the waste."""

    start: Points
    end: Points
    to_waste: Points

    @property
    def length(self) -> float:
        return float(np.hypot(*(self.end - self.start)))

    @property
    def angle(self) -> float:
        along = self.end - self.start
        return readable(math.degrees(math.atan2(along[1], along[0])))

    def spots(self, words: str) -> Iterator[tuple[Text, bool]]:
        """Yield the text in every place worth trying, best first, and whether it stands on the waste."""
        for is_waste, size, share in itertools.product((True, False), _SIZES, _SHARES):
            away = self.to_waste * (1 if is_waste else -1) * (size * CAP / 2 + _AWAY)
            x, y = (self.start + (self.end - self.start) * share + away).tolist()
            yield middle_text((x, y), words, size, angle=self.angle), is_waste


def sawn_side_names(row: CutRow, plan: Plan, view: View) -> tuple[Mark, ...]:
    """Return the names along the sawn sides of the row's first piece; where there is no room, none."""
    piece = row.pieces[0]
    kept: shapely.Geometry = shapely.Polygon(view.on_paper(piece.in_tile(piece.outline)))
    waste: shapely.Geometry = beyond(shapely.Polygon(view.on_paper(tile_outline(piece.tile))), kept)
    names: list[Text] = []
    for cut in row.cuts:
        run = _run(cut, kept, view)
        if run is None:
            continue
        name = _name(wall_name(plan.surface, cut.border), run, kept, waste)
        if name:
            names.append(name)
            kept, waste = (beyond(ground, footprint(name)) for ground in (kept, waste))
    return tuple(names)


def _run(cut: Cut, kept: shapely.Geometry, view: View) -> _Run | None:
    if cut.kind in (CutKind.HOLE, CutKind.KNIFE):
        return None
    start, end = _longest_run(view.on_paper(cut.line))
    length = float(np.hypot(*(end - start)))
    if length < _LEAST:
        return None
    along = (end - start) / length
    square = np.array([-along[1], along[0]])
    faces_kept = shapely.covers(kept, shapely.Point((start + end) / 2 + square * 0.2))
    return _Run(start, end, -square if faces_kept else square)


def _longest_run(line: Points) -> tuple[Points, Points]:
    """Return the ends of the longest straight run of a cut; of a curve, those of a chord round its middle."""
    if len(line) > 8:
        third = len(line) // 3
        return line[third], line[2 * third]
    lengths = np.hypot(*np.diff(line, axis=0).T)
    at = int(np.argmax(lengths))
    return line[at], line[at + 1]


def _name(words: str, run: _Run, kept: shapely.Geometry, waste: shapely.Geometry) -> Text | None:
    """Write the words where they fit; a name too long for its side is shortened rather than left out."""
    short = shortened(words, _SIZES[-1], run.length - 1.0)
    for said in dict.fromkeys((words, short)):
        for text, is_waste in run.spots(said):
            if len(said) >= min(6, len(words)) and shapely.covers(
                waste if is_waste else kept, footprint(text)
            ):
                return text
    return None
