"""The typed boxes: what stands in them, which one is active, which values are kept.

A text stays a text until it is needed as a number, so what a person typed is never read back from what was
shown. A box with a text in it, or locked, fixes its value; an empty one shows what is drawn.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from tilelayout.base.errors import LengthError, TileLayoutError
from tilelayout.base.units import LengthStyle, format_length, parse_length
from tilelayout.drawing.events import (
    Erased,
    Event,
    Field,
    FieldChosen,
    FieldStepped,
    KeyTyped,
    LockToggled,
    Typed,
)
from tilelayout.drawing.preview import Box

_SIGNED = {Field.DX, Field.DY, Field.X, Field.Y, Field.RISE, Field.READING}
_STARTS_A_NUMBER = "0123456789.,-"
_NOTHING: Mapping[Field, float] = {}


@dataclass(frozen=True)
class Entry:
    """The boxes `fields` in order, the texts typed in them and the values that are kept (locked)."""

    fields: tuple[Field, ...]
    style: LengthStyle
    texts: Mapping[Field, str] = field(default_factory=dict)
    kept: Mapping[Field, float] = field(default_factory=dict)
    active: Field | None = None

    @property
    def is_typed(self) -> bool:
        """A text stands in at least one box."""
        return bool(self.texts)

    def after(self, event: Event, drawn: Mapping[Field, float] = _NOTHING) -> Entry | None:
        """Return the boxes after an event, or None if the event is none of theirs.

        `drawn` are the values as drawn now: what a lock keeps if nothing was typed.
        """
        match event:
            case KeyTyped(text):
                return self._with_key(text)
            case Erased() if self.active is not None and self.active in self.texts:
                return self._with_text(self.active, self.texts[self.active][:-1])
            case FieldStepped(back) if self.fields:
                return replace(self, active=self._beside(-1 if back else 1))
            case Typed() | FieldChosen() | LockToggled() if event.field in self.fields:
                return self._at_box(event, drawn)
        return None

    def values(self) -> dict[Field, float]:
        """The values that are fixed: kept ones and typed ones that can be read, in mm and degrees."""
        fixed = {which: value for which, value in self.kept.items() if which in self.fields}
        for which, text in self.texts.items():
            try:
                fixed[which] = read_value(which, text, self.style)
            except TileLayoutError:
                fixed.pop(which, None)
        return fixed

    def wrong(self) -> dict[Field, str]:
        """What is wrong with the texts that cannot be read, with what would be right."""
        found = {}
        for which, text in self.texts.items():
            try:
                read_value(which, text, self.style)
            except TileLayoutError as error:
                found[which] = str(error)
        return found

    def cleared(self) -> Entry:
        """The boxes emptied, once their values were used; a locked box keeps what was typed in it."""
        fixed = self.values()
        kept = {which: fixed.get(which, value) for which, value in self.kept.items()}
        return replace(self, texts={}, kept=kept, active=None)

    def emptied(self) -> Entry:
        """The boxes as they were before anything was typed in them."""
        return replace(self, texts={}, active=None)

    def of(self, *fields: Field) -> Entry:
        """Boxes of other fields, keeping what is locked; the same boxes if they are the same fields."""
        if fields == self.fields:
            return self
        active = self.active if self.active in fields else None
        return replace(self.cleared(), fields=fields, active=active)

    def boxes(self, drawn: Mapping[Field, float]) -> tuple[Box, ...]:
        """The boxes to show; an untyped one shows its kept value, else its value in `drawn`."""
        wrong = self.wrong()
        shown = {**drawn, **self.kept}
        return tuple(self._box(which, shown, wrong) for which in self.fields)

    def _box(self, which: Field, shown: Mapping[Field, float], wrong: Mapping[Field, str]) -> Box:
        text = show_value(which, shown[which], self.style) if which in shown else ""
        return Box(
            field=which,
            label=which.value,
            text=self.texts.get(which, text),
            is_typed=which in self.texts,
            is_locked=which in self.kept,
            is_active=which == self.active,
            wrong=wrong.get(which, ""),
        )

    def _at_box(self, event: Typed | FieldChosen | LockToggled, drawn: Mapping[Field, float]) -> Entry:
        match event:
            case Typed(which, text):
                return self._with_text(which, text)
            case FieldChosen(which):
                return replace(self, active=which)
            case LockToggled(which):
                return self._with_lock_toggled(which, drawn)

    def _with_key(self, text: str) -> Entry | None:
        if not self.fields or not text.isprintable() or not text:
            return None
        active = self.active or self.fields[0]
        so_far = self.texts.get(active, "")
        if not so_far and text[0] not in _STARTS_A_NUMBER:
            return None
        return self._with_text(active, so_far + text)

    def _with_text(self, which: Field, text: str) -> Entry:
        others = {other: kept for other, kept in self.texts.items() if other != which}
        return replace(self, texts={**others, which: text} if text.strip() else others, active=which)

    def _with_lock_toggled(self, which: Field, drawn: Mapping[Field, float]) -> Entry:
        if which in self.kept:
            return replace(self, kept={other: value for other, value in self.kept.items() if other != which})
        now = {**drawn, **self.values()}
        if which not in now or which in self.wrong():
            return replace(self, active=which)
        return replace(self, kept={**self.kept, which: now[which]}, active=which)

    def _beside(self, step: int) -> Field:
        if self.active not in self.fields:
            return self.fields[0 if step > 0 else -1]
        return self.fields[(self.fields.index(self.active) + step) % len(self.fields)]


def read_value(which: Field, text: str, style: LengthStyle) -> float:
    """Read what was typed in a box: mm, or degrees for an angle; TileLayoutError says what would be right."""
    if which is Field.ANGLE:
        return _read_angle(text)
    value = parse_length(text, style, signed=which in _SIGNED)
    if which not in _SIGNED and value <= 0:
        forms = (format_length(2438.4, style), format_length(609.6, style))
        raise LengthError(text, f"the {which.value} must be more than 0", forms)
    return value


def show_value(which: Field, value: float, style: LengthStyle) -> str:
    """Write a value as its box shows it."""
    return show_angle(value) if which is Field.ANGLE else format_length(value, style)


def show_angle(degrees: float) -> str:
    """Write an angle to a tenth of a degree: `90°`, `22.5°`.

    >>> show_angle(22.5)
    '22.5°'
    """
    return f"{round(degrees, 1) + 0.0:g}°"


def _read_angle(text: str) -> float:
    bare = text.strip().removesuffix("°").removesuffix("deg").strip().replace(",", ".")
    try:
        value = float(bare)
    except ValueError:
        value = math.nan
    if not -360 <= value <= 360:
        what = f"“{text.strip()[:40]}” is no angle: it is in degrees, from -360 to 360."
        raise TileLayoutError(what, "Write 90 or 22.5.")
    return value
