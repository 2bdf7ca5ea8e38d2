"""What a tool may know of the world, and how it answers.

A tool is a generator. It yields previews and is sent events; when it wants the job changed it yields a
`Change` instead and is sent whether that was accepted. It never changes anything itself. A drag offers its
steps under one gesture; to give the drag up it offers the step that leads back, and the session then
forgets the whole of it.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tilelayout.drawing.events import Event
from tilelayout.drawing.preview import Preview, SnapKind
from tilelayout.drawing.wish import Wish
from tilelayout.job.values import Job, Layout, Point, Surface, SurfaceKind

SNAP_PX = 12.0
"""How near in screen pixels the pointer must be to snap: half of the 24 px that a hand can grab."""


@dataclass(frozen=True)
class Change:
    """An edit to apply, under a name for the undo list; equal `gesture` makes one step of several."""

    label: str
    edit: Callable[[Job], Job]
    gesture: object | None = None


Answer = Preview | Change
Tool = Generator[Answer, Event, None]


@dataclass(frozen=True, eq=False)
class PlacedPattern:
    """The layout's tile faces where they lie: `faces` (m, 2) each, repeated by the rows of `vectors` (2, 2).

    The first face is the one whose reference corner, or centre, stands at the layout's start. `wishes` are
    the starts that keep to the layout's reference lines.
    """

    faces: tuple[NDArray[np.float64], ...]
    vectors: NDArray[np.float64]
    wishes: tuple[Wish, ...] = ()


def _no_piece(_point: Point) -> str | None:
    return None


def _no_pieces() -> Sequence[tuple[str, Point]]:
    return ()


def _no_pattern() -> PlacedPattern | None:
    return None


@dataclass(frozen=True)
class Context:
    """The job and what is shown of it.

    `read_job` gives the job as it is now. `piece_at` names the piece at a point, `cut_pieces` gives the cut
    pieces with their middles in their order, and `pattern` the placed faces of the layout; they come from
    whoever lays the tiles.
    """

    read_job: Callable[[], Job]
    surface_id: str | None = None
    layout_id: str | None = None
    new_kind: SurfaceKind = SurfaceKind.FLOOR
    snap_px: float = SNAP_PX
    snap_kinds: frozenset[SnapKind] = frozenset(SnapKind)
    piece_at: Callable[[Point], str | None] = _no_piece
    cut_pieces: Callable[[], Sequence[tuple[str, Point]]] = _no_pieces
    pattern: Callable[[], PlacedPattern | None] = _no_pattern

    @property
    def surface(self) -> Surface | None:
        """The surface shown, if the job still has it."""
        return next((s for s in self.read_job().surfaces if s.id == self.surface_id), None)

    @property
    def layout(self) -> Layout | None:
        """The layout shown, if the job still has it."""
        return next((each for each in self.read_job().layouts if each.id == self.layout_id), None)
