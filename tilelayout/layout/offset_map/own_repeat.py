"""By which ways a pattern repeats, tiles' outlines alone considered: its starts need be looked at no further.

A cell may hold more than one repeat: three rows in stepped thirds are one row three times over. A way from a
face to its like repeats the pattern if it leads every face to its like; all such ways together with the
cell's own vectors span the finest lattice.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations, product

import numpy as np

from tilelayout.base.tolerance import ON_EDGE
from tilelayout.geometry.rings import cross
from tilelayout.layout.tiling import reduced
from tilelayout.layout.values import Cell, Points


def own_repeat(cell: Cell) -> Points:
    """Return the shortest two vectors (2, 2) by which the outlines of the pattern repeat.

    The second lies on the left of the first. Pattern coordinates, before the layout's angle.
    """
    outlines = [_from_its_corner(face.outline) for face in cell.faces]
    corners = np.array([face.outline.min(axis=0) for face in cell.faces])
    kinds = _kinds(outlines)
    ways = [
        way
        for face in range(1, len(outlines))
        if kinds[face] == kinds[0] and _repeats(way := corners[face] - corners[0], corners, kinds, cell)
    ]
    wanted = abs(float(cross(cell.vectors[0], cell.vectors[1]))) / (1 + len(ways))
    return reduced(_spanning(ways, cell.vectors, wanted))


def _from_its_corner(outline: Points) -> Points:
    """The outline from the lower left of its box, begun at its lowest, leftmost corner."""
    ring = outline - outline.min(axis=0)
    first = int(np.lexsort(np.round(ring / ON_EDGE).T)[0])
    return np.roll(ring, -first, axis=0)


def _kinds(outlines: list[Points]) -> list[int]:
    """Number the outlines so that equal ones have equal numbers."""
    firsts: list[Points] = []
    kinds = []
    for outline in outlines:
        alike = (
            k
            for k, first in enumerate(firsts)
            if first.shape == outline.shape and np.abs(first - outline).max() < ON_EDGE
        )
        kinds.append(next(alike, len(firsts)))
        if kinds[-1] == len(firsts):
            firsts.append(outline)
    return kinds


def _repeats(way: Points, corners: Points, kinds: list[int], cell: Cell) -> bool:
    """Tell whether every face, moved by `way`, lies on one of its kind."""
    cells = (corners[:, None] + way - corners) @ np.linalg.inv(cell.vectors)
    off = np.abs((cells - np.round(cells)) @ cell.vectors).max(axis=2)
    alike = np.array(kinds)[:, None] == np.array(kinds)
    return bool(((off < ON_EDGE) & alike).any(axis=1).all())


def _spanning(ways: Iterable[Points], vectors: Points, wanted: float) -> Points:
    """Return two of the ways, or sums of them with the cell's vectors, whose cell has the area wanted."""
    onward = [np.array(steps) @ vectors for steps in product((-1, 0, 1), repeat=2)]
    candidates = [*vectors, *(way + step for way in ways for step in onward)]
    candidates.sort(key=lambda way: round(float(way @ way), 6))
    for pair in combinations(candidates, 2):
        if abs(abs(float(cross(*pair))) - wanted) < ON_EDGE * float(np.abs(pair).max()):
            return np.array(pair)
    return vectors
