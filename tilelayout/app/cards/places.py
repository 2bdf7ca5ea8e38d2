"""Everything of a surface that can be chosen, in words and in order: the board's content as a list."""

from __future__ import annotations

from tilelayout.app.outlines import edge_length
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.job.values import EdgeRole, Surface
from tilelayout.planning.wall_names import edge_name

ROLE_WORDS = {
    EdgeRole.WALL: "Wall",
    EdgeRole.DOORWAY: "Doorway",
    EdgeRole.OPEN: "Open edge",
    EdgeRole.OUTSIDE_CORNER: "Outside corner",
    EdgeRole.TUB: "Tub",
}


def edge_words(surface: Surface, at: int) -> str:
    """Return what to call an edge at the beginning of a line."""
    name = edge_name(surface, at)
    return name[:1].upper() + name[1:]


def places_of(surface: Surface, style: LengthStyle) -> list[tuple[str, Pick | None]]:
    """Return words and pick for the surface itself (None), its edges, corners and cutouts."""
    places: list[tuple[str, Pick | None]] = [(f"All of {surface.title}", None)]
    for at in range(len(surface.outline)):
        length = format_length(edge_length(surface, at), style)
        pick = Pick(PickKind.EDGE, surface.id, at)
        places.append((f"{edge_words(surface, at)}, {length}", pick))
    for at in range(len(surface.outline)):
        places.append((f"Corner {at + 1}", Pick(PickKind.CORNER, surface.id, at)))
    for index, cutout in enumerate(surface.cutouts):
        name = cutout.name or f"Cutout {index + 1}"
        places.append((name, Pick(PickKind.CUTOUT, surface.id, index)))
    return places
