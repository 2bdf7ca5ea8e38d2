"""Looks for a change that makes a layout fit the tiles on hand, by trying it: nothing is promised untried.

The least change comes first: another start, then another joint, a wider wall gap, other row offsets, a
border of another tile that is on hand. For each, a start that takes the fewest tiles is sought and planned
with the offcuts on hand: by itself, or with all else that the job takes from the same tiles. The work goes in
steps; pull them one after the other, and stop pulling to cancel.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from msgspec.structs import replace

from tilelayout.base.counts import so_many
from tilelayout.base.errors import LayoutError
from tilelayout.base.units import INCH, LengthStyle, format_length
from tilelayout.job.values import Border, Job, Layout, RectangleTile, Tile
from tilelayout.layout.patterns import settings_of
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.job_plan import job_plan
from tilelayout.planning.plan import layout_named, plan
from tilelayout.planning.seek import seek
from tilelayout.planning.seek_ways import Wish
from tilelayout.planning.shortage import Shortage, shortages

_JOINTS = (1, -1, 2)
"""By so many steps the joint may differ, the least change first: a step is 1 mm or 1/16 in."""

_LEAST_JOINT = 1.5
_SPREADS = 3.0
"""A joint is no narrower than this, nor than so many spreads of the tile."""

_GAPS = (2, 4)
_WIDEST_GAP = 12.0
"""By so many steps the wall gap may be wider, as long as what stands on the wall still covers it (mm)."""

_OFFSETS = ((0.0,), (0.0, 0.5), (0.0, 1 / 3), (0.0, 1 / 3, 2 / 3))


@dataclass(frozen=True)
class Change:
    """A change to try: the layout with it, and its words ("a joint of 4 mm, and another start")."""

    layout: Layout
    words: str


@dataclass(frozen=True)
class Fit:
    """A change that was tried: how many tiles it takes, and by how many it is still short."""

    layout: Layout
    words: str
    tiles_needed: int
    short: int

    @property
    def does_fit(self) -> bool:
        """Whether what is on hand is enough."""
        return self.short == 0

    @property
    def sentence(self) -> str:
        """How it fits: "Fits with another start, 48 tiles in all." or "2 tiles short with ..."."""
        how = "Fits" if self.does_fit else f"{so_many(self.short, 'tile')} short"
        return f"{how} with {self.words}, {so_many(self.tiles_needed, 'tile')} in all."


@dataclass(frozen=True)
class FitStep:
    """How far the trying is, from 0 to 1; what is being tried, and what was tried, the least change first."""

    done: float
    trying: str
    tried: tuple[Fit, ...] = ()

    @property
    def fits(self) -> tuple[Fit, ...]:
        """The changes with which what is on hand is enough."""
        return tuple(fit for fit in self.tried if fit.does_fit)

    @property
    def nearest(self) -> Fit | None:
        """The change that is short by least; None if nothing could be tried yet."""
        return min(self.tried, key=lambda fit: fit.short, default=None)


def make_it_fit(job: Job, layout_id: str, *, in_whole_job: bool = False) -> Iterator[FitStep]:
    """Yield the steps of trying every change; the last has done 1. LayoutError if there is no such layout.

    `in_whole_job`: what is counted are the tiles that the whole job takes with the layout to be laid.
    """
    layout = layout_named(job, layout_id)
    changes, tried = list(changes_to_try(job, layout)), list[Fit]()
    for at, change in enumerate(changes):
        for done in _tried(job, change, tried, in_whole_job):
            yield FitStep((at + done) / len(changes), change.words, tuple(tried))
    yield FitStep(1.0, "", tuple(tried))


def changes_to_try(job: Job, layout: Layout) -> Iterator[Change]:
    """Yield the changes, the least first."""
    tile, style = job.tile(layout.tile), job.show_lengths
    yield Change(layout, "another start")
    for joint in _joints(layout, tile, _step(style)):
        changed = replace(layout, joint=joint)
        yield Change(changed, f"a joint of {format_length(joint, style)}")
    for gap in (layout.gap + wider * _step(style) for wider in _GAPS):
        if gap <= _WIDEST_GAP:
            yield Change(replace(layout, gap=gap), f"a wall gap of {format_length(gap, style)}")
    yield from _other_offsets(layout)
    yield from _with_border(job, layout)


def _step(style: LengthStyle) -> float:
    return 1.0 if style.is_metric else float(INCH / 16)


def _joints(layout: Layout, tile: Tile, step: float) -> Iterator[float]:
    least = max(_LEAST_JOINT, _SPREADS * (tile.spread or 0.0))
    joints = (layout.joint + by * step for by in _JOINTS)
    return (joint for joint in joints if joint >= least)


def _other_offsets(layout: Layout) -> Iterator[Change]:
    now = getattr(settings_of(layout), "row_offsets", ())
    for offsets in _OFFSETS if now else ():
        if tuple(now) != offsets:
            shares = ", ".join({0.0: "0", 0.5: "1/2", 1 / 3: "1/3", 2 / 3: "2/3"}[each] for each in offsets)
            changed = replace(layout, settings={**layout.settings, "row_offsets": offsets})
            yield Change(changed, f"rows shifted by {shares}" if len(offsets) > 1 else "rows not shifted")


def _with_border(job: Job, layout: Layout) -> Iterator[Change]:
    if layout.border is not None or not isinstance(job.tile(layout.tile), RectangleTile):
        return
    for tile in job.tiles:
        if tile.id not in layout.tiles and isinstance(tile, RectangleTile) and tile.whole_on_hand:
            yield Change(replace(layout, border=Border(tile=tile.id)), f"a border of {tile.title}")


def missing(job: Job, layout: Layout, *, in_whole_job: bool) -> tuple[int, tuple[Shortage, ...]]:
    """Return how many tiles it takes to lay a layout, alone or with the whole job, and what is missing."""
    others = tuple(each for each in job.layouts if each.id != layout.id)
    changed = replace(job, layouts=(layout, *others))
    if in_whole_job:
        whole = job_plan(changed)
        return whole.tiles_needed, whole.shortages
    made = plan(changed, layout.id)
    return made.tiles_needed, shortages(made)


def _tried(job: Job, change: Change, tried: list[Fit], in_whole_job: bool) -> Iterator[float]:
    """Try a change as it stands and with the start that takes the fewest tiles; keep the better."""
    changed, found = replace(job, layouts=(change.layout,)), list[Fit]()
    try:
        found.append(_fit(job, change.layout, change.words, in_whole_job))
        for step in seek(changed, change.layout.surface, wish=Wish(aim=Aim.FEWEST_TILES, most=1)):
            yield step.done
        with_start = change.words if change.words == "another start" else f"{change.words} and another start"
        for each in step.found:
            started = replace(each.layout, id=change.layout.id)
            found.append(_fit(job, started, with_start, in_whole_job))
    except LayoutError:  # a change that cannot be laid is none
        pass
    found = [each for each in found if each.layout != layout_named(job, change.layout.id)]
    if found:
        tried.append(min(found, key=lambda fit: (fit.short, fit.tiles_needed)))


def _fit(job: Job, layout: Layout, words: str, in_whole_job: bool) -> Fit:
    needed, short = missing(job, layout, in_whole_job=in_whole_job)
    return Fit(layout, words, needed, sum(each.short for each in short))
