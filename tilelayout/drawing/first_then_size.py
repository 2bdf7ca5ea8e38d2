"""Tools that take a first point and then a size from it: by two clicks, by one drag, or by typing."""

from __future__ import annotations

import math
from abc import abstractmethod
from collections.abc import Callable, Mapping
from typing import Generic, TypeVar

from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import Entered, Erased, Escaped, Event, Field, PointerPressed, PointerReleased
from tilelayout.drawing.preview import Preview
from tilelayout.drawing.stage import DRAG_PX, Stage, offer
from tilelayout.job.values import Point

PLACE = (Field.X, Field.Y)
"""What is typed for a first point: how far it is from left and bottom."""

Drawn = TypeVar("Drawn")


class FirstThenSize(Stage, Generic[Drawn]):
    """The first point, once there is one, and the size as drawn or typed."""

    def __init__(self, context: Context, *first_fields: Field) -> None:
        super().__init__(context, *first_fields)
        self.first: Point | None = None
        self._first_fields = first_fields
        self._pressed: Point | None = None

    @property
    def can_step_back(self) -> bool:
        """Esc has something to take back before it ends the tool."""
        return self.first is not None or self.entry.is_typed

    def act(self, event: Event) -> Drawn | None:
        """Set the first point or return what is finished."""
        match event:
            case PointerPressed(point):
                self._pressed = point
                return self._accept()
            case PointerReleased(point) if self._was_dragged(point):
                return self._accept()
            case Entered():
                return self._accept()
            case Escaped() | Erased():
                self._step_back()
        return None

    @abstractmethod
    def drawn(self) -> Mapping[Field, float]:
        """Return the sizes of what is drawn now."""

    @abstractmethod
    def preview(self) -> Preview:
        """Show what would be made."""

    @abstractmethod
    def accept(self) -> Drawn | None:
        """Take the point or the size that is pointed at or typed; return what is finished."""

    def let_go(self) -> None:
        """Forget the first point."""
        self.first = None
        self.entry = self.entry.of(*self._first_fields)

    def _accept(self) -> Drawn | None:
        return None if self.entry.wrong() else self.accept()

    def _was_dragged(self, point: Point) -> bool:
        if self._pressed is None or self.first is None or self.pointer is None:
            return False
        return math.dist(point, self._pressed) * self.pointer.px_per_mm > DRAG_PX

    def _step_back(self) -> None:
        if self.entry.is_typed:
            self.entry = self.entry.emptied()
        elif self.first is not None:
            self.let_go()


def draw(stage: FirstThenSize[Drawn], change: Callable[[Drawn], Change]) -> Tool:
    """Offer the change that what is drawn makes; end when it is taken, or at Esc with nothing to undo."""
    while True:
        event = yield stage.preview()
        if stage.takes(event, stage.drawn()):
            continue
        if isinstance(event, Escaped) and not stage.can_step_back:
            return
        made = stage.act(event)
        if made is None:
            continue
        stage.trouble = yield from offer(change(made))
        if not stage.trouble:
            return
