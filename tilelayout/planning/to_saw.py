"""What is to be sawn: of one layout by itself, or of the whole job as one stock of tiles.

Pieces of different surfaces may bear the same number, so where there are several surfaces the cut list puts
the surface's own number before it: "2-C4" is piece C4 of the second surface.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from tilelayout.base.errors import LayoutError
from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Job, Tile
from tilelayout.layout.strip_cuts import strip_cuts
from tilelayout.layout.values import Cut, Piece
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.offcuts.sharing import Sharing
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.job_plan import JobPlan, job_plan, layouts_to_lay
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.words import walls_met


@dataclass(frozen=True, eq=False)
class PieceToSaw:
    """A piece of the cut list by the `name` it goes by there, with its cuts and the walls they fit.

    `plan` is that of the layout it is laid in, or of the surface whose trim it is.
    """

    name: str
    piece: Piece
    plan: Plan
    cuts: tuple[Cut, ...]
    walls: tuple[str, ...]

    @property
    def layout(self) -> str:
        """The id of the layout."""
        return self.plan.layout.id

    @property
    def is_laid(self) -> bool:
        """Whether it is a piece of the surface; strips of trim are not."""
        return self.piece.id in self.plan.cuts_by_piece


@dataclass(frozen=True, eq=False)
class ToSaw:
    """The pieces to saw of some layouts, and how their tiles are shared.

    `strips` are the strips of trim by layout. `is_whole_job` claims that all that is to be laid is here;
    `trouble` says why it is not although it should be.
    """

    plans: tuple[Plan, ...]
    sharing: Sharing
    strips: Mapping[str, tuple[Piece, ...]]
    is_whole_job: bool
    trouble: str = ""

    @property
    def style(self) -> LengthStyle:
        """How lengths are written."""
        return self.plans[0].style

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """The tiles that are sawn or laid, each once."""
        return tuple({tile.id: tile for made in self.plans for tile in made.tiles}.values())

    @cached_property
    def pieces(self) -> Mapping[str, PieceToSaw]:
        """All cut pieces by their names, surface by surface."""
        return {each.name: each for made in self.plans for each in self._pieces_of(made)}

    @cached_property
    def rows(self) -> tuple[CutRow, ...]:
        """The rows of like pieces, surface by surface, under the names of the cut list."""
        rows = [(made, row) for made in self.plans for row in made.cut_rows]
        return tuple(
            replace(row, number=number, pieces=tuple(self._renamed(piece, made) for piece in row.pieces))
            for number, (made, row) in enumerate(rows, start=1)
        )

    @cached_property
    def opened(self) -> tuple[OpenedTile, ...]:
        """The tiles to open, their pieces under the names of the cut list."""
        if len(self.plans) == 1:
            return self.sharing.opened
        of_layout = {made.layout.id: made for made in self.plans}
        return tuple(
            replace(
                tile,
                pieces=tuple(
                    replace(each, piece=self.name_of(each.piece, of_layout[each.layout]))
                    for each in tile.pieces
                ),
            )
            for tile in self.sharing.opened
        )

    def name_of(self, piece: str, made: Plan) -> str:
        """Return what a piece of one of the plans is called on the cut list."""
        return piece if len(self.plans) == 1 else f"{self.plans.index(made) + 1}-{piece}"

    def _renamed(self, piece: Piece, made: Plan) -> Piece:
        return piece if len(self.plans) == 1 else replace(piece, id=self.name_of(piece.id, made))

    def _pieces_of(self, made: Plan) -> Iterator[PieceToSaw]:
        for piece in made.laid.cut:
            cuts = made.cuts_by_piece[piece.id]
            walls = walls_met(cuts, made.surface)
            yield PieceToSaw(self.name_of(piece.id, made), piece, made, cuts, walls)
        for strip in self.strips.get(made.layout.id, ()):
            yield PieceToSaw(self.name_of(strip.id, made), strip, made, strip_cuts(strip), ())


def to_saw_by_itself(made: Plan) -> ToSaw:
    """Return what is to be sawn of one layout. Its sharing may take a second."""
    return ToSaw((made,), made.sharing, {}, is_whole_job=False)


def to_saw(job: Job, layout_id: str) -> ToSaw:
    """Return what the cut list of a layout holds: the whole job if it is to be laid, else the layout alone.

    LayoutError if the layout cannot be laid; if only another surface cannot, the layout stands alone.
    """
    *_, last = to_saw_steps(job, layout_id)
    return last


def to_saw_steps(job: Job, layout_id: str) -> Iterator[ToSaw]:
    """Yield what is to be sawn, first as it is known at once, then with ever fewer tiles."""
    whole, trouble = _whole_job(job, layout_id)
    if whole is not None and (len(whole.plans) > 1 or whole.strip_count):
        for sharing in whole.sharing_steps():
            yield ToSaw(whole.plans, sharing, whole.strips, is_whole_job=True)
        return
    made = plan(job, layout_id)
    for sharing in made.sharing_steps():
        yield ToSaw((made,), sharing, {}, is_whole_job=whole is not None, trouble=trouble)


def _whole_job(job: Job, layout_id: str) -> tuple[JobPlan | None, str]:
    """Return the plan of the whole job if the layout is part of it, or why there is none."""
    if all(each.id != layout_id for each in layouts_to_lay(job)):
        return None, ""
    try:
        whole = job_plan(job)
        _ = whole.strips, whole.whole
    except LayoutError as error:
        return None, str(error)
    return whole, ""
