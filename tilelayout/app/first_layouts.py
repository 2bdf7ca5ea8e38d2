"""What stands ready before a person has entered anything: tiles of usual sizes, and how a tile is first
laid.

The sizes are round numbers to be measured and mended; common practice, no source. What was entered once
(joint, gap) carries over to the next surface.
"""

from __future__ import annotations

from math import sqrt
from typing import Any

from msgspec import structs

from tilelayout.app.cards.ways import Way, ways_for
from tilelayout.app.centring import best_centred
from tilelayout.app.role_tiles import filled
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits import layouts as layout_edits
from tilelayout.job.edits import tiles as tile_edits
from tilelayout.job.edits.ids import free_id
from tilelayout.job.values import (
    HexagonMosaicTile,
    HexagonTile,
    Job,
    Layout,
    MosaicSheet,
    MosaicTile,
    OctagonTile,
    ParallelogramTile,
    PicketTile,
    RectangleTile,
    RhombusTile,
    RoundMosaicTile,
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
    ("Octagon", "octagon"),
    ("Parallelogram", "parallelogram"),
    ("Rhombus", "rhombus"),
    ("Triangle", "triangle"),
    ("Picket", "picket"),
    ("Mosaic sheet", "mosaic"),
)
"""The shapes a tile can be given, with their names in the job file."""

CHIP_SHAPES = (("Rectangles", "mosaic"), ("Hexagons", "hexagon-mosaic"), ("Round", "round-mosaic"))
"""What the chips of a mosaic sheet can be, and what the sheet then is in the job file."""


def usual_tile(shape: str, job: Job) -> Tile:
    """Return a tile of a usual size in the job's units: of a shape in the job file, "square" or "oblong"."""
    in_inches = job.show_lengths in _IMPERIAL
    unit, mark = (_INCH, " in") if in_inches else (1.0, "")
    id = free_id((tile.id for tile in job.tiles), f"{shape}-tile")
    if shape == "hexagon":
        across = 9 if in_inches else 230
        return HexagonTile(id=id, name=f"Hexagon {across}{mark}", across_flats=_size(across, unit))
    if shape in dict(CHIP_SHAPES).values():
        return _mosaic_sheet(shape, id, in_inches)
    if shape in _FURTHER:
        return _further_tile(shape, id, in_inches)
    short = 12 if in_inches else 300
    long = short if shape == "square" else 2 * short
    name = f"{shape.capitalize()} {short} × {long}{mark}"
    return RectangleTile(id=id, name=name, length=_size(long, unit), width=_size(short, unit))


def _size(count: float, unit: float) -> float:
    """Return a size in mm without what binary fractions leave behind: 24 x 25.4 is 609.6."""
    return round(count * unit, 4)


def _mosaic_sheet(shape: str, id: str, in_inches: bool) -> Tile:
    """Return a sheet whose chips and joints fill about a foot or 300 mm, twelve or more to a side."""
    side, joint = (_INCH * 15 / 16, _INCH / 16) if in_inches else (23.0, 2.0)
    if shape == "hexagon-mosaic":
        return HexagonMosaicTile(
            id=id,
            name=f"Hexagon mosaic {'1 in' if in_inches else '23'}",
            thickness=6.0,
            across_flats=side,
            chips_across=12,
            chips_up=14,
            chip_joint=joint,
        )
    if shape == "round-mosaic":
        return RoundMosaicTile(
            id=id,
            name=f"Round mosaic {'3/4 in' if in_inches else '19'}",
            thickness=6.0,
            diameter=_INCH * 3 / 4 if in_inches else 19.0,
            chips_across=14,
            chips_up=16,
            chip_joint=joint,
        )
    return MosaicTile(
        id=id,
        name=f"Mosaic sheet {'12 × 12 in' if in_inches else '300 × 300'}",
        thickness=6.0,
        chip_length=side,
        chip_width=side,
        chips_across=12,
        chips_up=12,
        chip_joint=joint,
    )


_FURTHER = ("octagon", "parallelogram", "rhombus", "triangle", "picket")


