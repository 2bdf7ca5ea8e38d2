"""Puts what a person has drawn into the job: the tile's outline, further tiles of the cell, the layouts."""

from __future__ import annotations

from msgspec import structs

from tilelayout.base.errors import EditError
from tilelayout.job.edits import layouts as layout_edits
from tilelayout.job.edits import tiles as tile_edits
from tilelayout.job.edits.ids import free_id
from tilelayout.job.values import Job, Layout, Point, PolygonTile, Tile, TileBase
from tilelayout.layout.drafts import Draft, fit_of
from tilelayout.layout.drawn_cells import NAME_IN_FILE, DrawnCell, drawn_cell

_MEASURED = ("id", "name", "offcuts", "whole_on_hand")
"""What belongs to the tile as it was before it was drawn anew."""


def with_drawn_cell(job: Job, tile_id: str, draft: Draft) -> Job:
    """Return the job with a tile drawn anew, and laid as drawn by every layout that lays it.

    Further outlines become further tiles; those that were laid in their roles before are drawn anew.
    EditError if the draft does not fill the plane or an outline cannot be.
    """
    if not fit_of(draft).fills:
        raise EditError("The tiles drawn do not fill the plane.", "Mend the outlines or the vectors first.")
    cell = drawn_cell(draft)
    old = job.tile(tile_id)
    job = tile_edits.replace_tile(job, tile_id, _drawn(old, cell.outlines[0], _name(old)))
    for layout in job.layouts:
        if layout.tile == tile_id:
            job = _laid(job, layout, cell, draft.joint)
    return job


def _laid(job: Job, layout: Layout, cell: DrawnCell, joint: float) -> Job:
    """Return the job with a layout of the tile laid as drawn, with a tile in each of the cell's roles."""
    more: dict[str, str] = {}
    for role, outline in zip(cell.roles, cell.outlines[1:], strict=True):
        job, more[role] = _with_further_tile(job, layout, role, outline)
    return layout_edits.replace_layout(
        job,
        layout.id,
        pattern=NAME_IN_FILE,
        settings=cell.settings,
        more_tiles=more,
        joint=joint,
        angle=layout.angle if layout.pattern == NAME_IN_FILE else 0.0,
    )


def _with_further_tile(job: Job, layout: Layout, role: str, outline: tuple[Point, ...]) -> tuple[Job, str]:
    """Return the job with a tile of this outline for a role, and its id; the one there was is kept."""
    was = layout.more_tiles.get(role)
    if was is not None and isinstance(job.tile(was), PolygonTile):
        old = job.tile(was)
        return tile_edits.replace_tile(job, was, _drawn(old, outline, old.name)), was
    id = free_id((tile.id for tile in job.tiles), f"{layout.tile}-{role}")
    number = role.rpartition("-")[2]
    title = job.tile(layout.tile).title
    new = PolygonTile(id=id, name=f"{title}, tile {number}", outline=outline)
    new = structs.replace(new, thickness=job.tile(layout.tile).thickness)
    return tile_edits.add_tile(job, new), id


def _name(old: Tile) -> str:
    """A usual name tells the shape ("Square 300 x 300"), which is no longer so."""
    return old.name if isinstance(old, PolygonTile) else "Drawn tile"


def _drawn(old: Tile, outline: tuple[Point, ...], name: str) -> PolygonTile:
    """Return the old tile with a drawn outline; what is on hand of another outline is forgotten."""
    if isinstance(old, PolygonTile) and old.outline == outline:
        return old
    kept = {key: getattr(old, key) for key in TileBase.__struct_fields__ if key not in _MEASURED}
    return PolygonTile(id=old.id, name=name, outline=outline, **kept)
