"""Keeps the meetings in which an edge really runs through the inside of a tile, and says where.

A segment is inside a convex tile between the last side it enters by and the first it leaves by. Whether it
crosses is asked of a tile smaller by `SAME_PLACE` all round: a wall that runs along a side, or ends on one,
does not cross the tile, whatever the rounding; that is what makes joints flush with walls come out right.
Where it crosses is then worked out for the tile's own sides.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tilelayout.base.tolerance import SAME_PLACE
from tilelayout.layout.kernel.arrays import Flags, Whole
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.kernel.walk import NEARLY_NONE, Edges, Meetings
from tilelayout.layout.values import Points


@dataclass(frozen=True, eq=False)
class Crossings:
    """Meetings with a real crossing; arrays of one length.

    `begins` and `ends` say whether the edge comes into the tile from outside and whether it goes out
    again. The stretch inside goes from share `enters` to share `leaves` of the edge, by the sides
    `side_in` and `side_out`.
    """

    met: Meetings
    begins: Flags
    ends: Flags
    enters: Points
    leaves: Points
    side_in: Whole
    side_out: Whole

    def only(self, kept: Flags | Whole) -> Crossings:
        """Return the chosen crossings."""
        shares = self.enters[kept], self.leaves[kept], self.side_in[kept], self.side_out[kept]
        return Crossings(self.met.only(kept), self.begins[kept], self.ends[kept], *shares)


def crossings(met: Meetings, edges: Edges, placed: Placed) -> Crossings:
    """Return the meetings whose edge has a stretch inside the tile."""
    height, slope = _heights(met, edges, placed)
    goes_in = slope > 0.0
    at = (SAME_PLACE - height) / slope
    enters = np.where(goes_in, at, -np.inf).max(axis=0)
    leaves = np.where(goes_in, np.inf, at).min(axis=0)
    kept = np.flatnonzero(np.minimum(leaves, 1.0) > np.maximum(enters, 0.0))
    at = -height.take(kept, axis=1) / slope.take(kept, axis=1)
    goes_in = goes_in.take(kept, axis=1)
    into, out_of = np.where(goes_in, at, -np.inf), np.where(goes_in, np.inf, at)
    return Crossings(
        met.only(kept),
        enters[kept] > 0.0,
        leaves[kept] < 1.0,
        np.maximum(into.max(axis=0), 0.0),
        np.minimum(out_of.min(axis=0), 1.0),
        into.argmax(axis=0),
        out_of.argmin(axis=0),
    )


def _heights(met: Meetings, edges: Edges, placed: Placed) -> tuple[Points, Points]:
    """Return, for each side and meeting (m, n), how far inside the side the edge starts, and its gain."""
    most = placed.reach.shape[1]
    sides = placed.normals.swapaxes(0, 1)
    starts, along = edges.starts.T, (edges.stops - edges.starts).T
    heights = sides @ starts - placed.reach.T[:, :, None]
    slopes = sides @ along
    slopes[np.abs(slopes) < NEARLY_NONE] = NEARLY_NONE
    per_column, per_row = np.moveaxis(sides @ placed.vectors.T, 2, 0)
    pair = met.face * len(edges.starts) + met.edge
    shift = per_column.take(met.face, axis=1) * met.column + per_row.take(met.face, axis=1) * met.row
    height = heights.reshape(most, -1).take(pair, axis=1) - shift
    return height, slopes.reshape(most, -1).take(pair, axis=1)
