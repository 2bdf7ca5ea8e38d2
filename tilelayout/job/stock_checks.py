"""What makes an offcut on hand one that cannot be: larger than its tile, or with edges it cannot have."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.job import limits
from tilelayout.job.limits import Problem, inside
from tilelayout.job.stock import OffcutOnHand, TileSide
from tilelayout.job.surface_checks import polygon_problems
from tilelayout.job.values import RectangleTile, Tile


def stock_problems(tile: Tile) -> Iterator[Problem]:
    """Return what is wrong with the offcuts on hand of a tile; places are keys of the tile."""
    for index, offcut in enumerate(tile.offcuts):
        yield from inside(f"offcuts[{index}]", _offcut_problems(offcut, tile))


def _offcut_problems(offcut: OffcutOnHand, tile: Tile) -> Iterator[Problem]:
    yield from limits.OFFCUTS.problems(offcut.count, "count")
    has_size = offcut.length is not None or offcut.width is not None
    if offcut.outline:
        if has_size or offcut.factory:
            yield Problem("outline", "The offcut has an outline and a size.", "Give one of the two.")
        yield from polygon_problems(offcut.outline, "outline", "The outline of the offcut")
    elif not isinstance(tile, RectangleTile):
        yield Problem("outline", "An offcut of a tile of this shape needs its outline.", "Give its corners.")
    else:
        yield from _side_problems("length", offcut.length, tile.length, _ENDS, offcut)
        yield from _side_problems("width", offcut.width, tile.width, _LONG_SIDES, offcut)


_ENDS = (TileSide.LEFT, TileSide.RIGHT)
_LONG_SIDES = (TileSide.LOWER, TileSide.UPPER)


def _side_problems(
    key: str, size: float | None, whole: float, sides: tuple[TileSide, TileSide], offcut: OffcutOnHand
) -> Iterator[Problem]:
    """Say so if a size is missing or too large, or does not go with the factory edges across it."""
    if size is None:
        yield Problem(
            key, f"The {key} of the offcut is missing.", "Give its length and width, or its outline."
        )
        return
    yield from limits.OFFCUT_SIZE.problems(size, key)
    named = f"{sides[0]} and {sides[1]}"
    has_both = all(side in offcut.factory for side in sides)
    if size > whole + ON_EDGE:
        yield Problem(
            key, f"The offcut is larger than its tile: {size:g} of {whole:g} mm.", "Measure it again."
        )
    elif has_both and size < whole - ON_EDGE:
        what = f"An offcut of {size:g} mm has not both factory edges of a tile of {whole:g} mm."
        yield Problem("factory", what, f"Name one of {named}, or give the whole {whole:g} mm.")
    elif not has_both and size > whole - ON_EDGE:
        what = f"An offcut of the whole {whole:g} mm has both its factory edges."
        yield Problem("factory", what, f"Name {named}, or give a smaller {key}.")
