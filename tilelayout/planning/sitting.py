"""Will the tiles sit? Each piece of a layout laid on the surveyed surface as a rigid plate.

Laid dry, a plate may rock, step to its neighbours or lie hollow; held against the step allowed between tiles
and the bed that the mortar takes, that gives the tiles to worry about. Beside it stands the other way to
lay them: all undersides set to the one plane that needs the thinnest bed. A tile that rocks dry but whose
bed up to that plane the mortar takes can be set in it; where it does not, filler comes first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from tilelayout.base.units import LengthStyle
from tilelayout.flatness.common_plane import Beds, Plane, beds_under, common_plane
from tilelayout.flatness.coverage import lacks
from tilelayout.flatness.mesh import Flags, Numbers
from tilelayout.flatness.plate_joints import Steps, joints_between, steps_at
from tilelayout.flatness.plates import Bearings, bearings
from tilelayout.flatness.resting_plates import Rested, rested_steps
from tilelayout.flatness.values import Spot
from tilelayout.job.values import Job, Layout, Tile
from tilelayout.planning.kept import Kept
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.plates_laid import PlatesLaid, plates_laid
from tilelayout.planning.surface import Flatness, flatness
from tilelayout.planning.worries import SHOWN, Allowed, Step, Trouble, Worry, allowed
from tilelayout.practice.case import Case

FACING = 0.5
"""Pieces that stand the joint and so much more (mm) apart are still neighbours: arcs are cut into chords."""


@dataclass(frozen=True, eq=False)
class Sitting:
    """How the tiles of a layout lie on a surveyed surface. Arrays go by the plates laid (i,)."""

    one: Flatness
    plan: Plan
    plates: PlatesLaid
    on: Bearings
    rest: Rested
    steps: Steps
    plane: Plane
    beds: Beds
    by_tile: dict[str, Allowed]
    lacks: tuple[str, ...]

    @property
    def layout(self) -> Layout:
        """The layout that is laid."""
        return self.plan.layout

    @cached_property
    def unread(self) -> tuple[str, ...]:
        """The ids of the pieces that lie partly beyond the readings, so that no one can say they sit."""
        return tuple(dict.fromkeys(self.plates.ids[k] for k in np.flatnonzero(~self.on.is_read)))

    @property
    def ok(self) -> bool | None:
        """Whether all tiles sit when laid dry; None if not all can be judged and nothing was found."""
        if self.worries:
            return False
        return None if self.lacks or self.unread else True

    @property
    def can_be_set(self) -> bool:
        """Claim that the mortar takes the bed of every tile to worry about, set to the common plane."""
        return not any(worry.needs_filler for worry in self.worries)

    @cached_property
    def rock(self) -> float:
        """The most that any tile rocks, mm."""
        return float(self.rest.rocks.max(initial=0.0))

    @cached_property
    def step(self) -> float:
        """The largest step between neighbours, mm."""
        return float(self.steps.worst.max(initial=0.0))

    @cached_property
    def bed(self) -> tuple[float, float]:
        """The thinnest and thickest bed under any tile, all set to the common plane, mm."""
        thinnest, thickest = self.beds.thinnest, self.beds.thickest
        return float(thinnest.min(initial=np.inf)), float(thickest.max(initial=0.0))

    @property
    def knows_bow(self) -> bool:
        """Claim that the warpage of every tile laid is measured."""
        return all(tile.warpage is not None for tile in self.plates.tiles)

    @cached_property
    def worries(self) -> tuple[Worry, ...]:
        """The tiles to worry about, the worst first, each piece once."""
        found = (self._worry(plate) for plate in np.flatnonzero(self._is_out).tolist())
        worst = sorted(found, key=lambda worry: (-worry.excess, worry.id))
        by_id: dict[str, Worry] = {}
        for worry in worst:
            by_id.setdefault(worry.id, worry)
        return tuple(by_id.values())

    @cached_property
    def _is_out(self) -> Flags:
        over = self.rest.rocks > self._may_step + SHOWN
        over |= self._step_worst > self._may_step + SHOWN
        return np.asarray(over | self._is_hollow)

    @cached_property
    def _is_hollow(self) -> Flags:
        least, most = (self._figures(name) for name in ("least_bed", "most_bed"))
        return np.asarray(least + self.rest.hollows > most + SHOWN)

    @cached_property
    def _may_step(self) -> Numbers:
        """The step allowed at each plate: between two tiles that of the stricter."""
        own = self._figures("step")
        least = own.copy()
        for side in (0, 1):
            np.minimum.at(least, self.steps.joints.pairs[:, side], own[self.steps.joints.pairs[:, 1 - side]])
        return least

    def _figures(self, name: str) -> Numbers:
        """What each plate is allowed, in the job's own style of lengths."""
        style = self.plan.style
        by_id = {id: getattr(each, name).in_style(style) for id, each in self.by_tile.items()}
        return np.array([by_id[self.plates.tiles[k].id] for k in self.on.kept.tolist()], dtype=float)

    @cached_property
    def _worst_joint(self) -> Numbers:
        """The joint with the largest step at each plate, -1 where it has no neighbour."""
        found = np.full(len(self.on.kept), -1)
        for joint in np.argsort(self.steps.worst, kind="stable").tolist():
            found[self.steps.joints.pairs[joint]] = joint
        return found

    @cached_property
    def _step_worst(self) -> Numbers:
        worst = np.append(self.steps.worst, 0.0)
        return np.asarray(worst[self._worst_joint])

    def _worry(self, plate: int) -> Worry:
        rest, most = self.rest, float(self._figures("most_bed")[plate])
        is_so = {
            Trouble.ROCKS: rest.rocks[plate] > self._may_step[plate] + SHOWN,
            Trouble.STEPS: self._step_worst[plate] > self._may_step[plate] + SHOWN,
            Trouble.HOLLOW: bool(self._is_hollow[plate]),
        }
        number = int(self.on.kept[plate])
        return Worry(
            id=self.plates.ids[number],
            plate=number,
            troubles=tuple(trouble for trouble, holds in is_so.items() if holds),
            rock=float(rest.rocks[plate]),
            rocks_on=_spot(rest.high_spots[plate]),
            sinks_at=_spot(rest.rocks_at[plate]),
            step=self._step(plate),
            hollow=float(rest.hollows[plate]),
            bed=(float(self.beds.thinnest[plate]), float(self.beds.thickest[plate])),
            allowed=self.by_tile[self.plates.tiles[number].id],
            most_bed=most,
        )

    def _step(self, plate: int) -> Step | None:
        joint = int(self._worst_joint[plate])
        if joint < 0:
            return None
        one, other = self.steps.joints.pairs[joint].tolist()
        to = self.plates.ids[int(self.on.kept[other if one == plate else one])]
        at = _spot(self.steps.at[joint])
        return Step(to, float(self.steps.floor[joint]), float(self.steps.bow[joint]), at)


