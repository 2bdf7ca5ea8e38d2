"""What edges, corners and cutouts are called in front of a person. Numbers count from 1."""

from __future__ import annotations

from tilelayout.job.values import Cutout, EdgeRole, Surface

_WORDS = {
    EdgeRole.WALL: "wall",
    EdgeRole.DOORWAY: "doorway",
    EdgeRole.OPEN: "open edge",
    EdgeRole.OUTSIDE_CORNER: "outside-corner edge",
    EdgeRole.TUB: "tub edge",
}


def corner_title(at: int) -> str:
    """Return "corner 3" for corner 2."""
    return f"corner {at + 1}"


def edge_title(surface: Surface, at: int) -> str:
    """Return the edge's own name, else what stands there and its number: "wall 2"."""
    edge = surface.edge(at)
    return edge.name or f"{_WORDS[edge.role]} {at + 1}"


def cutout_title(cutout: Cutout, at: int) -> str:
    """Return the cutout's own name, else "cutout 1"."""
    return cutout.name or f"cutout {at + 1}"


def sentence(words: str) -> str:
    """Return words with a capital letter at the start, all other letters as they are.

    >>> sentence("piece C4")
    'Piece C4'
    """
    return words[:1].upper() + words[1:]
