"""Which whole tiles are in sight, and about how many."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from tilelayout.app.board.layers.shrinking import shrunk
from tilelayout.app.board.view import Bounds
from tilelayout.layout.laying import Laid
from tilelayout.layout.whole_near import whole_near

Points = NDArray[np.float64]


def count_in_sight(laid: Laid, bounds: Bounds) -> float:
    """Return about how many tiles lie within `bounds`: the area there is, over the area a tile takes up."""
    left, bottom, right, top = laid.region.shape.bounds
    width = max(min(right, bounds.right) - max(left, bounds.left), 0.0)
    height = max(min(top, bounds.top) - max(bottom, bounds.bottom), 0.0)
    (a, b), (c, d) = laid.placed_vectors
    return float(width * height * len(laid.cell.faces) / abs(a * d - b * c))


def whole_in_sight(laid: Laid, bounds: Bounds, draw_back: float) -> list[Points]:
    """Return the whole tiles that touch `bounds` as (n, m, 2), an array for each face of the cell.

    Each is drawn back from its joints by `draw_back` mm.
    """
    low, high = np.array([bounds.left, bounds.bottom]), np.array([bounds.right, bounds.top])
    moves = whole_near(laid, low, high)
    outlines = [shrunk(outline, draw_back) for outline in laid.placed_faces]
    return [outline[None] + move[:, None] for outline, move in zip(outlines, moves, strict=True)]
