"""Looks for a change that makes a layout fit the tiles on hand, by trying it: nothing is promised untried.

The least change comes first: another start, then another joint, a wider wall gap, other row offsets, a
border of another tile that is on hand. For each, a start that takes the fewest tiles is sought and planned
with the offcuts on hand. The work goes in steps; pull them one after the other, and stop pulling to cancel.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from msgspec.structs import replace

from tilelayout.base.errors import LayoutError
from tilelayout.base.units import INCH, LengthStyle, format_length
from tilelayout.job.values import Border, Job, Layout, RectangleTile, Tile
from tilelayout.layout.patterns import settings_of
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.plan import layout_named, plan
from tilelayout.planning.seek import seek
from tilelayout.planning.seek_ways import Wish
from tilelayout.planning.shortage import shortages

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


def make_it_fit(job: Job, layout_id: str) -> Iterator[FitStep]:
    """Yield the steps of trying every change; the last has done 1. LayoutError if there is no such layout."""
    layout = layout_named(job, layout_id)
    changes, tried = list(changes_to_try(job, layout)), list[Fit]()
    for at, change in enumerate(changes):
        for done in _tried(job, change, tried):
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


def _tried(job: Job, change: Change, tried: list[Fit]) -> Iterator[float]:
    """Try a change as it stands and with the start that takes the fewest tiles; keep the better."""
    changed, found = replace(job, layouts=(change.layout,)), list[Fit]()
    try:
        found.append(_fit(changed, change.layout, change.words))
        for step in seek(changed, change.layout.surface, wish=Wish(aim=Aim.FEWEST_TILES, most=1)):
            yield step.done
        with_start = change.words if change.words == "another start" else f"{change.words} and another start"
        found += [_fit(changed, replace(each.layout, id=change.layout.id), with_start) for each in step.found]
    except LayoutError:  # a change that cannot be laid is none
        pass
    found = [each for each in found if each.layout != layout_named(job, change.layout.id)]
    if found:
        tried.append(min(found, key=lambda fit: (fit.short, fit.tiles_needed)))


def _fit(job: Job, layout: Layout, words: str) -> Fit:
    planned = plan(replace(job, layouts=(layout,)), layout.id)
    short = sum(each.short for each in shortages(planned))
    return Fit(layout, words, planned.tiles_needed, short)
