"""Which cuts of a cut list have been made.

A tick belongs to a piece and to the side that was cut, not to a line of the list: its mark is worked out from
the tile, the outline of the piece in it, and which way the side faces. So it stays when tiles are shared or
numbered otherwise, and a piece that is to be cut otherwise loses it, whatever it is called.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tilelayout.job.cuts_made import CutMade
from tilelayout.job.values import Job
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Points
from tilelayout.offcuts.opened import SawnPiece
from tilelayout.planning.hand_work import HandWork
from tilelayout.planning.saw_list import SawList, SawStep
from tilelayout.planning.straight_sawing import is_straight
from tilelayout.planning.to_saw import PieceToSaw

ListedCut = SawStep | HandWork
"""What has one box on the cut list: a run of the saw, or the work by hand on one piece."""

Made = Collection[CutMade]

_MARK_BYTES = 5

_SAME_WAY = 0.2
"""Sides of one piece that face the same way within so many degrees are one side."""


@dataclass(frozen=True, eq=False)
class Ticks:
    """The boxes of a cut list, and what a tick in each of them says."""

    found: SawList

    @cached_property
    def says(self) -> Mapping[ListedCut, tuple[CutMade, ...]]:
        """What is made once a cut is: one side of each piece that the cut gives a side."""
        said: dict[ListedCut, tuple[CutMade, ...]] = {}
        said |= {step: tuple(self._sides(step)) for step in self.found.steps}
        return said | {work: (self._work(work),) for work in self.found.by_hand}

    @cached_property
    def given(self) -> Mapping[ListedCut, tuple[str, ...]]:
        """Which pieces get one of their own sawn sides by each cut, or are worked on by hand.

        None does by a cut that only parts pieces; where sawn edges are dressed that may run along a side
        which the piece has as a factory edge when it is sawn from a tile by itself.
        """
        given: dict[ListedCut, tuple[str, ...]] = {}
        for step in self.found.steps:
            given[step] = tuple(name for name in step.cut.makes if self._is_own(step, name))
        return given | {work: (work.name,) for work in self.found.by_hand}

    @cached_property
    def of_piece(self) -> Mapping[str, tuple[ListedCut, ...]]:
        """The cuts of each piece by its name, in the order of the list."""
        cuts: dict[str, list[ListedCut]] = {name: [] for name in self.found.of.pieces}
        for cut in self.says:
            for name in self.given[cut] or pieces_of(cut):
                cuts[name].append(cut)
        return {name: tuple(some) for name, some in cuts.items()}

    def is_made(self, cut: ListedCut, made: Made) -> bool:
        """Whether a cut is made."""
        return all(each in made for each in self.says[cut])

    def count(self, cuts: Collection[ListedCut], made: Made) -> int:
        """Return how many of some cuts are made."""
        return sum(self.is_made(cut, made) for cut in cuts)

    def pieces_made(self, made: Made) -> frozenset[str]:
        """Return the names of the pieces whose own sawn sides are all made, and the work by hand on them."""
        to_make = {name for cut, names in self.given.items() if not self.is_made(cut, made) for name in names}
        return frozenset(self.found.of.pieces.keys() - to_make)

    def left_over(self, job: Job) -> tuple[CutMade, ...]:
        """Return the ticks of a job that belong to no cut of the list: what they ticked is cut otherwise now.

        Ticks of a layout that is not on the list, but in the job, stand for that layout.
        """
        others = {each.id for each in job.layouts} - {made.layout.id for made in self.found.of.plans}
        known = {each for some in self.says.values() for each in some}
        return tuple(each for each in job.cuts_made if each not in known and each.layout not in others)

    def _is_own(self, step: SawStep, name: str) -> bool:
        piece = self.found.of.pieces[name]
        ring, faces = piece.piece.in_tile(piece.piece.outline), _faces(step, name)
        own = (_degrees(ring, cut.line) for cut in piece.cuts if is_straight(cut))
        return any(abs((faces - each + 180.0) % 360.0 - 180.0) < _SAME_WAY for each in own)

    def _sides(self, step: SawStep) -> Iterator[CutMade]:
        for name in self.given[step] or pieces_of(step):
            piece = self.found.of.pieces[name]
            yield CutMade(layout=piece.layout, piece=piece.piece.id, mark=_mark(piece, _side(step, name)))

    def _work(self, work: HandWork) -> CutMade:
        piece = self.found.of.pieces[work.name]
        return CutMade(layout=piece.layout, piece=piece.piece.id, mark=_mark(piece, "by hand"))


def pieces_of(cut: ListedCut) -> tuple[str, ...]:
    """Return the pieces that a cut gives a side; if it gives none, those that it parts from each other."""
    if isinstance(cut, HandWork):
        return (cut.name,)
    return cut.cut.makes or cut.cut.pieces


def _side(step: SawStep, name: str) -> str:
    """Say which side of a piece a cut makes: which way it faces in the tile as laid, how far off it runs."""
    off = 0.0 if name in step.cut.makes else _distance(step, name)
    return f"faces {round(_faces(step, name), 1) % 360:.1f} off {round(off, 1) + 0.0:.1f}"


def _faces(step: SawStep, name: str) -> float:
    """Return the degrees at which the side lies that a cut gives a piece, in the tile as it is laid."""
    sawn = _sawn(step, name)
    return _degrees(sawn.outline, step.cut.line) - sawn.turned


def _distance(step: SawStep, name: str) -> float:
    """Return how far from a piece the blade runs."""
    outline, (start, end) = _sawn(step, name).outline, step.cut.line
    along = (end - start) / np.hypot(*(end - start))
    depths = np.abs((outline - start) @ np.array([-along[1], along[0]]))
    return float(depths.min()) - step.tile.blank.saw.kerf / 2


def _sawn(step: SawStep, name: str) -> SawnPiece:
    return next(each for each in step.tile.pieces if each.piece == name)


def _degrees(outline: Points, line: Points) -> float:
    """Return the degrees of the way that leads from a piece to a line beside it, square to the line."""
    along = line[-1] - line[0]
    way = np.array([-along[1], along[0]])
    depths = (outline - line[0]) @ way
    way = way if depths[np.argmax(np.abs(depths))] < 0 else -way
    return float(np.degrees(np.arctan2(way[1], way[0])))


def _mark(piece: PieceToSaw, what: str) -> str:
    tile = piece.piece.tile
    rings = [_said(piece.piece.in_tile(ring)) for ring in (piece.piece.outline, *piece.piece.holes)]
    said = "|".join((tile.id, _said(tile_outline(tile)), *rings, what))
    return hashlib.blake2b(said.encode(), digest_size=_MARK_BYTES).hexdigest()


def _said(ring: Points) -> str:
    """Return a ring to a hundredth of a mm as text, the same from whichever corner it begins."""
    points = [tuple(point) for point in (np.round(ring, 2) + 0.0).tolist()]
    first = points.index(min(points))
    return " ".join(f"{x:.2f},{y:.2f}" for x, y in points[first:] + points[:first])
