"""The cut list in the order of the saw: the settings of the fence, and the cuts made at each.

Every opened tile is a small tree of straight cuts, and all of them together are put in the order that sets
the fence least. What the fence cannot do comes after that, piece by piece.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.job.values import Job, MosaicSheet
from tilelayout.offcuts.leavings import Offcut
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.planning.fence_order import FenceOrder, Task, fence_order
from tilelayout.planning.hand_work import HandWork, hand_work
from tilelayout.planning.plan import Plan
from tilelayout.planning.saw_sizes import saw_style
from tilelayout.planning.straight_sawing import Rest, StraightCut, straight_cuts
from tilelayout.planning.to_saw import ToSaw, to_saw_by_itself, to_saw_steps

MARKED_LINE = 0.0
"""Stands for the setting of cuts that run along a marked line, since no fence can be set for them."""


@dataclass(frozen=True, eq=False)
class NamedOffcut:
    """An offcut worth keeping, with the name to write on it: "T4b"."""

    name: str
    offcut: Offcut


@dataclass(frozen=True, eq=False)
class SawStep:
    """One cut: of which tile, the `number`-th made of it, and along which side the fence lies if it does.

    `done` are the pieces that the saw has finished with it, `kept` the names of the offcuts it leaves.
    """

    tile: OpenedTile
    number: int
    cut: StraightCut
    rest: Rest | None
    done: tuple[str, ...]
    kept: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Setting:
    """One setting of the fence in mm, `MARKED_LINE` for none, and the cuts made at it."""

    distance: float
    steps: tuple[SawStep, ...]

    @property
    def tiles(self) -> tuple[int, ...]:
        """The numbers of the tiles sawn at it, each once."""
        return tuple(sorted({step.tile.number for step in self.steps}))


@dataclass(frozen=True, eq=False)
class SawList:
    """The settings in their order, what is left to do by hand, and how few settings there can be."""

    of: ToSaw
    settings: tuple[Setting, ...]
    by_hand: tuple[HandWork, ...]
    settings_at_least: int

    @property
    def opened(self) -> tuple[OpenedTile, ...]:
        """The tiles to open, and the offcuts on hand."""
        return self.of.opened

    @property
    def steps(self) -> Iterator[SawStep]:
        """All cuts along a fence or a marked line, in the order of the saw."""
        return (step for setting in self.settings for step in setting.steps)

    @cached_property
    def steps_of(self) -> Mapping[int, tuple[SawStep, ...]]:
        """The cuts of each tile by its number, in the order in which they are made."""
        found: dict[int, list[SawStep]] = defaultdict(list)
        for step in self.steps:
            found[step.tile.number].append(step)
        return {number: tuple(steps) for number, steps in found.items()}

    @cached_property
    def tile_of(self) -> Mapping[str, OpenedTile]:
        """The tile that each piece is sawn from."""
        return {each.piece: tile for tile in self.opened for each in tile.pieces}


def named_offcuts(tile: OpenedTile) -> tuple[NamedOffcut, ...]:
    """Return the offcuts of a tile that are worth keeping, the largest first."""
    return tuple(
        NamedOffcut(f"T{tile.number}{_letters(at)}", offcut) for at, offcut in enumerate(tile.offcuts)
    )


def saw_list(plan: Plan) -> SawList:
    """Return the cut list of one layout by itself. The plan's sharing may take a second."""
    return saw_list_of(to_saw_by_itself(plan))


def saw_list_of(what: ToSaw) -> SawList:
    """Return the cut list of what is to be sawn, in the order of the saw."""
    sawn = [(tile, at, cut) for tile in what.opened for at, cut in enumerate(_straight_cuts(tile, what))]
    ordered = _ordered(sawn)
    style = saw_style(what.style)
    by_hand = (hand_work(each.name, each.piece, each.cuts, style) for each in what.pieces.values())
    return SawList(what, _settings(ordered, sawn), tuple(filter(None, by_hand)), ordered.at_least)


def saw_list_steps(job: Job, layout_id: str) -> Iterator[SawList]:
    """Yield the cut list of a layout to be laid, and of all that shares its tiles; the last is the answer.

    The first is there at once. LayoutError if the layout cannot be laid.
    """
    listed: ToSaw | None = None
    latest: ToSaw | None = None
    for latest in to_saw_steps(job, layout_id):
        if listed is None or latest.sharing.tiles_needed < listed.sharing.tiles_needed:
            listed = latest
            yield saw_list_of(latest)
    if latest is not None and latest is not listed:
        yield saw_list_of(latest)


