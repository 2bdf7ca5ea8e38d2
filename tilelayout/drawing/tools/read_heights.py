"""Enters height readings: type a height, Enter, and the next place of the grid waits for its own.

The places follow each other in the order of the walk. A press goes to the reading or place that is near,
else to the very point; so readings can be put right, and taken where no grid has a place.
"""

from __future__ import annotations

from collections.abc import Callable, Generator
from dataclasses import replace
from math import dist

from tilelayout.base.heights import format_height, height_style
from tilelayout.drawing.context import Answer, Change, Context, Tool
from tilelayout.drawing.entry import Entry
from tilelayout.drawing.events import (
    Deleted,
    Entered,
    Escaped,
    Event,
    Field,
    FieldStepped,
    Nudged,
    Pointer,
    PointerPressed,
)
from tilelayout.drawing.preview import Box, Preview, SnapKind, SnapMarker
from tilelayout.drawing.stage import Stage, offer
from tilelayout.drawing.walk import Walk, places_of
from tilelayout.job.edits.readings import enter_reading, erase_reading, reading_at, survey_of
from tilelayout.job.values import Point, Survey

READ = "read_heights"
"""What a board calls the tool; it is made for a walk, so it is not among the tools that are always there."""

_ASIDE = 2.0
"""What lies aside counts so much more than what lies ahead when an arrow looks for the next place."""


def _always() -> str:
    return ""


def read_heights(context: Context, walk: Callable[[], Walk], instead: Callable[[], str] = _always) -> Tool:
    """Take readings until Esc with nothing typed.

    While `instead` has words, readings are not what is asked about: it only says those.
    """
    reading = _Reading(context, walk)
    while True:
        words = instead()
        event = yield Preview(hint=words) if words else reading.preview()
        if isinstance(event, Escaped):
            if words or not reading.can_step_back:
                return
            reading.step_back()
        elif not words and not reading.takes(event, {}):
            yield from reading.act(event)


