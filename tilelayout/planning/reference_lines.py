"""How well a planned layout keeps to its reference lines, each in mm and in words."""

from __future__ import annotations

from dataclasses import dataclass

from tilelayout.base.units import format_length
from tilelayout.job.kinds import Centred, LineKind
from tilelayout.job.values import ReferenceLine, Surface
from tilelayout.layout.kernel.placed import placed
from tilelayout.layout.lines_in_place import LinesInPlace
from tilelayout.planning.plan import Plan
from tilelayout.planning.wall_names import edge_name

KEPT = 0.05
"""A line missed by less, in mm, is kept: finer than anybody sets out."""


@dataclass(frozen=True)
class LineMiss:
    """One reference line: `what` it asks, by how many mm it is missed (None: it cannot be kept), in words."""

    line: ReferenceLine
    what: str
    miss: float | None
    words: str

    @property
    def is_kept(self) -> bool:
        """Whether the layout keeps to the line."""
        return self.miss is not None and self.miss < KEPT


def line_misses(plan: Plan) -> tuple[LineMiss, ...]:
    """Return how far the plan misses each reference line of its layout, in their order."""
    layout = plan.layout
    lines = LinesInPlace(plan.surface, layout, placed(plan.joint_cell, layout.angle, (0.0, 0.0)))
    misses = lines.misses(layout.start)
    return tuple(_told(line, miss, plan) for line, miss in zip(layout.lines, misses, strict=True))


def line_words(line: ReferenceLine, surface: Surface, plan: Plan) -> str:
    """Return what a line asks, such as "a tile or a joint centred on the doorway"."""
    if line.kind is LineKind.CENTRE:
        put = "a tile or a joint" if line.put is Centred.EITHER else f"a {line.put.value}"
        return f"{put} centred on {_feature(line, surface)}"
    if line.kind is LineKind.JOINT:
        return f"a joint on {line.name or 'the line drawn'}"
    if line.kind is LineKind.FULL_TILE:
        return f"full tiles at {_feature(line, surface)}"
    return f"no joint within {format_length(line.within, plan.style)} of {_feature(line, surface)}"


def _feature(line: ReferenceLine, surface: Surface) -> str:
    if line.name:
        return line.name
    if line.edge is not None:
        return f"the {edge_name(surface, line.edge)}"
    return f"the {line.cutout}" if line.cutout is not None else "the point marked"


def _told(line: ReferenceLine, miss: float | None, plan: Plan) -> LineMiss:
    what = line_words(line, plan.surface, plan)
    if miss is None:
        words = f"{what}: this pattern has nothing that runs there at this angle"
    elif miss < KEPT:
        words = f"{what}: kept"
    else:
        words = f"{what}: {format_length(miss, plan.style)} off"
    return LineMiss(line, what, miss, words[:1].upper() + words[1:])
