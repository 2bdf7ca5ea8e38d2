"""Finished heights of a floor as it is planned, with the words for them: one call for window and sheets."""

from __future__ import annotations

from dataclasses import dataclass

from tilelayout.base.heights import height_style
from tilelayout.base.units import INCH, LengthStyle, format_length
from tilelayout.job.values import Job, Surface
from tilelayout.materials.meetings import Meeting, MeetingKind, Meetings, meetings_of
from tilelayout.materials.stacks import Range, Stack, stack_of
from tilelayout.planning.plan import layout_named
from tilelayout.planning.wall_names import edge_name
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Finding
from tilelayout.practice.subjects import heights as rules


@dataclass(frozen=True)
class Heights:
    """The stack of a layout's floor, what it meets, and what the rules find. Heights above the bare base."""

    surface: Surface
    style: LengthStyle
    stack: Stack
    meetings: Meetings
    findings: tuple[Finding, ...]

    @property
    def stack_words(self) -> str:
        """The layers and their sum: "tile 10 mm, bed 3 mm to 5 mm, board 6 mm: 19 mm to 21 mm"."""
        return stack_words(self.stack, self.style)

    @property
    def meeting_words(self) -> tuple[str, ...]:
        """One line for each thing that the floor meets."""
        return tuple(meeting_words(meeting, self.surface, self.style) for meeting in self.meetings.found)


def heights(job: Job, layout_id: str) -> Heights:
    """Return the finished heights of a layout. LayoutError if the job has no such layout."""
    layout = layout_named(job, layout_id)
    surface, tile = job.surface(layout.surface), job.tile(layout.tile)
    found = tuple(rules.findings(Case(job, surface, tile, layout)))
    return Heights(surface, job.show_lengths, stack_of(surface, tile), meetings_of(surface, tile), found)


def stack_words(stack: Stack, style: LengthStyle) -> str:
    """Return the layers, the uppermost first, and their sum; or what is missing to add them up."""
    layers = [f"{layer.name} {range_words(layer.thickness, style)}" for layer in reversed(stack.layers)]
    height = stack.height
    if height is None:
        total = f"not known without {' and '.join(stack.missing)}"
    else:
        total = range_words(height, style)
    return f"{', '.join(layers) or 'no layers yet'}: {total}"


def meeting_words(meeting: Meeting, surface: Surface, style: LengthStyle) -> str:
    """Return what the floor does at a meeting, in a line that begins with the name of the place."""
    step, flush = meeting.step, _FLUSH_WORDS[meeting.kind]
    over, under = _STEP_WORDS[meeting.kind]
    if step.least == step.most == 0.0 and flush:
        said = flush
    elif step.least < 0.0 < step.most:
        below, above = small_words(-step.least, style), small_words(step.most, style)
        said = f"from {below} {under} to {above} {over}"
    elif step.least < 0.0:
        said = f"{range_words(Range(-step.most, -step.least), style)} {under}"
    else:
        said = f"{range_words(step, style)} {over}"
    return f"{_place_words(meeting, surface)}: {said} {_BESIDE_WORDS[meeting.kind]}"


def _place_words(meeting: Meeting, surface: Surface) -> str:
    if meeting.kind in (MeetingKind.FLOOR, MeetingKind.DOOR):
        return edge_name(surface, meeting.at)
    return surface.cutouts[meeting.at].name or f"cutout {meeting.at + 1}"


_STEP_WORDS = {
    MeetingKind.FLOOR: ("above", "below"),
    MeetingKind.DOOR: ("free", "too little"),
    MeetingKind.FLANGE: ("above", "below"),
    MeetingKind.APPLIANCE: ("to spare", "too little"),
}
_FLUSH_WORDS = {
    MeetingKind.FLOOR: "flush with",
    MeetingKind.DOOR: "",
    MeetingKind.FLANGE: "its top level with",
    MeetingKind.APPLIANCE: "",
}
_BESIDE_WORDS = {
    MeetingKind.FLOOR: "the floor beyond",
    MeetingKind.DOOR: "under the door",
    MeetingKind.FLANGE: "the finished floor",
    MeetingKind.APPLIANCE: "under the worktop",
}


def range_words(lengths: Range, style: LengthStyle) -> str:
    """Return a range of small lengths in words, a single one if its ends read the same."""
    least, most = small_words(lengths.least, style), small_words(lengths.most, style)
    return least if least == most else f"{least} to {most}"


def small_words(length: float, style: LengthStyle) -> str:
    """Return a thickness or a step in words: in mm, or in inches with 64ths up to an inch, then 16ths.

    >>> small_words(19.0, LengthStyle.M), small_words(7.540625, LengthStyle.FEET)
    ('19 mm', '19/64"')
    """
    fraction = _FINEST if abs(length) < float(INCH) else _USUAL
    return format_length(length, height_style(style), fraction=fraction)


_FINEST, _USUAL = 64, 16
