"""Whether the finished floor meets what is beside it: no edge to trip over, no door that scrapes, no trap.

The limits of a change of level are those of accessible routes, and good practice at home. Which rules hold at
a given doorway is for the local code to say.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tilelayout.job.kinds import CutoutKind, Practice
from tilelayout.job.values import Surface
from tilelayout.materials.meetings import Meeting, MeetingKind, has_heights, meetings_of
from tilelayout.practice.case import Case
from tilelayout.practice.finding import COMMON_PRACTICE, Figure, Finding, Grade, Level, Source

_ADA = Source("ADA Standards, 303, changes in level", Grade.QUOTED, Practice.US)
UPRIGHT = Figure(25.4 / 4, _ADA, metric=6.0)
BEVELLED = Figure(25.4 / 2, _ADA, metric=13.0)
"""The largest step with an upright edge, and with one bevelled 1:2; more needs a ramp."""

_FLANGE = Source("how-to articles on toilet flanges", Grade.HOW_TO)
FLANGE = (Figure(0.0, _FLANGE), Figure(25.4 * 3 / 8, _FLANGE, metric=9.5))
"""How far the top of a flange may stand above the floor: about 1/4 in, to 3/8 in accepted."""

DOOR = Figure(25.4 / 4, COMMON_PRACTICE, metric=6.0)
"""What a door wants free under it."""


def findings(case: Case) -> Iterator[Finding]:
    """Yield trip edges, doors that scrape, flanges too low or high, appliances shut in; walls have none."""
    if case.is_wall or not has_heights(case.surface):
        return
    meetings = meetings_of(case.surface, case.tile)
    unknown = [(name, "surface.adhesive.bed", None) for name in meetings.missing]
    yield from case.missing("heights-unknown", "where its finished face stands", *unknown)
    yield from _appliances_to_measure(case)
    for meeting in meetings.found:
        yield from _RULES[meeting.kind](case, meeting)


def place_name(surface: Surface, meeting: Meeting) -> str:
    """Return what to call the edge or cutout of a meeting: its own name, or what it is and its number."""
    if meeting.kind in (MeetingKind.FLOOR, MeetingKind.DOOR):
        edge = surface.edge(meeting.at)
        return edge.name or f"the {str(edge.role).replace('-', ' ')} at edge {meeting.at + 1}"
    return surface.cutouts[meeting.at].name or f"cutout {meeting.at + 1}"


def limit_words(case: Case, meeting: Meeting) -> str:
    """Return what holds at a meeting, in a sentence with its source."""
    edge = "Bevelled 1:2, a step" if meeting.is_bevelled else "An upright step"
    words, source = {
        MeetingKind.FLOOR: (f"{edge} may be {case.said(case.limit(_step_figure(meeting)))}", _ADA),
        MeetingKind.DOOR: (f"A door wants {case.said(case.limit(DOOR))} free under it", DOOR.source),
        MeetingKind.FLANGE: (f"Its top may stand level to {case.said(case.limit(FLANGE[1]))} above", _FLANGE),
        MeetingKind.APPLIANCE: ("It must come out again once the floor is laid", COMMON_PRACTICE),
    }[meeting.kind]
    return f"{words}: {source.words}."


def _step_figure(meeting: Meeting) -> Figure:
    return BEVELLED if meeting.is_bevelled else UPRIGHT


def _trip(case: Case, meeting: Meeting) -> Iterator[Finding]:
    step, place = meeting.step.farthest, place_name(case.surface, meeting)
    figure = _step_figure(meeting)
    limit = case.limit(figure)
    if not case.is_more(abs(step), limit):
        return
    may_be_bevelled = not case.is_more(abs(step), case.limit(BEVELLED))
    mend = "Bevel it 1:2 or ease it with a strip." if may_be_bevelled else "It wants a ramp or other layers."
    edge = "a bevelled" if meeting.is_bevelled else "an upright"
    words = (
        f"{case.where} stands {case.said(abs(step))} {'above' if step > 0 else 'below'} the floor beyond "
        f"{place}: {edge} step trips people from {case.said(limit)} on. {mend}"
    )
    level = case.at_home(Level.WARN, figure.source)
    yield Finding("trip-edge", level, case.ids, words, figure.source, abs(step), limit, place=meeting.place)


def _door(case: Case, meeting: Meeting) -> Iterator[Finding]:
    free, wanted = meeting.step.least, case.limit(DOOR)
    if case.is_less(free, wanted):
        leaves = f"leaves {case.said(free)}" if free >= 0 else f"stands {case.said(-free)} too high"
        words = (
            f"{case.where} {leaves} under the door at {place_name(case.surface, meeting)}: cut the door by "
            f"{case.said(wanted - free)} before tiling, and the jambs to the height of the tile."
        )
        yield Finding("door", Level.WARN, case.ids, words, DOOR.source, free, wanted, place=meeting.place)


def _flange(case: Case, meeting: Meeting) -> Iterator[Finding]:
    low, high = (case.limit(figure) for figure in FLANGE)
    place, least, most = place_name(case.surface, meeting), meeting.step.least, meeting.step.most
    if case.is_less(least, low):
        words = (
            f"{place} ends {case.said(-least)} below the finished {case.where}: raise it with a ring that "
            "its maker allows, so that it seals. Leave it to a licensed plumber where the code says so."
        )
        yield Finding("flange-low", Level.WARN, case.ids, words, _FLANGE, least, low, place=meeting.place)
    elif case.is_more(most, high):
        words = (
            f"{place} stands {case.said(most)} above the finished {case.where}, over {case.said(high)}: the "
            "bowl would rock. Raise the floor, or have the flange lowered."
        )
        yield Finding("flange-high", Level.WARN, case.ids, words, _FLANGE, most, high, place=meeting.place)


def _appliance(case: Case, meeting: Meeting) -> Iterator[Finding]:
    free, place = meeting.step.least, place_name(case.surface, meeting)
    if case.is_less(free, 0.0):
        words = (
            f"{case.where} leaves {place} {case.said(-free)} too little height under its worktop: it could "
            "not be taken out or put back. Tile under it before it is set, lower it, or raise the worktop."
        )
        yield Finding(
            "appliance", Level.STOP, case.ids, words, COMMON_PRACTICE, free, 0.0, place=meeting.place
        )


def _appliances_to_measure(case: Case) -> Iterator[Finding]:
    for index, cutout in enumerate(case.surface.cutouts):
        if cutout.kind is CutoutKind.APPLIANCE and cutout.meets is not None:
            name = f"how tall {cutout.name or 'the appliance'} is on its lowest feet"
            tall, place = (name, "cutout.tall", cutout.tall), f"cutout {index}"
            yield from case.missing("heights-unknown", "whether the appliance fits", tall, place=place)


_RULES: dict[MeetingKind, Callable[[Case, Meeting], Iterator[Finding]]] = {
    MeetingKind.FLOOR: _trip,
    MeetingKind.DOOR: _door,
    MeetingKind.FLANGE: _flange,
    MeetingKind.APPLIANCE: _appliance,
}
