"""Fills the roles of a pattern that takes further tiles: with tiles of the job that fit, else with new ones.

Whoever chooses a pattern by its picture gets a layout that can be laid; which tiles it takes can be chosen
afterwards.
"""

from __future__ import annotations

from msgspec import structs

from tilelayout.base.errors import TileLayoutError
from tilelayout.base.units import format_length
from tilelayout.job.edits import layouts as layout_edits
from tilelayout.job.edits import tiles as tile_edits
from tilelayout.job.edits.ids import free_id
from tilelayout.job.values import Job, Layout, Tile
from tilelayout.layout.patterns import cell_of, more_sizes, roles_of, shape_of
from tilelayout.layout.roles import Role, Size, can_be_made, is_of_size, tile_of_size


def filled(job: Job, layout_id: str) -> Job:
    """Return the job with a tile in every role of the layout's pattern, and in no other.

    What fits stays as it is. EditError if a tile cannot be of the size that would fit.
    """
    layout = job.layout(layout_id)
    roles = roles_of(layout)
    known = {role.name: id for role in roles if (id := layout.more_tiles.get(role.name)) is not None}
    job = layout_edits.replace_layout(job, layout_id, more_tiles=known)
    if not roles or fits(job, job.layout(layout_id)):
        return job
    sizes = more_sizes(layout, job.tile(layout.tile))
    for role in roles:
        if role.name in sizes and can_be_made(sizes[role.name]):
            job = _with_role(job, layout_id, role, sizes[role.name])
    return job


def fits(job: Job, layout: Layout) -> bool:
    """Claim that the pattern can be laid with the layout's tiles."""
    try:
        cell_of(layout, job.tile(layout.tile), job.more_tiles(layout))
    except TileLayoutError:
        return False
    return True


def candidates(job: Job, role: Role) -> tuple[Tile, ...]:
    """Return the tiles of the job that are of a shape the role takes."""
    return tuple(tile for tile in job.tiles if shape_of(tile) in role.shapes)


def _with_role(job: Job, layout_id: str, role: Role, size: Size) -> Job:
    """Return the job with a tile of this size in the role; one that is there goes before a new one."""
    layout = job.layout(layout_id)
    there = [job.tile(layout.more_tiles[role.name])] if role.name in layout.more_tiles else []
    fitting = [tile for tile in (*there, *candidates(job, role)) if is_of_size(tile, size)]
    if not fitting:
        fitting = [_new_tile(job, layout, role, size)]
        job = tile_edits.add_tile(job, fitting[0])
    return layout_edits.set_more_tile(job, layout_id, role.name, fitting[0].id)


def _new_tile(job: Job, layout: Layout, role: Role, size: Size) -> Tile:
    """Return a tile of this size, in everything else like the layout's own."""
    own = job.tile(layout.tile)
    id = free_id((tile.id for tile in job.tiles), f"{role.name}-tile")
    long, short = (format_length(side, job.show_lengths) for side in size)
    name = f"{role.name.capitalize()} {long} × {short}"
    made = tile_of_size(id, (round(size[0], 3), round(size[1], 3)))
    return structs.replace(made, name=name, thickness=own.thickness, edge=own.edge)
