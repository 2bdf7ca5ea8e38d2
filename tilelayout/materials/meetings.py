"""Where the finished floor meets what has a height of its own: a floor, a door, a flange, an appliance."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from tilelayout.job.kinds import CutoutKind
from tilelayout.job.values import Cutout, Edge, Surface, Tile
from tilelayout.materials.stacks import Range, stack_beyond, stack_of


class MeetingKind(StrEnum):
    """What the floor meets."""

    FLOOR = "floor"
    DOOR = "door"
    FLANGE = "flange"
    APPLIANCE = "appliance"


@dataclass(frozen=True)
class Meeting:
    """The finished floor against the height of something, at edge or cutout `at` of the surface.

    `step` is by how much the floor stands above the next one (below it if negative); for a door, how much the
    floor leaves below its underside; for a flange, how much its top stands above the floor; for an appliance,
    how much is left above it under the worktop.
    """

    kind: MeetingKind
    at: int
    step: Range
    is_bevelled: bool = False

    @property
    def place(self) -> str:
        """Where on the surface that is: "edge 2" or "cutout 0", counted from nought."""
        is_at_edge = self.kind in (MeetingKind.FLOOR, MeetingKind.DOOR)
        return f"{'edge' if is_at_edge else 'cutout'} {self.at}"


@dataclass(frozen=True)
class Meetings:
    """All meetings of a floor whose face stands `finished` high, and what is missing to tell."""

    finished: Range | None
    found: tuple[Meeting, ...]
    missing: tuple[str, ...] = ()


def meetings_of(surface: Surface, tile: Tile | None) -> Meetings:
    """Return where the finished floor meets something whose height is known."""
    stack = stack_of(surface, tile)
    if stack.height is None:
        return Meetings(None, (), stack.missing)
    return Meetings(stack.height, tuple(_found(surface, stack.height)))


def has_heights(surface: Surface) -> bool:
    """Tell whether the height of anything that the floor meets is known."""
    return any(
        edge.meets is not None or edge.beyond or edge.door is not None for edge in surface.edges
    ) or any(cutout.meets is not None for cutout in surface.cutouts)


def _found(surface: Surface, finished: Range) -> Iterator[Meeting]:
    for edge in surface.edges:
        yield from _at_edge(edge, finished)
    for index, cutout in enumerate(surface.cutouts):
        yield from _at_cutout(index, cutout, finished)


def _at_edge(edge: Edge, finished: Range) -> Iterator[Meeting]:
    beyond = stack_beyond(edge.beyond).height if edge.beyond else None
    next_floor = edge.meets if beyond is None else beyond.most
    if next_floor is not None:
        yield Meeting(MeetingKind.FLOOR, edge.at, finished.less(next_floor), edge.bevelled)
    if edge.door is not None:
        yield Meeting(MeetingKind.DOOR, edge.at, _below(edge.door, finished))


def _at_cutout(index: int, cutout: Cutout, finished: Range) -> Iterator[Meeting]:
    if cutout.meets is None:
        return
    if cutout.kind is CutoutKind.FLANGE:
        yield Meeting(MeetingKind.FLANGE, index, _below(cutout.meets, finished))
    if cutout.kind is CutoutKind.APPLIANCE and cutout.tall is not None:
        yield Meeting(MeetingKind.APPLIANCE, index, _below(cutout.meets - cutout.tall, finished))


def _below(height: float, finished: Range) -> Range:
    """Return how far a height stands above the finished floor."""
    return Range(height - finished.most, height - finished.least)
