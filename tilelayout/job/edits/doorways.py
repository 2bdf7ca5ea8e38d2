"""The edit that makes an opening in a wall: two corners and a doorway between them, in one change."""

from __future__ import annotations

from math import dist

from msgspec.structs import replace

from tilelayout.base.errors import EditError
from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.job.edits.parts import existing, with_id
from tilelayout.job.edits.surfaces import insert_corner, set_edge
from tilelayout.job.values import EdgeRole, Job, Point


def add_doorway(job: Job, id: str, at: int, begin: float, width: float) -> tuple[Job, int]:
    """Return the job with a doorway in edge `at`, `begin` mm from its first corner, and its edge's number.

    EditError if the edge is no straight wall or the doorway does not fit in it.
    """
    surface = with_id(job.surfaces, id, "surface")
    edge = surface.edge(existing(surface.outline, at, "edge"))
    if edge.role is not EdgeRole.WALL or edge.through is not None:
        raise EditError("A doorway is made in a straight wall.", "Choose a straight wall.")
    start, end = surface.outline[at], surface.outline[(at + 1) % len(surface.outline)]
    length = dist(start, end)
    if begin < -SAME_PLACE or width < SAME_PLACE or begin + width > length + SAME_PLACE:
        raise EditError(
            "The doorway does not fit in this wall.", "Make it narrower, or begin nearer to the end."
        )
    return _parted(job, id, at, start, end, (begin / length, (begin + width) / length))


def _parted(
    job: Job, id: str, at: int, start: Point, end: Point, shares: tuple[float, float]
) -> tuple[Job, int]:
    """Part the edge at both shares of its length, the farther first, and open what is between."""
    length = dist(start, end)
    for share in reversed(shares):
        if SAME_PLACE < share * length < length - SAME_PLACE:
            point = (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
            job = insert_corner(job, id, at, point)
    opening = at + (shares[0] * length > SAME_PLACE)
    edge = with_id(job.surfaces, id, "surface").edge(opening)
    return set_edge(job, id, replace(edge, role=EdgeRole.DOORWAY, name="")), opening
