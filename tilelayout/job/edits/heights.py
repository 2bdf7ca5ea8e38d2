"""Edits of what a floor meets: the floor beyond an edge, a door, a flange, an appliance.

All heights are above the bare base of the surface, in mm.
"""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tilelayout.job.edits.grounds import set_adhesive
from tilelayout.job.edits.parts import existing, with_id
from tilelayout.job.edits.surfaces import replace_cutout, set_edge
from tilelayout.job.ground import Adhesive, Layer
from tilelayout.job.kinds import CutoutKind
from tilelayout.job.values import Edge, Job, Surface


def set_next_floor(job: Job, id: str, at: int, height: float | None) -> Job:
    """Return the job with the height of the floor beyond edge `at`; its layers give way to it."""
    return set_edge(job, id, replace(_edge(job, id, at), meets=height, beyond=()))


def set_floor_beyond(job: Job, id: str, at: int, layers: Iterable[Layer]) -> Job:
    """Return the job with the layers of the floor beyond edge `at`, lowest first, in place of its height."""
    return set_edge(job, id, replace(_edge(job, id, at), meets=None, beyond=tuple(layers)))


def set_door(job: Job, id: str, at: int, height: float | None) -> Job:
    """Return the job with the height of a door's underside over edge `at`; None if no door is there."""
    return set_edge(job, id, replace(_edge(job, id, at), door=height))


def set_bevelled(job: Job, id: str, at: int, is_bevelled: bool) -> Job:
    """Return the job with the step at edge `at` bevelled or upright."""
    return set_edge(job, id, replace(_edge(job, id, at), bevelled=is_bevelled))


def set_cutout_kind(job: Job, id: str, index: int, kind: CutoutKind | None) -> Job:
    """Return the job with what a cutout is; its heights meant something else before, so they go."""
    cutout = _surface(job, id).cutouts[existing(_surface(job, id).cutouts, index, "cutout")]
    return replace_cutout(job, id, index, replace(cutout, kind=kind, meets=None, tall=None))


def set_cutout_heights(job: Job, id: str, index: int, *, meets: float | None, tall: float | None) -> Job:
    """Return the job with the heights of a flange or an appliance."""
    cutout = _surface(job, id).cutouts[existing(_surface(job, id).cutouts, index, "cutout")]
    return replace_cutout(job, id, index, replace(cutout, meets=meets, tall=tall))


def set_bed_end(job: Job, id: str, length: float | None, *, is_least: bool) -> Job:
    """Return the job with the thinnest or thickest bed of adhesive; None forgets both.

    The other end follows where the two would cross or was not known.
    """
    old = _surface(job, id).adhesive or Adhesive()
    bed = None
    if length is not None:
        least, most = old.bed or (length, length)
        bed = (length, max(length, most)) if is_least else (min(least, length), length)
    new = replace(old, bed=bed)
    return set_adhesive(job, id, None if new == Adhesive() else new)


def _edge(job: Job, id: str, at: int) -> Edge:
    surface = _surface(job, id)
    return surface.edge(existing(surface.outline, at, "edge"))


def _surface(job: Job, id: str) -> Surface:
    return with_id(job.surfaces, id, "surface")
