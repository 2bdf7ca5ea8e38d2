"""The trims of a surface as they are sawn from their tile: strips, tiles, and why so many."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, pairwise

from tilelayout.base.errors import LayoutError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.base.units import LengthStyle, cut_size, format_length
from tilelayout.job.ground import Trim
from tilelayout.job.kinds import TrimKind
from tilelayout.job.values import Job, Layout, Surface, Tile
from tilelayout.layout.trim import (
    Strip,
    StripsOfATile,
    run_begins,
    strip_sizes,
    strips_of,
    strips_of_a_tile,
    tiles_for,
)
from tilelayout.layout.trim_runs import Run, runs_of
from tilelayout.planning.kept import Kept
from tilelayout.planning.plan import layout_named
from tilelayout.planning.wall_names import edge_name, stretch_name

USUAL_JOINT = Layout(id="", surface="", tile="").joint
"""The joint between strips, in mm, while nothing is laid on their surface."""

TRIM_WORDS = {
    TrimKind.BASE: "Base",
    TrimKind.CAP: "Cap",
    TrimKind.THRESHOLD: "Threshold",
    TrimKind.RETURN: "Window return",
}


@dataclass(frozen=True, eq=False)
class TrimRun:
    """One stretch of a trim: its strips in order, counter-clockwise round the surface.

    `begins` is where the first of them starts, in mm along the run: past a corner where it gives way to the
    run before, before it (below 0) where it reaches round an outside corner.
    """

    run: Run
    title: str
    strips: tuple[Strip, ...]
    begins: float
    joint: float

    @property
    def joints(self) -> tuple[float, ...]:
        """How far along the run the middles of the joints between its strips lie."""
        ends = accumulate((strip.length + self.joint for strip in self.strips[:-1]), initial=self.begins)
        return tuple(end - self.joint / 2 for _, end in pairwise(ends))

    def words(self, style: LengthStyle) -> str:
        """One line: "left wall: 2.4 m, 7 strips of 298 mm and 2 of 159 mm"."""
        sizes = Counter(format_length(cut_size(strip.length, style), style) for strip in self.strips)
        listed = [f"{count} of {size}" for size, count in sizes.items()]
        many = " and ".join(filter(None, (", ".join(listed[:-1]), listed[-1]))) if listed else "none fits"
        return f"{self.title}: {format_length(self.run.length, style)}; {many}"


@dataclass(frozen=True, eq=False)
class TrimPlan:
    """A trim with the strips it wants, how many one tile gives, and the tiles that takes."""

    trim: Trim
    tile: Tile
    runs: tuple[TrimRun, ...]
    of_a_tile: StripsOfATile
    tiles: int

    @property
    def strips(self) -> tuple[Strip, ...]:
        """All strips, run by run."""
        return tuple(strip for run in self.runs for strip in run.strips)

    @property
    def length(self) -> float:
        """How long the strips are together, joints not counted."""
        return sum(strip.length for strip in self.strips)

    def words(self, style: LengthStyle) -> str:
        """One line: "base 75 mm high: 23 strips, 6.6 m, from 12 tiles; 2 to a tile, since ..."."""
        number = len(self.strips)
        height, length = format_length(self.trim.height, style), format_length(self.length, style)
        what = TRIM_WORDS[self.trim.kind].lower()
        return (
            f"{what} {height} {self.across}: {number} strip{'s'[: number != 1]}, {length} in all, "
            f"from {self.tiles} tile{'s'[: self.tiles != 1]} of {self.tile.title}; {self.why}"
        )

    @property
    def across(self) -> str:
        """What the measure across a strip is called: "high" where it stands up a wall, else "wide"."""
        return across_word(self.trim.kind)

    @property
    def why(self) -> str:
        """How many strips one tile gives, and why no more: "2 to a tile, for each shows ..."."""
        per_tile = self.of_a_tile
        if not per_tile.wants_factory_edges:
            return f"{per_tile.count} to a tile"
        edge = "edge" if per_tile.count == 1 else "edges"
        return (
            f"{per_tile.count} to a tile, for each shows one of its {per_tile.count} factory {edge}; "
            f"{per_tile.if_all_sawn} if sawn edges may show"
        )


def across_word(kind: TrimKind) -> str:
    """Return "wide" for strips that lie flat, "high" for those up a wall."""
    return "wide" if kind in (TrimKind.THRESHOLD, TrimKind.RETURN) else "high"


def trims_of(job: Job, layout_id: str) -> tuple[TrimPlan, ...]:
    """Return the trims of a layout's surface, jointed as it is. LayoutError if a tile gives no strip."""
    layout = layout_named(job, layout_id)
    surface = job.surface(layout.surface)
    return tuple(trim_plan(job, surface, trim, layout.joint) for trim in surface.trims)


