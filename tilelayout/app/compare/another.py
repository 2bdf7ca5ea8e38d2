"""Makes another layout to compare with: a copy, or one of the centred starts that lies otherwise.

A copy of the only layout would be equal in every row. So the first other one is the best of the four centred
starts that lays the surface differently; its name says which it is.
"""

from __future__ import annotations

from itertools import product

from msgspec import structs

from tilelayout.app.centring import Centre, centred_start
from tilelayout.base.errors import TileLayoutError
from tilelayout.job.edits.ids import free_id
from tilelayout.job.edits.layouts import add_layout
from tilelayout.job.values import Job, Layout
from tilelayout.planning.plan import Plan, plan

_SAME = 0.05


def copy_of(layout: Layout, job: Job) -> Layout:
    """Return the same layout under the next free letter, as yet without a name."""
    return structs.replace(layout, id=free_id((each.id for each in job.layouts), "A"), name="")


def another_layout(job: Job, id: str) -> Layout:
    """Return a layout to compare the one with this id with; its copy if every centred start lays the same."""
    copy = copy_of(job.layout(id), job)
    try:
        laid = plan(job, id)
        others = [other for other in _centred(job, laid, copy) if _differs(other, laid)]
    except TileLayoutError:
        return copy
    best = max(others, key=lambda other: (-len(other.slivers), other.narrowest or 0.0), default=None)
    return copy if best is None else best.layout


def _centred(job: Job, laid: Plan, copy: Layout) -> list[Plan]:
    found = []
    for across, up in product(Centre, Centre):
        name = f"{across} centred across, {up} up"
        start = centred_start(laid, across, up)
        layout = structs.replace(copy, start=start, name=name[:1].upper() + name[1:])
        found.append(plan(add_layout(job, layout), layout.id))
    return found


def _differs(one: Plan, other: Plan) -> bool:
    mine, its = ({cut.edge: cut.usual for cut in each.borders} for each in (one, other))
    return mine.keys() != its.keys() or any(abs(mine[edge] - its[edge]) > _SAME for edge in mine)
