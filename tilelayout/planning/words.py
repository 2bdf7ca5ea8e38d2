"""What cuts and pieces are called, once, for the window, the sheets and the command line.

A cut is said as a person at the saw needs it: what to do, the size to set, from which edge of the tile.
The tile lies face up with its length from left to right, as every drawing of a piece shows it.
"""

from __future__ import annotations

import numpy as np
import shapely

from tilelayout.base.tolerance import NO_AREA, SAME_PLACE
from tilelayout.base.units import LengthStyle, cut_size, format_length
from tilelayout.geometry.overlays import beyond, common
from tilelayout.job.values import Surface, Tile
from tilelayout.layout.chips import measured_outline
from tilelayout.layout.values import Cut, CutKind, Piece, Points
from tilelayout.planning.chip_words import chips_kept, crossing_words, knife_words
from tilelayout.planning.saw_sizes import is_inside, saw_sizes
from tilelayout.planning.tile_sides import corner_taken, corner_word, crossings, side_word
from tilelayout.planning.wall_names import wall_name
from tilelayout.planning.zigzag_words import zigzag_words


def cut_words(cut: Cut, piece: Piece, style: LengthStyle) -> str:
    """Return one cut in words, such as "rip to 143 mm, keep the lower edge"."""
    if cut.kind is CutKind.KNIFE:
        return zigzag_words(piece)
    kept = chips_kept(cut, piece, style)
    if kept is not None:
        return knife_words(cut, kept, _kept_side(cut, piece, piece.tile), style)
    sizes = tuple(format_length(size, style) for size in saw_sizes(cut, piece, style))
    words = _words(cut, sizes, piece, piece.tile)
    stops = ", not running past its ends" if cut.stops else ""
    return f"{words}{stops}{crossing_words(cut, piece, style)}"


def _words(cut: Cut, sizes: tuple[str, ...], piece: Piece, tile: Tile) -> str:
    if cut.kind in (CutKind.RIP, CutKind.CROSS):
        return f"{cut.kind.value} to {sizes[0]}, keep the {_kept_side(cut, piece, tile)}"
    if cut.kind in (CutKind.CORNER, CutKind.OBLIQUE):
        return _across_a_corner(cut, sizes, tile)
    if cut.kind is CutKind.NOTCH:
        return f"notch {sizes[0]} x {sizes[1]} at the {corner_word(tile, _middle(cut.line))}"
    return _slot(cut, sizes, tile) if cut.kind is CutKind.SLOT else _rounded(cut, sizes)


def piece_size(piece: Piece, style: LengthStyle) -> str:
    """Return the length and width that a piece takes up in its tile, rounded as for the saw."""
    outline = piece.in_tile(piece.outline)
    length, width = outline.max(axis=0) - outline.min(axis=0)
    return f"{format_length(cut_size(length, style), style)} x {format_length(cut_size(width, style), style)}"


def part_words(piece: Piece, cuts: tuple[Cut, ...]) -> str:
    """Return which part to keep if the cuts leave several, "" if they leave one.

    A straight cut may part a tile that bends inwards, and a curve any tile that it runs right across.
    """
    kept = piece.in_tile(piece.outline)
    outline = measured_outline(piece.tile)
    left: shapely.Geometry = shapely.Polygon(outline)
    for cut in cuts:
        if len(cut.line) == 2 and not cut.stops:
            left = common(left, _beside(cut.line, kept, outline), SAME_PLACE)
        elif cut.kind is CutKind.CURVE and not is_inside(cut, piece):
            x, y, radius = cut.sizes
            left = beyond(left, shapely.Point(x, y).buffer(radius, quad_segs=32))
    if sum(part.area > NO_AREA for part in shapely.get_parts(left)) < 2:
        return ""
    return f"the part at the {corner_word(piece.tile, _middle(kept))}"


def _beside(line: Points, kept: Points, outline: Points) -> shapely.Polygon:
    """Return all that lies on the piece's side of a line, as far as the tile reaches."""
    along = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    square = np.array([-along[1], along[0]])
    depths = (kept - line[0]) @ square
    reach = 3.0 * np.ptp(outline, axis=0).sum()
    square *= np.sign(depths[np.argmax(np.abs(depths))]) * reach
    start, end = line[0] - reach * along, line[1] + reach * along
    return shapely.Polygon([start, end, end + square, start + square])


def walls_met(cuts: tuple[Cut, ...], surface: Surface) -> tuple[str, ...]:
    """Return the names of the walls and cutouts that the cuts fit, each once, in the order of the cuts."""
    borders = dict.fromkeys(cut.border for cut in cuts if cut.border)
    return tuple(dict.fromkeys(wall_name(surface, border) for border in borders))


def _kept_side(cut: Cut, piece: Piece, tile: Tile) -> str:
    """Name the tile's edge that stays on the piece, opposite the sawn one."""
    kept = piece.in_tile(piece.outline)
    along = cut.line[-1] - cut.line[0]
    square = np.array([-along[1], along[0]]) / np.hypot(*along)
    depths = (kept - cut.line[0]) @ square
    side = np.sign(depths[np.argmax(np.abs(depths))])
    return side_word(tile, _middle(cut.line) + side * square * 1e6)


def _slot(cut: Cut, sizes: tuple[str, ...], tile: Tile) -> str:
    side = side_word(tile, (cut.line[0] + cut.line[-1]) / 2)
    origin = "lower edge" if side.endswith("end") else "left end"
    return f"slot {sizes[0]} wide and {sizes[1]} deep in the {side}, {sizes[2]} from the {origin}"


def _across_a_corner(cut: Cut, sizes: tuple[str, ...], tile: Tile) -> str:
    ends = crossings(tile, cut.line[[0, -1]])
    first, second = (f"{size} of the {side_word(tile, end)}" for size, end in zip(sizes, ends, strict=True))
    if cut.kind is CutKind.OBLIQUE:
        return f"oblique cut, keep {first} and {second}"
    taken = corner_word(tile, corner_taken(tile, ends, cut.sizes))
    return f"corner cut, {first} and {second}, off the {taken}"


def _rounded(cut: Cut, sizes: tuple[str, ...]) -> str:
    place = f"{_from(sizes[0], 'left end')} and {_from(sizes[1], 'lower edge')}"
    if len(sizes) == 4:
        return f"hole {sizes[2]} x {sizes[3]}, its lower left corner {place}"
    if cut.kind is CutKind.HOLE:
        return f"hole {sizes[2]} across, its centre {place}"
    return f"curve of radius {sizes[2]}, its centre {place}"


def _from(size: str, side: str) -> str:
    """Say where a centre lies; one outside the tile, as that of a wide bay, lies beyond the side."""
    return f"{size[1:]} beyond the {side}" if size.startswith("-") else f"{size} from the {side}"


def _middle(line: Points) -> Points:
    return np.asarray((line.min(axis=0) + line.max(axis=0)) / 2)
