"""What `flat --meet` says: a place of the surface, its height, and the fall towards it."""

from __future__ import annotations

from msgspec.structs import replace

from tilelayout.base.errors import TileLayoutError
from tilelayout.base.falls import parse_fall
from tilelayout.base.heights import height_style
from tilelayout.base.units import LengthStyle, parse_length
from tilelayout.job.preparation import GivenHeight
from tilelayout.job.values import Surface
from tilelayout.planning.given_heights import offered_places

_FORMS = 'Write "hall door=5", "drain=-12, 2 %", or "1200, 300=3".'


def read_meet(text: str, surface: Surface, style: LengthStyle) -> GivenHeight:
    """Return the given height that PLACE=HEIGHT[, FALL] says. TileLayoutError if it says none."""
    place, equals, rest = text.rpartition("=")
    if not equals:
        raise TileLayoutError(f"“{text}” names no place and height.", _FORMS)
    height, _, fall = rest.partition(",")
    return replace(
        _place(place.strip(), surface, style),
        height=parse_length(height, height_style(style), signed=True) if height.strip() else None,
        fall_percent=parse_fall(fall) if fall.strip() else None,
    )


def _place(name: str, surface: Surface, style: LengthStyle) -> GivenHeight:
    known = {each.name.lower(): each for each in offered_places(surface)}
    if name.lower() in known:
        return known[name.lower()]
    x, comma, y = name.partition(",")
    if comma:
        return GivenHeight(at=(parse_length(x, style, signed=True), parse_length(y, style, signed=True)))
    there = (
        f"There is {', '.join(each.name for each in known.values())}." if known else "There is none to name."
    )
    raise TileLayoutError(
        f"“{name}” is no doorway, open edge or cutout of {surface.title}.", f"{there} {_FORMS}"
    )
