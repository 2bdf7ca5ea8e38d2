"""The plain starts that a person would try first: in each direction a tile, or a joint, in the middle.

Centring makes the border cuts of opposite straight walls equal. Which of the two leaves the wider cut depends
on the room, and may differ from one direction to the other (the trade's rule "centre and balance" names
both).
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from itertools import product
from math import cos, radians, sin

import numpy as np

from tilelayout.geometry.growing import grown
from tilelayout.job.edits.layouts import move_start
from tilelayout.job.values import Job, Point
from tilelayout.layout.values import Points
from tilelayout.planning.plan import Plan, plan


class Centre(StrEnum):
    """What stands in the middle."""

    TILE = "tile"
    JOINT = "joint"


def centred_start(plan: Plan, across: Centre | None = None, up: Centre | None = None) -> Point:
    """Return the start that centres a tile or a joint of the layout in the region, in one direction or both.

    The directions are those of the pattern, turned with it; None leaves the start as it is in that direction.
    """
    ring = np.vstack(plan.region.rings)
    middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
    turn = radians(plan.layout.angle)
    along = np.array([(cos(turn), sin(turn)), (-sin(turn), cos(turn))])
    start, wanted = along @ np.array(plan.layout.start), along @ middle
    for axis, centre in enumerate((across, up)):
        if centre is not None:
            start[axis] = wanted[axis] - _from_start(plan, centre)[axis]
    x, y = start @ along
    return float(x), float(y)


def best_centred(job: Job, layout_id: str) -> Job:
    """Return the job with the layout at the one of its four centred starts that has the best border cuts.

    The best has the fewest slivers, and among those the widest narrowest place.
    """
    return max(_centred(job, layout_id), key=lambda each: _merit(plan(each, layout_id)))


def _centred(job: Job, layout_id: str) -> Iterator[Job]:
    laid = plan(job, layout_id)
    for across, up in product(Centre, Centre):
        yield move_start(job, layout_id, centred_start(laid, across, up))


def _merit(laid: Plan) -> tuple[float, float]:
    return -len(laid.slivers), laid.narrowest or 0.0


def _from_start(plan: Plan, centre: Centre) -> Points:
    """Return where the thing to centre lies from the start (2,), in the pattern's own directions.

    That is the middle of the first tile, or a crossing of joints: the lowest corner on its left once it has
    grown by half a joint.
    """
    face = plan.laid.cell.faces[0].outline
    if centre is Centre.TILE:
        return np.asarray((face.min(axis=0) + face.max(axis=0)) / 2)
    crossings = grown(face, plan.layout.joint / 2)
    return np.asarray(min(crossings, key=lambda at: (round(float(at[1]), 3), float(at[0]))))
