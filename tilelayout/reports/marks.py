"""Composed marks: dimensions, arrows, hatching, tick boxes and scale bars, all made of paths and texts.

Everything is in mm of paper. Hatching is cut to its outline here, so that no painter needs to clip.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from tilelayout.geometry.turns import turning
from tilelayout.reports.figure import Align, Mark, Path, Pen, Place, Points, Role, Text
from tilelayout.reports.type_size import CAP, text_width

HAIRLINE = 0.13
THIN = 0.2
MEDIUM = 0.35
HEAVY = 0.6

_LEAST_STROKE = 0.05
"""Shorter strokes of a hatching are left out."""


def line(*places: Place, pen: Pen | None = None) -> Path:
    """Return an open line through `places`."""
    return Path((np.array(places, dtype=float),), pen or Pen())


def box(left: float, bottom: float, width: float, height: float, *, pen: Pen | None = None) -> Path:
    """Return the outline of a rectangle."""
    right, top = left + width, bottom + height
    corners = np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
    return Path((corners,), pen or Pen(), is_closed=True)


def filled(rings: Iterable[Points], fill: Role) -> Path:
    """Return an area without an outline; rings within rings are holes."""
    return Path(tuple(rings), None, fill, is_closed=True)


def hatch(rings: Sequence[Points], *, spacing: float, angle: float = 45.0, pen: Pen | None = None) -> Path:
    """Return parallel lines `spacing` mm apart inside an outline and its holes."""
    middle = (rings[0].min(axis=0) + rings[0].max(axis=0)) / 2
    level = [(ring - middle) @ turning(-angle) + middle for ring in rings]
    bottom, top = level[0][:, 1].min(), level[0][:, 1].max()
    rows = _rows_inside(level, np.arange(math.ceil(bottom / spacing) * spacing, top, spacing))
    seen = rows[rows[:, 1, 0] - rows[:, 0, 0] > _LEAST_STROKE]
    return Path(tuple((seen - middle) @ turning(angle) + middle), pen or Pen(Role.INK, HAIRLINE))


def _rows_inside(rings: Sequence[Points], heights: Points) -> Points:
    """Return the level stretches (n, 2, 2) at `heights` that lie inside rings, by the even-odd rule.

    Every row crosses closed rings an even number of times: in and out, from left to right.
    """
    starts, ends = np.concatenate(rings), np.concatenate([np.roll(ring, -1, axis=0) for ring in rings])
    ways = ends - starts
    is_below, ends_below = (places[:, 1] <= heights[:, None] for places in (starts, ends))
    row, side = np.nonzero(is_below != ends_below)
    x = starts[side, 0] + (heights[row] - starts[side, 1]) * ways[side, 0] / ways[side, 1]
    order = np.lexsort((x, row))
    return np.stack((x[order], heights[row[order]]), axis=1).reshape(-1, 2, 2)


def middle_text(
    at: Place, words: str, height: float, *, angle: float = 0.0, is_bold: bool = False, role: Role = Role.INK
) -> Text:
    """Return a text whose capitals are centred on `at`, with a rim of paper."""
    drop = CAP * height / 2
    turn = math.radians(angle)
    place = (at[0] + drop * math.sin(turn), at[1] - drop * math.cos(turn))
    return Text(place, words, height, role, is_bold, Align.CENTRE, angle, has_halo=True)


def arrow(tail: Place, tip: Place, *, pen: Pen | None = None, head: float = 2.2) -> tuple[Mark, ...]:
    """Return a line with a filled head at `tip`; `head` is the length of the head."""
    pen = pen or Pen(Role.INK, MEDIUM)
    along = np.subtract(tip, tail)
    along = along / np.hypot(*along)
    across = np.array([-along[1], along[0]]) * head * 0.32
    neck = np.asarray(tip) - along * head
    wedge = np.array([tip, neck + across, neck - across])
    return (line(tail, (float(neck[0]), float(neck[1])), pen=pen), filled((wedge,), pen.role))


def measured(first: Place, last: Place, *, role: Role = Role.INK) -> tuple[Mark, ...]:
    """Return a dimension line with slanting strokes at its ends, as on a builder's drawing."""
    ends = np.array([first, last], dtype=float)
    along = (ends[1] - ends[0]) / np.hypot(*(ends[1] - ends[0]))
    slant = (along + np.array([-along[1], along[0]])) * 0.9
    strokes = tuple(np.array([end - slant, end + slant]) for end in ends)
    return (Path((ends,), Pen(role, THIN)), Path(strokes, Pen(role, MEDIUM)))