def _further_tile(shape: str, id: str, in_inches: bool) -> Tile:
    unit, mark = (_INCH, " in") if in_inches else (25.0, "")

    def named(*sizes: int) -> str:
        shown = sizes if in_inches else tuple(25 * size for size in sizes)
        return f"{shape.capitalize()} {' × '.join(map(str, shown))}{mark}"

    if shape == "octagon":
        side = round(12 * unit * (sqrt(2.0) - 1.0), 1)
        return OctagonTile(id=id, name=named(12), across_flats=_size(12, unit), side=side)
    if shape == "parallelogram":
        return ParallelogramTile(
            id=id,
            name=named(16, 4),
            length=_size(16, unit),
            width=_size(4, unit),
            angle=45.0,
            left_and_right=True,
        )
    if shape == "rhombus":
        return RhombusTile(id=id, name=named(6), side=_size(6, unit), angle=60.0)
    if shape == "triangle":
        return TriangleTile(id=id, name=named(8), side=_size(8, unit))
    return PicketTile(
        id=id, name=named(12, 3), length=_size(12, unit), width=_size(3, unit), point=_size(1.5, unit)
    )


def reshaped(job: Job, old: Tile, new: Tile) -> Job:
    """Return the job with `new` in place of `old`; layouts in a pattern that does not suit it get one that
    does."""
    job = tile_edits.replace_tile(job, old.id, new)
    for layout in job.layouts:
        if layout.tile == old.id and not _suits(layout, new):
            job = laid_another_way(job, layout.id, ways_for(new)[0])
    return _with_chips_running_through(job, old.id)


def resized(job: Job, tile: Tile) -> Job:
    """Return the job with other sizes of one of its tiles; mosaic sheets are laid with their chips' joint."""
    return _with_chips_running_through(tile_edits.replace_tile(job, tile.id, tile), tile.id)


def _with_chips_running_through(job: Job, tile_id: str) -> Job:
    """Return the job with the layouts of a mosaic sheet in the joint that its chips have."""
    tile = job.tile(tile_id)
    if not isinstance(tile, MosaicSheet):
        return job
    for layout in job.layouts:
        if layout.tile == tile_id and layout.joint != tile.chip_joint:
            job = layout_edits.replace_layout(job, layout.id, joint=tile.chip_joint)
    return job


def _suits(layout: Layout, tile: Tile) -> bool:
    return any(way.pattern == layout.pattern for way in ways_for(tile))


def with_tile_laid(job: Job, surface: Surface, layout: Layout | None, tile: Tile) -> Job:
    """Return the job with the tile laid on the surface: by the layout there is, else by a first one."""
    if tile not in job.tiles:
        job = tile_edits.add_tile(job, tile)
    if layout is None:
        first = first_layout(job, surface, tile)
        return best_centred(filled(layout_edits.add_layout(job, first), first.id), first.id)
    is_suited = _suits(layout, tile)
    job = _with_chips_running_through(layout_edits.replace_layout(job, layout.id, tile=tile.id), tile.id)
    return filled(job, layout.id) if is_suited else laid_another_way(job, layout.id, ways_for(tile)[0])


def laid_as(way: Way) -> dict[str, Any]:
    """Return what changes in a layout when it is laid another way."""
    return {"pattern": way.pattern, "settings": way.keys}


def laid_another_way(job: Job, layout_id: str, way: Way) -> Job:
    """Return the job with a layout laid another way, with fitting tiles in the roles that the way has."""
    return filled(layout_edits.replace_layout(job, layout_id, **laid_as(way)), layout_id)


def first_layout(job: Job, surface: Surface, tile: Tile) -> Layout:
    """Return a plain layout from the lower left corner, joint and gap as in the last layout."""
    id = free_id((each.id for each in job.layouts), "A")
    plain = Layout(id=id, surface=surface.id, tile=tile.id, **laid_as(ways_for(tile)[0]))
    if job.layouts:
        plain = structs.replace(plain, joint=job.layouts[-1].joint, gap=job.layouts[-1].gap)
    elif job.show_lengths in _IMPERIAL:
        plain = structs.replace(plain, joint=_INCH / 8, gap=_INCH / 4)
    if isinstance(tile, MosaicSheet):
        plain = structs.replace(plain, joint=tile.chip_joint)
    left, bottom = (min(axis) for axis in zip(*surface.outline, strict=True))
    return structs.replace(plain, start=(left + plain.gap, bottom + plain.gap))