class _Reading(Stage):
    """The place in front and what is typed for it."""

    def __init__(self, context: Context, walk: Callable[[], Walk]) -> None:
        super().__init__(context, Field.READING)
        self.entry = self._empty()
        self._walk = walk
        self._at: Point | None = None

    @property
    def can_step_back(self) -> bool:
        """Esc has something to take back before it ends the tool."""
        return self.entry.is_typed or self.entry.active is not None

    def step_back(self) -> None:
        """Forget what is typed; then put the box away."""
        self.entry = replace(self._empty(), active=Field.READING if self.entry.is_typed else None)

    def takes(self, event: Event, drawn: object) -> bool:
        """Note pointer and typing; the box keeps to small lengths whatever the job's are."""
        if isinstance(event, FieldStepped):
            return False
        is_all = super().takes(event, {})
        self.entry = replace(self.entry, style=height_style(self.context.read_job().show_lengths))
        return is_all

    def act(self, event: Event) -> Generator[Answer, Event, None]:
        """Go to a place, enter what is typed for it, or take its reading away."""
        match event:
            case PointerPressed():
                self._go_to(self._near(event))
            case FieldStepped(back):
                self._step(-1 if back else 1)
            case Nudged(dx, dy):
                self._go_to(self._beside(dx, dy))
            case Entered():
                yield from self._enter()
            case Deleted():
                yield from self._erase()

    def preview(self) -> Preview:
        """Show the places without a reading, the one in front, and the box for its height."""
        places, survey = self._places(), self._survey()
        open_places = tuple(place for place in places if reading_at(survey, place) is None)
        at = self._here()
        marker = SnapMarker(SnapKind.END, at, self._words(at, places, survey)) if at is not None else None
        return Preview(
            hint=self._hint(len(open_places), len(places)),
            trouble=self.wrong_words(),
            corners=open_places,
            marker=marker,
            boxes=self._boxes(at, survey),
            box_point=at,
        )

    def _enter(self) -> Generator[Answer, Event, None]:
        height, at, surface = self.entry.values().get(Field.READING), self._here(), self.context.surface_id
        if self.entry.wrong() or at is None or surface is None:
            return
        self._at = at
        if height is not None:
            change = Change("Enter reading", lambda job: enter_reading(job, surface, (*at, height)))
            self.trouble = yield from offer(change)
            if self.trouble:
                return
        self._step(1)

    def _erase(self) -> Generator[Answer, Event, None]:
        at, surface = self._here(), self.context.surface_id
        index = None if at is None else reading_at(self._survey(), at)
        if index is not None and surface is not None:
            change = Change("Erase reading", lambda job: erase_reading(job, surface, index))
            self.trouble = yield from offer(change)

    def _go_to(self, point: Point | None) -> None:
        self._at = point
        self.entry = replace(self._empty(), active=Field.READING)

    def _step(self, by: int) -> None:
        """Go on along the walk: forward to the next place without a reading, back to the one before."""
        places, at = self._places(), self._here()
        if not places or at is None:
            self._go_to(at)
            return
        here = min(range(len(places)), key=lambda k: dist(places[k], at))
        order = [(here + by * k) % len(places) for k in range(1, len(places) + 1)]
        survey = self._survey()
        ahead = [k for k in order if by < 0 or reading_at(survey, places[k]) is None]
        self._go_to(places[ahead[0] if ahead else order[0]])

    def _near(self, press: Pointer) -> Point:
        """The reading or open place within reach of a press, else the point itself."""
        survey = self._survey()
        known = [] if survey is None else [(x, y) for x, y, _ in survey.points]
        spots = [*known, *self._places()]
        nearest = min(spots, key=lambda spot: dist(spot, press.point), default=press.point)
        is_near = dist(nearest, press.point) * press.px_per_mm <= self.context.snap_px
        return nearest if is_near and not press.snaps_suspended else press.point

    def _beside(self, dx: int, dy: int) -> Point | None:
        """The next place or reading the way an arrow points; where it is if there is none."""
        at, survey = self._here(), self._survey()
        if at is None:
            return None
        spots = [*self._places(), *((x, y) for x, y, _ in (survey.points if survey else ()))]
        off = [(spot, spot[0] - at[0], spot[1] - at[1]) for spot in spots]
        ahead = [(spot, x * dx + y * dy, abs(x * dy) + abs(y * dx)) for spot, x, y in off]
        ahead = [each for each in ahead if each[1] > max(each[2], 1.0)]
        return min(ahead, key=lambda each: each[1] + _ASIDE * each[2], default=(at, 0.0, 0.0))[0]

    def _here(self) -> Point | None:
        """The place in front: where the person went, else the first that has no reading."""
        if self._at is not None:
            return self._at
        places, survey = self._places(), self._survey()
        return next((place for place in places if reading_at(survey, place) is None), (*places, None)[0])

    def _places(self) -> tuple[Point, ...]:
        surface = self.context.surface
        return () if surface is None else places_of(surface, self._walk())

    def _survey(self) -> Survey | None:
        return survey_of(self.context.read_job(), self.context.surface_id or "")

    def _empty(self) -> Entry:
        return Entry((Field.READING,), height_style(self.context.read_job().show_lengths))

    def _boxes(self, at: Point | None, survey: Survey | None) -> tuple[Box, ...]:
        if at is None:
            return ()
        index = reading_at(survey, at)
        height = None if survey is None or index is None else survey.points[index][2]
        (box,) = self.entry.boxes({})
        if box.is_typed or height is None:
            return (box,)
        return (replace(box, text=format_height(height, self.style)),)

    def _words(self, at: Point, places: tuple[Point, ...], survey: Survey | None) -> str:
        if reading_at(survey, at) is not None:
            return "reading"
        return f"place {places.index(at) + 1} of {len(places)}" if at in places else "here"

    def _hint(self, left: int, count: int) -> str:
        if not count:
            return "Click where a height was read, type it, Enter."
        if not left:
            return "Every place of the grid has its height. Click a reading to change it; Delete erases it."
        return f"Type the height at the marked place, Enter leads to the next: {left} of {count} are left."
