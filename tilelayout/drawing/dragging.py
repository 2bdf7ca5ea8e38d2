"""Drags a corner, an edge or a cutout: where it goes as the pointer moves, snapped, and the edit for that."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from tilelayout.drawing.features import joined, surface_scene, unit, ways_from
from tilelayout.drawing.moves import (
    Edit,
    corners_of,
    cutouts_of,
    ends_of,
    place_of,
    placed,
    reshaped,
    shifted,
    slid,
    title_of_all,
)
from tilelayout.drawing.naming import corner_title, edge_title
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.placing import AlongLine, Direction
from tilelayout.drawing.preview import SnapKind, SnapMarker
from tilelayout.drawing.reach import Reach, Snapped
from tilelayout.drawing.scene import Scene, SnapLine
from tilelayout.drawing.snapping import snap
from tilelayout.job.values import Point, Surface


@dataclass(frozen=True)
class Dragged:
    """Where a drag has come to: the edit for it, and the snap that led there."""

    edit: Edit
    marker: SnapMarker | None


@dataclass(frozen=True)
class Grip:
    """What is dragged: `pick` was pressed at `pressed`, and all of `picks` go with it.

    `surface` is the surface as it was then.
    """

    surface: Surface
    pick: Pick
    picks: tuple[Pick, ...]
    pressed: Point
    kinds: frozenset[SnapKind]

    @property
    def label(self) -> str:
        """The name of the step for undo."""
        return f"Move {title_of_all(self.surface, self.picks)}"

    def dragged_to(self, point: Point, reach: Reach) -> Dragged:
        """Return what the drag does with the pointer at `point`."""
        away = (point[0] - self.pressed[0], point[1] - self.pressed[1])
        if self.pick.kind is PickKind.EDGE and len(self.picks) == 1:
            return self._edge_by(away, reach)
        tried = [(grabbed, self._snapped(grabbed, away, reach)) for grabbed in self._grabbed]
        grabbed, target = min(tried, key=lambda each: _merit(each[0], away, each[1]))
        if len(self.picks) == 1 and len(self._grabbed) == 1:
            return Dragged(placed(self.surface, self.pick, target.point), target.marker)
        by = (target.point[0] - grabbed[0], target.point[1] - grabbed[1])
        return Dragged(shifted(self.surface, self.picks, by), target.marker)

    def _snapped(self, grabbed: Point, away: Point, reach: Reach) -> Snapped:
        wanted = (grabbed[0] + away[0], grabbed[1] + away[1])
        return snap(wanted, self._scene, reach) or Snapped(wanted)

    @cached_property
    def _grabbed(self) -> list[Point]:
        """The points that may snap: the corner itself, a circle's centre, every corner of a cutout."""
        if self.pick.kind is PickKind.CUTOUT:
            polygon = self.surface.cutouts[self.pick.index].polygon
            if polygon is not None:
                return list(polygon)
        return [place_of(self.surface, self.pick)]

    @cached_property
    def _scene(self) -> Scene:
        moving = corners_of(self.surface, self.picks)
        scenes = [surface_scene(self.surface, moving=moving, without_cutouts=cutouts_of(self.picks))]
        if self.pick.kind is PickKind.CORNER:
            scenes += [self._ways_from(side, moving) for side in (-1, 1)]
        return joined(scenes).only(self.kinds)

    def _ways_from(self, side: int, moving: frozenset[int]) -> Scene:
        """The ways from a neighbour of the dragged corner, counted from the edge beyond it."""
        outline = self.surface.outline
        near, beyond = ((self.pick.index + side * step) % len(outline) for step in (1, 2))
        if near in moving or beyond in moving:
            return Scene()
        edge = beyond if side < 0 else near
        return ways_from(outline[near], outline[beyond], edge_title(self.surface, edge))

    def _edge_by(self, away: Point, reach: Reach) -> Dragged:
        at = self.pick.index
        along = unit(*ends_of(self.surface, at))
        square: Direction = (-along[1], along[0])
        middle = place_of(self.surface, self.pick)
        locus = AlongLine(_zero(middle, square), square)
        wanted = (middle[0] + away[0], middle[1] + away[1])
        target = snap(wanted, self._edge_scene(along), reach, locus) or Snapped(middle)
        offset = _dot(target.point, square) - _dot(middle, square)
        return Dragged(reshaped(self.surface, slid(self.surface, at, offset), {}), target.marker)

    def _edge_scene(self, along: Direction) -> Scene:
        """The lines that the edge can come to lie on: through every corner that stays, parallel to it."""
        moving = corners_of(self.surface, self.picks)
        still = [at for at in range(len(self.surface.outline)) if at not in moving]
        words = "in line with {}"
        lines = (
            SnapLine(SnapKind.ALIGNED, self.surface.outline[at], along, words.format(corner_title(at)))
            for at in still
        )
        return Scene(lines=tuple(lines)).only(self.kinds)


def _merit(grabbed: Point, away: Point, target: Snapped) -> tuple[int, float]:
    """Order of the snaps of several points: to things first, then to the grid, the nearest first."""
    if target.marker is None:
        return (2, 0.0)
    wanted = (grabbed[0] + away[0], grabbed[1] + away[1])
    return (int(target.marker.kind is SnapKind.GRID), math.dist(wanted, target.point))


def _zero(middle: Point, square: Direction) -> Point:
    """From where round steps count: from the axis for an edge along one, else from where the edge was."""
    if 0.0 not in square:
        return middle
    return (middle[0] - square[0] * _dot(middle, square), middle[1] - square[1] * _dot(middle, square))


def _dot(point: Point, direction: Direction) -> float:
    return point[0] * direction[0] + point[1] * direction[1]
