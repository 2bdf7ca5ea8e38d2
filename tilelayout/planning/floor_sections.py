"""A floor cut through at each place where it meets something of a height: what a drawn section shows.

One value serves the window and the sheets. A place of which no height was said has a section too, with what
to find out, so that nothing which may trip a person is passed over in silence.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilelayout.base.units import LengthStyle
from tilelayout.job.kinds import CutoutKind
from tilelayout.job.values import Cutout, Edge, EdgeRole, Job, Layout, Surface, SurfaceKind
from tilelayout.materials.meetings import Meeting, Meetings, meetings_of
from tilelayout.materials.stacks import MISSING_BED, MISSING_TILE, Stack, stack_beyond, stack_of
from tilelayout.planning.heights import meeting_words, stack_words
from tilelayout.planning.wall_names import stretch_name
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Finding
from tilelayout.practice.subjects import heights as rules


@dataclass(frozen=True)
class Section:
    """What stands beside what at one place of a surface. Heights in mm above its bare base.

    `place` is "edge 2" or "cutout 0", counted from nought; "" is the stack alone. `near` are its layers.
    Of an edge `beyond` are the layers past it and `next_top` is the height of their top, `door` that of a
    door's underside; a `cutout` is a flange or an appliance. `says` tells what is so, or what to find out;
    `limits` what holds there, each with its source.
    """

    place: str
    title: str
    near: Stack
    beyond: Stack | None = None
    next_top: float | None = None
    door: float | None = None
    cutout: Cutout | None = None
    is_wall: bool = False
    meetings: tuple[Meeting, ...] = ()
    says: tuple[str, ...] = ()
    limits: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def is_known(self) -> bool:
        """Whether the height of the finished face is known, so that the section can be drawn."""
        return self.near.height is not None

    @property
    def is_met(self) -> bool:
        """Whether the height of anything beside the floor is known."""
        return bool(self.meetings)


def sections_of(job: Job, surface: Surface, layout: Layout | None) -> tuple[Section, ...]:
    """Return the stack of a surface, then a section for each place where its height counts."""
    tile = None if layout is None else job.tile(layout.tile)
    case = None if layout is None or tile is None else Case(job, surface, tile, layout)
    cut = _Cut(surface, job.show_lengths, stack_of(surface, tile), meetings_of(surface, tile), case)
    places = () if surface.kind is SurfaceKind.WALL else (*_at_edges(cut), *_at_cutouts(cut))
    return (_stack_alone(cut), *places)


@dataclass(frozen=True)
class _Cut:
    """What all sections of one surface share."""

    surface: Surface
    style: LengthStyle
    stack: Stack
    meetings: Meetings
    case: Case | None

    def at(self, place: str) -> tuple[Meeting, ...]:
        return tuple(each for each in self.meetings.found if each.place == place)

    def found(self, place: str) -> tuple[Finding, ...]:
        if self.case is None:
            return ()
        return tuple(each for each in rules.findings(self.case) if each.place == place)

    def limits(self, meetings: tuple[Meeting, ...]) -> tuple[str, ...]:
        case = self.case
        return () if case is None else tuple(rules.limit_words(case, meeting) for meeting in meetings)

    def says(self, meetings: tuple[Meeting, ...], ask: str) -> tuple[str, ...]:
        words = tuple(meeting_words(meeting, self.surface, self.style) for meeting in meetings)
        return words or (ask,)


def _stack_alone(cut: _Cut) -> Section:
    words = f"{cut.surface.title}: {stack_words(cut.stack, cut.style)}."
    is_wall = cut.surface.kind is SurfaceKind.WALL
    return Section("", "Layers", cut.stack, is_wall=is_wall, says=(words,), findings=cut.found(""))


def _at_edges(cut: _Cut) -> Iterator[Section]:
    for at in range(len(cut.surface.outline)):
        edge = cut.surface.edge(at)
        if edge.role in (EdgeRole.DOORWAY, EdgeRole.OPEN) or _has_heights(edge):
            yield _at_edge(cut, edge)


def _has_heights(edge: Edge) -> bool:
    return edge.meets is not None or bool(edge.beyond) or edge.door is not None


def _at_edge(cut: _Cut, edge: Edge) -> Section:
    beyond = stack_beyond(edge.beyond) if edge.beyond else None
    known = None if beyond is None else beyond.height
    place = f"edge {edge.at}"
    meetings = cut.at(place)
    return Section(
        place,
        _capital(stretch_name(cut.surface, edge.at)),
        cut.stack,
        beyond,
        edge.meets if known is None else known.most,
        edge.door,
        meetings=meetings,
        says=cut.says(meetings, _ask_for(cut, edge)),
        limits=cut.limits(meetings),
        findings=cut.found(place),
    )


def _ask_for(cut: _Cut, edge: Edge) -> str:
    if _has_heights(edge):
        return f"To tell the step, {_wanted(cut.stack)}."
    return "Say how high the floor beyond stands above the bare base here, or of what it is built."


def _at_cutouts(cut: _Cut) -> Iterator[Section]:
    for index, cutout in enumerate(cut.surface.cutouts):
        if cutout.kind is not None:
            place = f"cutout {index}"
            meetings = cut.at(place)
            yield Section(
                place,
                _capital(cutout.name or f"cutout {index + 1}"),
                cut.stack,
                cutout=cutout,
                meetings=meetings,
                says=cut.says(meetings, _ask_for_cutout(cut, cutout)),
                limits=cut.limits(meetings),
                findings=cut.found(place),
            )


def _ask_for_cutout(cut: _Cut, cutout: Cutout) -> str:
    is_flange = cutout.kind is CutoutKind.FLANGE
    if is_flange and cutout.meets is None:
        return "Say how high its top stands above the bare base."
    if not is_flange and (cutout.meets is None or cutout.tall is None):
        return (
            "Say how high the worktop's underside stands above the bare base, and how tall the appliance is."
        )
    return f"To tell what is left, {_wanted(cut.stack)}."


def _wanted(stack: Stack) -> str:
    """Return what to do so that the height of the face is known."""
    return " and ".join(_WANTED[missing] for missing in stack.missing)


_WANTED = {
    MISSING_BED: "say how thick the bed of the adhesive is",
    MISSING_TILE: "choose the tile",
}


def _capital(name: str) -> str:
    return name[:1].upper() + name[1:]
