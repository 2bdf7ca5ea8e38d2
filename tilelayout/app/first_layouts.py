"""What stands ready before a person has entered anything: tiles of usual sizes, and how a tile is first
laid.

The sizes are round numbers to be measured and mended; common practice, no source. What was entered once
(joint, gap) carries over to the next surface.
"""

from __future__ import annotations

from typing import Any

from msgspec import structs

from tilelayout.app.cards.ways import Way, ways_for
from tilelayout.app.centring import best_centred
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits import layouts as layout_edits
from tilelayout.job.edits import tiles as tile_edits
from tilelayout.job.edits.ids import free_id
from tilelayout.job.values import (
    HexagonTile,
    Job,
    Layout,
    ParallelogramTile,
    PicketTile,
    RectangleTile,
    RhombusTile,
    Surface,
    Tile,
    TriangleTile,
)

_INCH = 25.4
_IMPERIAL = (LengthStyle.INCH, LengthStyle.FEET, LengthStyle.DECIMAL_FEET)

SHAPE_WORDS = {"square": "S&quare", "oblong": "Oblong", "hexagon": "Hexagon"}
"""The shapes to begin with; the first letter of the first is needed elsewhere on its card."""


OTHER_SHAPES = (
    ("Rectangle", "rectangle"),
    ("Hexagon", "hexagon"),
    ("Parallelogram", "parallelogram"),
    ("Rhombus", "rhombus"),
    ("Triangle", "triangle"),
    ("Picket", "picket"),
)
"""The shapes a tile can be given, with their names in the job file."""


def usual_tile(shape: str, job: Job) -> Tile:
    """Return a tile of a usual size in the job's units: of a shape in the job file, "square" or "oblong"."""
    in_inches = job.show_lengths in _IMPERIAL
    unit, mark = (_INCH, " in") if in_inches else (1.0, "")
    id = free_id((tile.id for tile in job.tiles), f"{shape}-tile")
    if shape == "hexagon":
        across = 9 if in_inches else 230
        return HexagonTile(id=id, name=f"Hexagon {across}{mark}", across_flats=across * unit)
    if shape in _FURTHER:
        return _further_tile(shape, id, in_inches)
    short = 12 if in_inches else 300
    long = short if shape == "square" else 2 * short
    name = f"{shape.capitalize()} {short} × {long}{mark}"
    return RectangleTile(id=id, name=name, length=long * unit, width=short * unit)


_FURTHER = ("parallelogram", "rhombus", "triangle", "picket")


def _further_tile(shape: str, id: str, in_inches: bool) -> Tile:
    unit, mark = (_INCH, " in") if in_inches else (25.0, "")

    def named(*sizes: int) -> str:
        shown = sizes if in_inches else tuple(25 * size for size in sizes)
        return f"{shape.capitalize()} {' × '.join(map(str, shown))}{mark}"

    if shape == "parallelogram":
        return ParallelogramTile(
            id=id, name=named(16, 4), length=16 * unit, width=4 * unit, angle=45.0, left_and_right=True
        )
    if shape == "rhombus":
        return RhombusTile(id=id, name=named(6), side=6 * unit, angle=60.0)
    if shape == "triangle":
        return TriangleTile(id=id, name=named(8), side=8 * unit)
    return PicketTile(id=id, name=named(12, 3), length=12 * unit, width=3 * unit, point=1.5 * unit)


def reshaped(job: Job, old: Tile, new: Tile) -> Job:
    """Return the job with `new` in place of `old`; layouts in a pattern that does not suit it get one that
    does."""
    job = tile_edits.replace_tile(job, old.id, new)
    for layout in job.layouts:
        if layout.tile == old.id and not _suits(layout, new):
            job = layout_edits.replace_layout(job, layout.id, **laid_as(ways_for(new)[0]))
    return job


def _suits(layout: Layout, tile: Tile) -> bool:
    return any(way.pattern == layout.pattern for way in ways_for(tile))


def with_tile_laid(job: Job, surface: Surface, layout: Layout | None, tile: Tile) -> Job:
    """Return the job with the tile laid on the surface: by the layout there is, else by a first one."""
    if tile not in job.tiles:
        job = tile_edits.add_tile(job, tile)
    if layout is None:
        first = first_layout(job, surface, tile)
        return best_centred(layout_edits.add_layout(job, first), first.id)
    changes: dict[str, Any] = {"tile": tile.id}
    if not _suits(layout, tile):
        changes |= laid_as(ways_for(tile)[0])
    return layout_edits.replace_layout(job, layout.id, **changes)


def laid_as(way: Way) -> dict[str, Any]:
    """Return what changes in a layout when it is laid another way."""
    return {"pattern": way.pattern, "settings": way.keys}


def first_layout(job: Job, surface: Surface, tile: Tile) -> Layout:
    """Return a plain layout from the lower left corner, joint and gap as in the last layout."""
    id = free_id((each.id for each in job.layouts), "A")
    plain = Layout(id=id, surface=surface.id, tile=tile.id, **laid_as(ways_for(tile)[0]))
    if job.layouts:
        plain = structs.replace(plain, joint=job.layouts[-1].joint, gap=job.layouts[-1].gap)
    elif job.show_lengths in _IMPERIAL:
        plain = structs.replace(plain, joint=_INCH / 8, gap=_INCH / 4)
    left, bottom = (min(axis) for axis in zip(*surface.outline, strict=True))
    return structs.replace(plain, start=(left + plain.gap, bottom + plain.gap))