def possible_trims(job: Job, surface: Surface, joint: float) -> tuple[TrimPlan, ...]:
    """Return those trims of a surface that their tiles can give; kept until the surface or a tile changes."""
    return _planned(job, surface, joint)[0]


def trim_trouble(job: Job, surface: Surface, joint: float) -> str:
    """Return why a trim of a surface cannot be sawn from its tile, and how to mend it; "" if all can."""
    return _planned(job, surface, joint)[1]


def _planned(job: Job, surface: Surface, joint: float) -> tuple[tuple[TrimPlan, ...], str]:
    return _possible.get((surface, job.tiles, job.saw), lambda: _planned_anew(job, surface, joint), joint)


def _planned_anew(job: Job, surface: Surface, joint: float) -> tuple[tuple[TrimPlan, ...], str]:
    """Return the trims that can be sawn, and the first trouble with the others."""
    made, trouble = list[TrimPlan](), ""
    for trim in surface.trims:
        try:
            made.append(trim_plan(job, surface, trim, joint))
        except LayoutError as error:
            trouble = trouble or str(error)
    return tuple(made), trouble


def trim_plan(job: Job, surface: Surface, trim: Trim, joint: float) -> TrimPlan:
    """Return one trim as it is sawn, with joints of `joint` mm. LayoutError if its tile gives no strip."""
    tile = job.tile(trim.tile)
    _check_height(trim, tile, job.show_lengths)
    strips, kerf = strips_of(surface, trim, tile, joint), job.saw.kerf
    per_tile = strips_of_a_tile(tile, trim, kerf)
    runs = tuple(_runs(surface, trim, tile, joint, strips))
    return TrimPlan(trim, tile, runs, per_tile, tiles_for(strips, tile, trim, kerf))


def _check_height(trim: Trim, tile: Tile, style: LengthStyle) -> None:
    """Say in the job's own lengths that no strip of this height fits in the tile."""
    _, across = strip_sizes(tile)
    if trim.height > across + SAME_PLACE:
        high, wide = format_length(trim.height, style), format_length(across, style)
        what = f"No strip of {high} can be sawn from “{tile.title}”, which is {wide} wide."
        raise LayoutError(what, "Make the trim lower or choose another tile.")


def _runs(
    surface: Surface, trim: Trim, tile: Tile, joint: float, strips: tuple[Strip, ...]
) -> Iterator[TrimRun]:
    for run in runs_of(surface, trim):
        own = tuple(strip for strip in strips if strip.edges == run.edges)
        begins = run_begins(run, surface, trim, tile, joint)
        yield TrimRun(run, run_name(surface, run.edges), own, begins, joint)


def run_name(surface: Surface, edges: tuple[int, ...]) -> str:
    """Return what to call a stretch: by its one edge, else by the wall that its edges make up."""
    return stretch_name(surface, edges[0]) if len(edges) == 1 else edge_name(surface, edges[0])


def can_give(tile: Tile) -> bool:
    """Tell whether strips can be sawn from a tile of this shape."""
    try:
        strip_sizes(tile)
    except LayoutError:
        return False
    return True


_possible: Kept[tuple[tuple[TrimPlan, ...], str]] = Kept(4)
