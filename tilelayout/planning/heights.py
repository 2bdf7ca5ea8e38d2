"""Finished heights of a floor as it is planned, with the words for them: one call for window and sheets."""

from __future__ import annotations

from dataclasses import dataclass

from tilelayout.base.units import LengthStyle, format_length
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
        layers = [
            f"{layer.name} {_range_words(layer.thickness, self.style)}"
            for layer in reversed(self.stack.layers)
        ]
        height = self.meetings.finished
        total = (
            f"not known without {' and '.join(self.stack.missing)}"
            if height is None
            else _range_words(height, self.style)
        )
        return f"{', '.join(layers)}: {total}"

    @property
    def meeting_words(self) -> tuple[str, ...]:
        """One line for each thing that the floor meets."""
        return tuple(_meeting_words(meeting, self.surface, self.style) for meeting in self.meetings.found)


def heights(job: Job, layout_id: str) -> Heights:
    """Return the finished heights of a layout. LayoutError if the job has no such layout."""
    layout = layout_named(job, layout_id)
    surface, tile = job.surface(layout.surface), job.tile(layout.tile)
    found = tuple(rules.findings(Case(job, surface, tile, layout)))
    return Heights(surface, job.show_lengths, stack_of(surface, tile), meetings_of(surface, tile), found)


def _meeting_words(meeting: Meeting, surface: Surface, style: LengthStyle) -> str:
    said = _range_words(meeting.step, style)
    step = meeting.step
    if meeting.kind is MeetingKind.FLOOR:
        place = edge_name(surface, meeting.at)
        if step.least == step.most == 0.0:
            return f"{place}: flush with the floor beyond"
        if step.least < 0.0 < step.most:
            below, above = format_length(-step.least, style), format_length(step.most, style)
            return f"{place}: from {below} below to {above} above the floor beyond"
        if step.most <= 0.0:
            said = _range_words(Range(-step.most, -step.least), style)
        return f"{place}: {said} {'above' if step.most > 0.0 else 'below'} the floor beyond"
    if meeting.kind is MeetingKind.DOOR:
        return f"{edge_name(surface, meeting.at)}: {said} free under the door"
    name = surface.cutouts[meeting.at].name or f"cutout {meeting.at + 1}"
    if meeting.kind is MeetingKind.FLANGE:
        return f"{name}: its top {said} above the finished floor"
    return f"{name}: {said} to spare under the worktop"


def _range_words(lengths: Range, style: LengthStyle) -> str:
    least, most = format_length(lengths.least, style), format_length(lengths.most, style)
    return least if least == most else f"{least} to {most}"
