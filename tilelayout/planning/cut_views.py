"""The cut list as it is read on a screen: by setting of the saw, by surface, or by opened tile.

Each view holds all the cuts of the list, in the order of the saw; only what stands together differs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from tilelayout.base.units import LengthStyle, cut_size, format_length
from tilelayout.offcuts.leavings import Offcut
from tilelayout.offcuts.opened import OpenedTile
from tilelayout.planning.hand_work import HandWork
from tilelayout.planning.saw_list import SawList, SawStep, Setting, named_offcuts
from tilelayout.planning.saw_sizes import saw_style
from tilelayout.planning.saw_words import by_lying, lying_words, setting_words, short_step_words, tiles_words
from tilelayout.planning.ticks import ListedCut, Ticks, pieces_of
from tilelayout.planning.words import piece_size


class CutView(StrEnum):
    """By what the cut list is put together."""

    SETTING = "setting"
    SURFACE = "surface"
    TILE = "tile"


@dataclass(frozen=True, eq=False)
class CutLine:
    """One line of a view with one box: a title, what else there is to say, the pieces and cuts it stands for.

    `tile` is the tile they are sawn from.
    """

    title: str
    words: tuple[str, ...]
    pieces: tuple[str, ...]
    cuts: tuple[ListedCut, ...]
    tile: OpenedTile


@dataclass(frozen=True, eq=False)
class CutGroup:
    """Lines that stand together under a heading."""

    heading: str
    words: str
    lines: tuple[CutLine, ...]

    @property
    def cuts(self) -> tuple[ListedCut, ...]:
        """The cuts of all its lines, each once."""
        return tuple(dict.fromkeys(cut for each in self.lines for cut in each.cuts))


def cut_view(ticks: Ticks, view: CutView) -> tuple[CutGroup, ...]:
    """Return the groups of a view; those without a line are left out."""
    return tuple(group for group in _VIEWS[view](ticks) if group.lines)


def _by_setting(ticks: Ticks) -> Iterator[CutGroup]:
    found = ticks.found
    style = found.of.style
    for setting in found.settings:
        lines = tuple(_step_line(step, found) for step in _in_paper_order(setting, style))
        yield CutGroup(setting_words(setting, style), tiles_words(setting), lines)
    yield CutGroup("By hand", "", tuple(_hand_line(work, found) for work in found.by_hand))


def _in_paper_order(setting: Setting, style: LengthStyle) -> Iterator[SawStep]:
    return (step for _, steps in by_lying(setting, style) for step in steps)


def _step_line(step: SawStep, found: SawList) -> CutLine:
    what = "; ".join(f"{name}, {_size_words(name, found)}" for name in step.done)
    kept = f"keep {', '.join(step.kept)}" if step.kept else ""
    walls = _walls(step.done, found)
    words = (_setting_and_lying(step, found), "; ".join(filter(None, (walls, kept))))
    title = f"T{step.tile.number}.{step.number}  {what or _on_the_way(step)}"
    return CutLine(title, _said(words), pieces_of(step), (step,), step.tile)


def _setting_and_lying(step: SawStep, found: SawList) -> str:
    lying = lying_words(step, found.of.style)
    if step.rest is None:
        return _sentence(lying)
    return f"Fence at {format_length(step.rest.distance, saw_style(found.of.style))}, {lying}"


def _on_the_way(step: SawStep) -> str:
    """Say what a cut is for that finishes no piece."""
    pieces = step.cut.pieces
    return f"for {pieces[0]}" if len(pieces) == 1 else f"parts {' and '.join(pieces)}"


def _hand_line(work: HandWork, found: SawList) -> CutLine:
    title = f"{work.name}  {_size_words(work.name, found)}"
    words = (*map(_sentence, work.words), _walls((work.name,), found))
    return CutLine(title, _said(words), (work.name,), (work,), found.tile_of[work.name])


def _by_surface(ticks: Ticks) -> Iterator[CutGroup]:
    found = ticks.found
    place = {cut: at for at, cut in enumerate(ticks.says)}
    alike = {piece.id: row.count for row in found.of.rows for piece in row.pieces}
    for made in found.of.plans:
        names = [each.name for each in found.of.pieces.values() if each.plan is made]
        names.sort(key=lambda name: max((place[cut] for cut in ticks.of_piece[name]), default=0))
        lines = tuple(_piece_line(name, ticks, alike.get(name, 1)) for name in names)
        yield CutGroup(made.surface.title, made.layout.title, lines)


def _piece_line(name: str, ticks: Ticks, alike: int) -> CutLine:
    found, cuts = ticks.found, ticks.of_piece[name]
    how = ", then ".join(_how_words(cut, found) for cut in cuts)
    many = f"{alike} alike" if alike > 1 else ""
    words = (_sentence(how), "; ".join(filter(None, (_walls((name,), found), many))))
    return CutLine(f"{name}  {_size_words(name, found)}", _said(words), (name,), cuts, found.tile_of[name])


def _how_words(cut: ListedCut, found: SawList) -> str:
    """Return where in the order of the saw a cut stands: its setting, or that it is made by hand."""
    if isinstance(cut, HandWork):
        return f"by hand: {'; '.join(cut.words)}"
    if cut.rest is None:
        return f"along a marked line (T{cut.tile.number}.{cut.number})"
    distance = format_length(cut.rest.distance, saw_style(found.of.style))
    return f"fence at {distance} (T{cut.tile.number}.{cut.number})"


def _by_tile(ticks: Ticks) -> Iterator[CutGroup]:
    found = ticks.found
    for id in dict.fromkeys(tile.tile.id for tile in found.opened):
        tiles = [tile for tile in found.opened if tile.tile.id == id]
        count = f"{len(tiles)} {'tile' if len(tiles) == 1 else 'tiles'} to saw"
        yield CutGroup(tiles[0].tile.title, count, tuple(_tile_line(tile, ticks) for tile in tiles))


def _tile_line(tile: OpenedTile, ticks: Ticks) -> CutLine:
    found = ticks.found
    names = tuple(each.piece for each in tile.pieces)
    steps: list[ListedCut] = [*found.steps_of.get(tile.number, ())]
    by_hand = [work for work in found.by_hand if work.name in names]
    said = [short_step_words(step, found) for step in found.steps_of.get(tile.number, ())]
    said = [f"{at}: {words}" for at, words in enumerate(said, start=1)]
    said += [f"Then by hand: {', '.join(work.name for work in by_hand)}"] if by_hand else []
    kept = [f"{each.name} {_offcut_size(each.offcut, found.of.style)}" for each in named_offcuts(tile)]
    said += [f"Stays useful: {', '.join(kept)}"] if kept else []
    kind = "Offcut on hand" if tile.is_on_hand else "Tile"
    title = f"{kind} {tile.number}  {', '.join(names)}"
    return CutLine(title, tuple(said), names, (*steps, *by_hand), tile)


def _offcut_size(offcut: Offcut, style: LengthStyle) -> str:
    length, width = (cut_size(side, style) for side in np.ptp(offcut.outline, axis=0).tolist())
    return f"{format_length(length, saw_style(style))} x {format_length(width, saw_style(style))}"


def _size_words(name: str, found: SawList) -> str:
    return piece_size(found.of.pieces[name].piece, saw_style(found.of.style))


def _walls(names: tuple[str, ...], found: SawList) -> str:
    return ", ".join(dict.fromkeys(wall for name in names for wall in found.of.pieces[name].walls))


def _said(words: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(filter(None, words))


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"


_VIEWS: dict[CutView, Callable[[Ticks], Iterator[CutGroup]]] = {
    CutView.SETTING: _by_setting,
    CutView.SURFACE: _by_surface,
    CutView.TILE: _by_tile,
}
