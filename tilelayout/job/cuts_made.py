"""Cuts that have been made: what a person has ticked off the cut list."""

from __future__ import annotations

from tilelayout.job.value import Value


class CutMade(Value, frozen=True, kw_only=True, order=True):
    """A cut of one piece that has been made.

    `mark` stands for what was cut: the tile, the outline of the piece in it and the side that the cut made,
    as ten digits of the letters and figures 0-9, a-f. A piece that is to be cut otherwise has other marks, so
    that a tick never passes to it.
    """

    layout: str
    piece: str
    mark: str