def _spot(place: Numbers) -> Spot:
    x, y = place.tolist()
    return x, y


@dataclass(frozen=True)
class LaidSoFar:
    """How many plates of how many have been laid on the surface; `sitting` once all are."""

    done: int
    of: int
    sitting: Sitting | None = None


def sitting(job: Job, layout_id: str, at: int) -> Sitting | None:
    """Return how a layout lies on survey `at`; None if the readings make no surface, or nothing is laid.

    SurveyError if the readings lie outside the surface, LayoutError if the layout cannot be laid.
    """
    last = None
    for last in sitting_steps(job, layout_id, at):  # noqa: B007  (the last is what counts)
        pass
    return None if last is None else last.sitting


def sitting_steps(job: Job, layout_id: str, at: int) -> Iterator[LaidSoFar]:
    """Yield how far the laying of the plates has come; the last has the answer. Nothing if there is none."""
    one, made = flatness(job, at), plan(job, layout_id)
    kept = _kept.find((one, made))
    if kept is not None:
        yield LaidSoFar(len(kept.plates.ids), len(kept.plates.ids), kept)
    elif one.surveyed.mesh is not None:
        yield from _laying(job, one, made)


def _laying(job: Job, one: Flatness, made: Plan) -> Iterator[LaidSoFar]:
    mesh, plates = one.surveyed.mesh, plates_laid(made)
    assert mesh is not None
    count = len(plates.ids)
    yield LaidSoFar(0, count)
    on = bearings(mesh, one.surveyed.heights, plates.shapes) if count else None
    if on is None or not len(on.kept):
        return
    for rest in rested_steps(on):
        yield LaidSoFar(len(rest.rocks), count)
    found = _judged(job, one, made, plates, on, rest)
    yield LaidSoFar(count, count, _kept.get((one, made), lambda: found))


def _judged(job: Job, one: Flatness, made: Plan, plates: PlatesLaid, on: Bearings, rest: Rested) -> Sitting:
    by_tile = {tile.id: tile for tile in plates.tiles}
    may = {id: allowed(Case(job, made.surface, tile, made.layout)) for id, tile in by_tile.items()}
    joints = joints_between(plates.shapes[on.kept], _widest_joint(made.layout) + FACING)
    steps = steps_at(joints, rest, plates.bows[on.kept])
    plane = common_plane(on.points, on.heights)
    least = max(each.least_bed.in_style(made.style) for each in may.values())
    missing = _lacks(one, by_tile.values(), may, made.style)
    beds = beds_under(on, plane, least)
    return Sitting(one, made, plates, on, rest, steps, plane, beds, may, missing)


def _widest_joint(layout: Layout) -> float:
    own = None if layout.border is None else layout.border.joint
    return max(layout.joint, own or 0.0)


def _lacks(
    one: Flatness, tiles: Iterable[Tile], may: dict[str, Allowed], style: LengthStyle
) -> tuple[str, ...]:
    """What the survey lacks to tell a step so small: as fine as the standard's shortest length asks for."""
    found: dict[str, None] = {}
    for tile in tiles:
        for limit in one.limits(tile)[-1:]:
            asked = replace(limit, limit=may[tile.id].step.value)
            found |= dict.fromkeys(lack.sentence.said(style) for lack in lacks(one.surveyed, asked))
    return tuple(found)


_kept: Kept[Sitting] = Kept(8)