_Sawn = list[tuple[OpenedTile, int, StraightCut]]


def _straight_cuts(tile: OpenedTile, what: ToSaw) -> tuple[StraightCut, ...]:
    if isinstance(tile.tile, MosaicSheet):
        return ()
    own = {each.piece: what.pieces[each.piece] for each in tile.pieces}
    pieces = {name: each.piece for name, each in own.items()}
    cuts = {name: each.cuts for name, each in own.items()}
    return straight_cuts(tile, pieces, cuts, saw_style(what.style))


def _ordered(sawn: _Sawn) -> FenceOrder:
    first = 0
    tasks: list[Task] = []
    for number, (tile, at, cut) in enumerate(sawn):
        first = number if at == 0 else first
        settings = tuple(rest.distance for rest in cut.rests) or (MARKED_LINE,)
        after = None if cut.after is None else first + cut.after
        tasks.append(Task(settings, after, _worth(tile, cut)))
    return fence_order(tasks)


def _worth(tile: OpenedTile, cut: StraightCut) -> float:
    return sum(shapely.Polygon(each.outline).area for each in tile.offcuts if _frees(tile, cut, each))


def _frees(tile: OpenedTile, cut: StraightCut, offcut: Offcut) -> bool:
    """Claim that the blade runs along a side of an offcut."""
    along = (cut.line[1] - cut.line[0]) / np.hypot(*(cut.line[1] - cut.line[0]))
    away = np.abs((offcut.outline - cut.line[0]) @ np.array([-along[1], along[0]]))
    is_beside = np.abs(away - tile.blank.saw.kerf / 2) < ON_EDGE
    return bool(np.any(is_beside & np.concatenate([is_beside[1:], is_beside[:1]])))


def _settings(ordered: FenceOrder, sawn: _Sawn) -> tuple[Setting, ...]:
    """Number the cuts of each tile in the order of the settings, and say what each of them frees."""
    followers = _last_cuts(ordered, sawn)
    counted: dict[int, int] = defaultdict(int)
    settings = []
    for visit in ordered.visits:
        steps = []
        for task in sorted(visit.tasks, key=lambda task: _handling(sawn[task], task)):
            tile, _, cut = sawn[task]
            counted[tile.number] += 1
            rest = next((rest for rest in cut.rests if rest.distance == visit.setting), None)
            done, kept = followers[task]
            steps.append(SawStep(tile, counted[tile.number], cut, rest, done, kept))
        settings.append(Setting(visit.setting, tuple(steps)))
    return tuple(settings)


def _handling(sawn: tuple[OpenedTile, int, StraightCut], task: int) -> tuple[object, ...]:
    """Order the cuts at one setting: those of one tile together, tiles as they come to lie along a wall."""
    return sawn[0].number, task


def _last_cuts(ordered: FenceOrder, sawn: _Sawn) -> dict[int, tuple[tuple[str, ...], tuple[str, ...]]]:
    """Return for each cut the pieces and the offcuts that no later cut touches."""
    piece_at: dict[str, int] = {}
    offcut_at: dict[str, int] = {}
    for task in _in_order(ordered, sawn):
        tile, _, cut = sawn[task]
        piece_at |= dict.fromkeys(cut.pieces, task)
        offcut_at |= {n.name: task for n in named_offcuts(tile) if _frees(tile, cut, n.offcut)}
    return {
        task: (
            tuple(piece for piece, last in piece_at.items() if last == task),
            tuple(name for name, last in offcut_at.items() if last == task),
        )
        for task in range(len(sawn))
    }


def _in_order(ordered: FenceOrder, sawn: _Sawn) -> Iterator[int]:
    for visit in ordered.visits:
        yield from sorted(visit.tasks, key=lambda task: _handling(sawn[task], task))


def _letters(at: int) -> str:
    """Return "a", "b", ... "z", "aa", ..."""
    rest, letter = divmod(at, 26)
    return (_letters(rest - 1) if rest else "") + chr(ord("a") + letter)
