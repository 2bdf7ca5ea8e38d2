"""A floor cut through where it meets something: its layers to scale, the step, the door, the flange.

Only heights are to scale; across, everything is drawn as wide as the paper allows. A tall appliance is drawn
broken, so that the floor below and the space above it stay large enough to read.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from tilelayout.base.units import LengthStyle
from tilelayout.job.kinds import CutoutKind, LayerRole
from tilelayout.materials.meetings import Meeting, MeetingKind
from tilelayout.materials.stacks import Range, Stack, StackLayer
from tilelayout.planning.floor_sections import Section
from tilelayout.planning.heights import range_words, small_words
from tilelayout.reports.figure import Align, Figure, Mark, Path, Pen, Place, Points, Role, Text
from tilelayout.reports.marks import HAIRLINE, HEAVY, MEDIUM, THIN, filled, hatch, line, measured, middle_text
from tilelayout.reports.scales import fitting_scale
from tilelayout.reports.type_size import CAP, POINT, shortened

_TYPE = 8 * POINT
_LABELS = 46.0
"""Paper in mm at either side for the names of the layers."""

_LEADING = 1.5 * _TYPE
_BASE = 3.0
"""How deep the bare base is drawn in mm of paper; its real thickness does not matter."""

_ABOVE = 7.0
_JOINT = 1.0
_LEAF = 9.0
_FLANGE = (7.0, 13.0)
"""Half as wide as the pipe of a flange and its rim are drawn, in mm of paper."""

_BROKEN = 20.0
"""As tall as an appliance is drawn, in real mm; what is taller is drawn broken."""

_RIM, _WORKTOP = 4.0, 15.0
_HATCHES: dict[LayerRole | None, tuple[float, float]] = {
    LayerRole.PREPARATION: (-45.0, 1.6),
    LayerRole.BOARD: (0.0, 1.3),
    LayerRole.BED: (45.0, 1.0),
    LayerRole.COVERING: (90.0, 2.0),
    None: (45.0, 2.4),
}
"""Angle and spacing of the strokes of each kind of layer; tile is plain and a membrane solid."""


def section_figure(section: Section, room: tuple[float, float], style: LengthStyle) -> Figure:
    """Return the drawing of a section whose heights are known, in at most `room` mm of paper."""
    drawing = _Drawing(section, room, style)
    return Figure(tuple(drawing.marks()), room[0], drawing.height, drawing.one_to)


@dataclass
class _Drawing:
    section: Section
    room: tuple[float, float]
    style: LengthStyle

    def __post_init__(self) -> None:
        height = self.section.near.height
        if height is None:
            raise ValueError("the height of the finished face is not known")
        self.face: Range = height
        self.lowest = min(0.0, *self._heights())
        tall = max(self._heights()) - self.lowest
        self.one_to = fitting_scale((1.0, max(tall, 1.0)), (1.0, self.room[1] - _BASE - _ABOVE), self.style)
        self.height = max(tall / self.one_to, self._label_height()) + _BASE + _ABOVE

    # --- places on the paper -------------------------------------------------------------------------

    @property
    def left(self) -> float:
        return _LABELS

    @property
    def right(self) -> float:
        return self.room[0] - _LABELS

    @property
    def middle(self) -> float:
        return (self.left + self.right) / 2

    def y(self, height: float) -> float:
        """Return where a real height stands on the paper."""
        return _BASE + (height - self.lowest) / self.one_to

    def _heights(self) -> list[float]:
        section = self.section
        known = [self.face.most, section.next_top, section.door, *self._heights_of_cutout()]
        return [0.0, *(height for height in known if height is not None)]

    def _heights_of_cutout(self) -> tuple[float, ...]:
        cutout, less = self.section.cutout, self._cut_short()
        if cutout is None or cutout.meets is None:
            return ()
        if not self._is_appliance:
            return (cutout.meets,)
        worktop = cutout.meets - less
        return (worktop, worktop + _WORKTOP, self.face.most + (cutout.tall or less) - less)

    @property
    def _is_appliance(self) -> bool:
        return self.section.cutout is not None and self.section.cutout.kind is CutoutKind.APPLIANCE

    def _cut_short(self) -> float:
        """Return how much of an appliance is left out of the drawing."""
        cutout = self.section.cutout
        if not self._is_appliance or cutout is None:
            return 0.0
        tall = cutout.tall if cutout.tall is not None else (cutout.meets or 0.0) - self.face.most
        return max(0.0, tall - _BROKEN)

    def _label_height(self) -> float:
        layers = max(len(self.section.near.layers), len(self._beyond_layers()))
        return _LEADING * layers

    def _beyond_layers(self) -> tuple[StackLayer, ...]:
        return () if self.section.beyond is None else self.section.beyond.layers

    # --- marks ---------------------------------------------------------------------------------------

    def marks(self) -> Iterable[Mark]:
        """Yield everything, what lies behind first."""
        yield from self._base()
        if self.section.cutout is None:
            yield from self._at_edge()
        elif self._is_appliance:
            yield from self._stack(self.section.near, self.left, self.right, names_at_left=True)
            yield from self._appliance(self.section.cutout.meets, self.section.cutout.tall)
        else:
            yield from self._flange(self.section.cutout.meets)

    def _base(self) -> Iterable[Mark]:
        top, end = self.y(0.0), self.middle if self.section.next_top is not None else self.right
        end = self.right if self.section.beyond is not None else end
        ring = _ring(self.left, end, top - _BASE, top)
        yield hatch([ring], spacing=1.1, angle=60.0)
        yield line((self.left, top), (end, top), pen=Pen(Role.INK, HEAVY))
        words = "bare wall" if self.section.is_wall else "bare base"
        at = (self.left - 2.0, top - _BASE - 0.4)
        yield Text(at, words, _TYPE, Role.FAINT_INK, align=Align.RIGHT)

    def _at_edge(self) -> Iterable[Mark]:
        has_neighbour = self.section.next_top is not None
        is_alone = not has_neighbour and self.section.door is None
        end = self.right if is_alone else self.middle - _JOINT / 2
        yield from self._stack(self.section.near, self.left, end, names_at_left=True)
        if has_neighbour:
            yield from self._neighbour(self.section.next_top or 0.0)
        for meeting in self.section.meetings:
            yield from self._step(meeting) if meeting.kind is MeetingKind.FLOOR else self._door(meeting)

    def _neighbour(self, top: float) -> Iterable[Mark]:
        start = self.middle + _JOINT / 2
        if self.section.beyond is not None:
            yield from self._stack(self.section.beyond, start, self.right, names_at_left=False)
            return
        foot = self.y(min(self.lowest, 0.0)) - _BASE
        ring = _ring(start, self.right, foot, self.y(top))
        yield Path((ring,), Pen(Role.INK, MEDIUM), Role.PAPER, is_closed=True)
        yield hatch([ring], spacing=2.4)
        words = f"floor beyond {small_words(top, self.style)}"
        yield self._label(words, (self.right, self.y(top)), self.y(top) - _TYPE * CAP, is_left=False)

    def _stack(self, stack: Stack, start: float, end: float, *, names_at_left: bool) -> Iterable[Mark]:
        low, middles = 0.0, []
        for layer in stack.layers:
            high = low + layer.thickness.most
            yield from _layer(layer, _ring(start, end, self.y(low), self.y(high)))
            middles.append((self.y(low) + self.y(high)) / 2)
            low = high
        side = start if names_at_left else end
        places = _spread(middles, self.y(0.0) + _LEADING / 2, _LEADING)
        for layer, middle, place in zip(stack.layers, middles, places, strict=True):
            words = f"{layer.name} {range_words(layer.thickness, self.style)}"
            yield self._label(words, (side, middle), place, is_left=names_at_left)
            if abs(place - middle) > _TYPE / 4:
                way = -1.5 if names_at_left else 1.5
                yield line((side, middle), (side + way, place), pen=Pen(Role.FAINT_INK, HAIRLINE))
        if self.face.least < self.face.most and stack is self.section.near:
            least = self.y(self.face.least)
            yield line((start, least), (end, least), pen=Pen(Role.INK, THIN, (1.5, 1.0)))

    def _label(self, words: str, end: Place, y: float, *, is_left: bool) -> Text:
        way = -1.0 if is_left else 1.0
        align = Align.RIGHT if is_left else Align.LEFT
        words = shortened(words, _TYPE, _LABELS - 3.0)
        return Text((end[0] + way * 2.0, y - _TYPE * CAP / 2), words, _TYPE, align=align)

    def _step(self, meeting: Meeting) -> Iterable[Mark]:
        next_top = self.section.next_top or 0.0
        face = self.face.least if meeting.step.farthest < 0.0 else self.face.most
        low, high = sorted((self.y(next_top), self.y(face)))
        start, end = (self.middle, self.right) if face > next_top else (self.left, self.middle)
        yield line((start, high), (end, high), pen=Pen(Role.CHALK, THIN, (1.5, 1.0)))
        at = self.middle + (16.0 if face > next_top else -16.0)
        if high - low > 0.3:
            yield from measured((at, low), (at, high), role=Role.CHALK)
        words = "flush" if meeting.step.farthest == 0.0 else _step_words(meeting.step, self.style)
        yield middle_text((at, high + _TYPE), words, _TYPE, is_bold=True, role=Role.CHALK)

    def _door(self, meeting: Meeting) -> Iterable[Mark]:
        under, top = self.y(self.section.door or 0.0), self.height - 1.0
        left, right = self.middle - _LEAF / 2, self.middle + _LEAF / 2
        yield filled((_ring(left, right, under, top),), Role.PAPER)
        yield line((left, top), (left, under), (right, under), (right, top), pen=Pen(Role.INK, MEDIUM))
        yield middle_text((self.middle, (under + top) / 2), "door", _TYPE)
        at, low, high = left - 5.0, *sorted((self.y(self.face.most), under))
        if high - low > 0.3:
            yield from measured((at, low), (at, high))
        is_free = meeting.step.least >= 0.0
        words = f"{small_words(abs(meeting.step.least), self.style)} {'free' if is_free else 'too low'}"
        place = (at - 1.5, max(high, low + _TYPE) - _TYPE * CAP)
        yield Text(place, words, _TYPE, is_bold=True, align=Align.RIGHT, has_halo=True)

    def _flange(self, top: float | None) -> Iterable[Mark]:
        pipe, rim = _FLANGE
        left, right = self.middle - pipe, self.middle + pipe
        yield from self._stack(self.section.near, self.left, left - _JOINT, names_at_left=True)
        yield from self._stack_without_names(right + _JOINT, self.right)
        if top is None:
            return
        low, high = self.y(top - _RIM), self.y(top)
        foot = self.y(0.0) - _BASE
        yield Path((_ring(left, right, foot, high),), Pen(Role.INK, MEDIUM), Role.PAPER, is_closed=True)
        rings = (_ring(self.middle - rim, self.middle + rim, low, high),)
        yield Path(rings, Pen(Role.INK, MEDIUM), Role.CUTOUT, is_closed=True)
        yield from self._gap(self.y(self.face.most), high, MeetingKind.FLANGE)

    def _stack_without_names(self, start: float, end: float) -> Iterable[Mark]:
        low = 0.0
        for layer in self.section.near.layers:
            high = low + layer.thickness.most
            yield from _layer(layer, _ring(start, end, self.y(low), self.y(high)))
            low = high

    def _appliance(self, worktop: float | None, tall: float | None) -> Iterable[Mark]:
        if worktop is None:
            return
        left, right = self.middle - 22.0, self.middle + 14.0
        under = self.y(worktop - self._cut_short())
        slab = _ring(left - 6.0, self.right, under, under + _WORKTOP / self.one_to)
        yield Path((slab,), Pen(Role.INK, MEDIUM), Role.TILE_JOINT, is_closed=True)
        words = f"worktop {small_words(worktop, self.style)}"
        yield self._label(words, (self.right, 0.0), (under + slab[2][1]) / 2, is_left=False)
        if tall is None:
            return
        foot, top = self.y(self.face.most), self.y(self.face.most + tall - self._cut_short())
        yield Path((_ring(left, right, foot, top),), Pen(Role.INK, MEDIUM), Role.PAPER, is_closed=True)
        yield from _break(left - 1.5, right + 1.5, foot + 0.28 * (top - foot))
        words = f"{small_words(tall, self.style)} tall"
        yield middle_text(((left + right) / 2, foot + 0.68 * (top - foot)), words, _TYPE)
        yield from self._gap(top, under, MeetingKind.APPLIANCE)

    def _gap(self, low: float, high: float, kind: MeetingKind) -> Iterable[Mark]:
        """Dimension what is free, or lacks, between two heights on the paper."""
        step = next((each.step for each in self.section.meetings if each.kind is kind), None)
        if step is None:
            return
        at = self.middle + 18.0
        if abs(high - low) > 0.3:
            yield from measured((at, low), (at, high), role=Role.CHALK)
        is_below = kind is MeetingKind.APPLIANCE
        place = (at + 2.0, max(min(low, high) - _TYPE, 0.5) if is_below else max(low, high) + 1.0)
        words = _step_words(step, self.style)
        yield Text(place, words, _TYPE, Role.CHALK, is_bold=True, has_halo=True)


def _step_words(step: Range, style: LengthStyle) -> str:
    """Return a step without its sign where it has one only: the drawing shows which side is higher."""
    if step.least < 0.0 < step.most:
        return range_words(step, style)
    least, most = sorted((abs(step.least), abs(step.most)))
    return range_words(Range(least, most), style)


def _layer(layer: StackLayer, ring: Points) -> Iterable[Mark]:
    """Yield a layer: tile plain, a membrane solid, all others hatched each in its way."""
    fill = {LayerRole.TILE: Role.TILE_FACE, LayerRole.MEMBRANE: Role.INK}.get(layer.role or LayerRole.BED)
    yield Path((ring,), Pen(Role.INK, MEDIUM), fill or Role.PAPER, is_closed=True)
    if fill is None and np.ptp(ring[:, 1]) > 2 * HAIRLINE:
        angle, spacing = _HATCHES.get(layer.role, _HATCHES[None])
        yield hatch([ring], spacing=spacing, angle=angle)


def _ring(left: float, right: float, low: float, high: float) -> Points:
    return np.array([(left, low), (right, low), (right, high), (left, high)])


def _break(left: float, right: float, y: float) -> Iterable[Mark]:
    """Yield two jagged lines across, where a part is left out."""
    xs = np.linspace(left, right, 9)
    jagged = np.column_stack([xs, y + 0.5 * (-1.0) ** np.arange(9)])
    up = np.array([0.0, 0.8])
    band = np.vstack([jagged + up, jagged[::-1] - up])
    yield filled((band,), Role.PAPER)
    yield Path((jagged + up, jagged - up), Pen(Role.INK, THIN))


def _spread(places: list[float], lowest: float, apart: float) -> list[float]:
    """Return the places moved up as little as it takes: none below `lowest`, all `apart` from each other."""
    spread: list[float] = []
    for place in places:
        spread.append(max(place, spread[-1] + apart if spread else lowest))
    return spread