def dimension(
    first: Place, last: Place, words: str, *, offset: float, height: float = 2.8, role: Role = Role.INK
) -> tuple[Mark, ...]:
    """Return a dimension of the distance from `first` to `last`, `offset` mm to the left of that way.

    The words stand on the line, readable from below or from the right; words wider than the line stand
    beyond its end.
    """
    start, end = np.asarray(first, dtype=float), np.asarray(last, dtype=float)
    along = (end - start) / np.hypot(*(end - start))
    away = np.array([-along[1], along[0]]) * offset
    a, b = start + away, end + away
    marks = [*measured(_place(a), _place(b), role=role), _dimension_words(a, b, words, height, role)]
    if abs(offset) < 1.0:
        return tuple(marks)
    near, far = away / abs(offset) * 0.8, away / abs(offset)
    legs = tuple(np.array([place + near, foot + far]) for place, foot in ((start, a), (end, b)))
    return (Path(legs, Pen(role, THIN)), *marks)


def _place(point: Points) -> Place:
    return float(point[0]), float(point[1])


def _dimension_words(a: Points, b: Points, words: str, height: float, role: Role) -> Text:
    along = (b - a) / np.hypot(*(b - a))
    angle = readable(math.degrees(math.atan2(along[1], along[0])))
    turn = math.radians(angle)
    above = np.array([-math.sin(turn), math.cos(turn)]) * 0.8
    width = text_width(words, height)
    place = (a + b) / 2 + above
    if width > np.hypot(*(b - a)) - 1.0:
        place = b + along * (width / 2 + 1.6) - above / 0.8 * height * CAP / 2
    return Text(_place(place), words, height, role, False, Align.CENTRE, angle, True)


def readable(angle: float) -> float:
    """Return the angle, or the opposite one, at which text is read from below or from the right."""
    return angle + 180.0 if angle > 90.0 + 1e-6 or angle <= -90.0 + 1e-6 else angle


def footprint(text: Text) -> shapely.Polygon:
    """Return the area a text covers, with a rim."""
    return shapely.Polygon(_corners_of(text))


def _corners_of(text: Text) -> Points:
    """Return the four corners (4, 2) of the area a text covers."""
    wide, tall = text_width(text.words, text.height, is_bold=text.is_bold), text.height * CAP
    left = {Align.LEFT: 0.0, Align.CENTRE: -wide / 2, Align.RIGHT: -wide}[text.align]
    rim = text.height * 0.15
    right, top = left + wide + rim, tall + rim
    level = np.array([(left - rim, -rim), (right, -rim), (right, top), (left - rim, top)])
    return np.asarray(level @ turning(text.angle) + np.array(text.at))


def bounds_of(marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """Return left, bottom, right and top of all that the marks cover, lines without their weight."""
    points = [points for m in marks for points in ((_corners_of(m),) if isinstance(m, Text) else m.lines)]
    (left, bottom), (right, top) = (f(np.concatenate(points), axis=0).tolist() for f in (np.min, np.max))
    return left, bottom, right, top


def tick_box(left: float, bottom: float, size: float = 4.5) -> Path:
    """Return an empty box to tick with a pencil."""
    return box(left, bottom, size, size, pen=Pen(Role.INK, MEDIUM))


def scale_bar(at: Place, steps: Sequence[float], words: Sequence[str], height: float) -> tuple[Mark, ...]:
    """Return a bar whose strokes stand at `steps` mm of paper from its start, each with its words."""
    x, y = at
    marks: list[Mark] = []
    for count, (start, end) in enumerate(itertools.pairwise(steps)):
        corners = np.array([(x + start, y), (x + end, y), (x + end, y + 1.2), (x + start, y + 1.2)])
        marks.append(Path((corners,), Pen(Role.INK, THIN), None if count % 2 else Role.INK, is_closed=True))
    for step, text in zip(steps, words, strict=True):
        marks.append(Text((x + step, y + 2.2), text, height, align=Align.CENTRE))
    return tuple(marks)
