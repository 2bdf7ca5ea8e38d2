"""The map of a surface on paper: contours with their heights, the readings, what to grind, the worst place.

Printed in black, so lines and figures carry everything: contours of heights before, of fill depths after,
hatching where something is to be ground off.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from tilelayout.base.heights import format_for, format_height, format_height_about
from tilelayout.base.units import LengthStyle
from tilelayout.flatness.contours import contours, ground_over, label_place, levels_between
from tilelayout.flatness.mesh import Mesh, Numbers
from tilelayout.flatness.values import Chord
from tilelayout.job.values import Surface
from tilelayout.planning.contour_steps import contour_step
from tilelayout.planning.preparing import Prepared
from tilelayout.planning.surface import Flatness
from tilelayout.reports.figure import Figure, Mark, Path, Pen, Role
from tilelayout.reports.figures.fitted_map import fitted_map
from tilelayout.reports.figures.view import View
from tilelayout.reports.marks import HAIRLINE, HEAVY, MEDIUM, hatch, middle_text
from tilelayout.reports.type_size import POINT

_FIGURE = 7.5 * POINT
_DOT = 0.55
_LEAST_GROUND = 0.05
"""Less than this (mm) is not ground off: no grinder is set so fine."""

_CLEAR = 5.0
"""A contour whose label would stand nearer to a reading (mm of paper) than this has none."""

_FOOT = 4.0
"""A figure stands below its reading where there is so much paper above the wall, else above it."""

_LEAST_BETWEEN = 8.0
"""Readings nearer on the paper than this are dots without figures, mm."""


@dataclass(frozen=True, eq=False)
class Charted:
    """What a map shows: `values` (v,) at the mesh's corners, what is ground off, the worst straightedge."""

    mesh: Mesh
    values: Numbers
    removed: Numbers | None = None
    chord: Chord | None = None
    chord_words: str = ""

    @property
    def readings(self) -> int:
        """How many of the mesh's corners, the first ones, are readings."""
        return int(self.mesh.parents.max()) + 1


def heights_charted(one: Flatness, style: LengthStyle) -> Charted | None:
    """Return the heights as they were read, with the worst straightedge; None if only lines are known."""
    mesh = one.surveyed.mesh
    if mesh is None:
        return None
    worst = one.variations[0] if one.variations else None
    words = f"{format_height_about(worst.worst, style)} {worst.by}" if worst else ""
    return Charted(mesh, one.surveyed.heights, None, worst.chord if worst else None, words)


def depths_charted(made: Prepared) -> Charted:
    """Return the depths of the fill, and what is ground off."""
    fill = made.fill
    return Charted(fill.ground.mesh, np.maximum(fill.added, 0.0), np.maximum(fill.removed, 0.0))


def surface_map(charted: Charted, surface: Surface, room: tuple[float, float], style: LengthStyle) -> Figure:
    """Return the map, with its scale bar, at the largest standard scale at which it fits in `room` mm."""
    fitted = fitted_map(surface, room, style)
    view = fitted.view
    return fitted.figure(
        (
            *_ground_marks(charted, view),
            *_contour_marks(charted, view, style),
            *_reading_marks(charted, view, style, view.origin[1]),
            *_chord_marks(charted, view),
        )
    )


def _ground_marks(charted: Charted, view: View) -> Iterator[Mark]:
    """Hatching where something is to be ground off."""
    if charted.removed is None or charted.removed.max(initial=0.0) <= _LEAST_GROUND:
        return
    for part in shapely.get_parts(ground_over(charted.mesh, charted.removed, _LEAST_GROUND)):
        outlines = (part.exterior, *part.interiors)
        rings = [view.on_paper(shapely.get_coordinates(ring)[:-1]) for ring in outlines]
        yield hatch(rings, spacing=1.2)
        yield Path(tuple(rings), Pen(Role.INK, MEDIUM), is_closed=True)


def _contour_marks(charted: Charted, view: View, style: LengthStyle) -> Iterator[Mark]:
    low, high = float(charted.values.min()), float(charted.values.max())
    levels = levels_between(low, high, contour_step(low, high, style))
    found = contours(charted.mesh, charted.values, levels)
    for contour in found:
        lines = tuple(view.on_paper(piece) for piece in contour.pieces)
        yield Path(lines, Pen(Role.FAINT_INK, HAIRLINE if contour.level else MEDIUM), is_round=True)
    for contour in found:
        readings = charted.mesh.places[: charted.readings]
        place = label_place(contour, readings)
        if place is not None and view.length(np.hypot(*(readings - place).T).min()) >= _CLEAR:
            at = view.place((float(place[0]), float(place[1])))
            yield middle_text(at, format_height(contour.level, style), _FIGURE, role=Role.FAINT_INK)


def _reading_marks(charted: Charted, view: View, style: LengthStyle, low: float) -> Iterator[Mark]:
    places = charted.mesh.places[: charted.readings]
    foot = view.place((0.0, float(low)))[1]
    words = _words(charted, style)
    has_words = view.length(_between(places)) >= _LEAST_BETWEEN
    for k in range(len(places)):
        x, y = view.place((float(places[k, 0]), float(places[k, 1])))
        turn = np.linspace(0.0, 2.0 * np.pi, 12, endpoint=False)
        ring = np.column_stack([x + _DOT * np.cos(turn), y + _DOT * np.sin(turn)])
        yield Path((ring,), None, Role.INK, is_closed=True)
        if has_words:
            drop = -2.4 if y - foot > _FOOT else 2.4
            yield middle_text((x, y + drop), words[k], _FIGURE, is_bold=True)


def _words(charted: Charted, style: LengthStyle) -> list[str]:
    """What stands at the readings: their heights, or the depth of fill, or "-" and what is ground off."""
    values = charted.values[: charted.readings]
    words = format_for(values.tolist(), style)
    if charted.removed is not None:
        off, words = charted.removed[: charted.readings], format_height_about
        values = np.where(off > _LEAST_GROUND, -off, values)
    return [words(value, style).removesuffix(" mm").removesuffix('"') for value in values.tolist()]


def _between(places: Numbers) -> float:
    """How far apart neighbouring readings usually are, mm."""
    spots = [shapely.Point(place) for place in places]
    nearest = shapely.STRtree(spots).query_nearest(spots, exclusive=True, return_distance=True)[1]
    return float(np.median(nearest)) if len(nearest) else np.inf


def _chord_marks(charted: Charted, view: View) -> Iterator[Mark]:
    if charted.chord is None:
        return
    start, end, at = (np.array(view.place(spot)) for spot in _spots(charted.chord))
    along = (end - start) / max(float(np.hypot(*(end - start))), 1e-9)
    across = np.array([-along[1], along[0]])
    strokes = [np.array([spot - across * 1.6, spot + across * 1.6]) for spot in (start, end)]
    strokes.append(np.array([at - across * 2.4, at + across * 2.4]))
    yield Path((np.array([start, end]), *strokes), Pen(Role.INK, HEAVY))
    place = at + across * 4.6 * (1.0 if across[1] > 0 else -1.0)
    yield middle_text((float(place[0]), float(place[1])), charted.chord_words, 9 * POINT, is_bold=True)


def _spots(chord: Chord) -> tuple[tuple[float, float], ...]:
    return chord.start, chord.end, chord.at
