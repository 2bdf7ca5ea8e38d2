"""The patterns, one file each: adding a file adds a pattern.

A pattern's file has `NAME` and `SUMMARY` (for people), `SHAPES` (the tile shapes it takes), `Settings`
(its own keys of a layout) and `cell(tile, joint, settings)`, in the pattern's own coordinates before angle
and start. Everything else about a pattern follows from its cell.
"""

from __future__ import annotations

import sys
from functools import cache
from typing import Any, Protocol, cast

import msgspec

from tilelayout.base.dropin import modules_in
from tilelayout.base.errors import JobFileError, LayoutError, LengthError
from tilelayout.base.units import parse_length
from tilelayout.job.values import Layout, Tile
from tilelayout.layout.values import Cell


class Pattern(Protocol):
    """What every file of this folder offers."""

    NAME: str
    SUMMARY: str
    SHAPES: frozenset[str]
    Settings: type[msgspec.Struct]

    def cell(self, tile: Tile, joint: float, settings: msgspec.Struct) -> Cell:
        """Return the cell of this tile. LayoutError if the pattern cannot be laid with it."""
        ...


@cache
def _patterns() -> dict[str, Pattern]:
    found = modules_in(sys.modules[__name__])
    return {name: cast(Pattern, module) for name, module in found.items()}


def names() -> tuple[str, ...]:
    """Return the names that a layout's `pattern` may have, in alphabetical order.

    >>> names()
    ('herringbone', 'hexagon', 'rows')
    """
    return tuple(_patterns())


def pattern(name: str) -> Pattern:
    """Return the pattern of this name. JobFileError, naming those there are, if there is none."""
    if name not in _patterns():
        raise JobFileError(
            f'There is no pattern "{name}".', f"Use one of {', '.join(names())}.", place="pattern"
        )
    return _patterns()[name]


def shape_of(tile: Tile) -> str:
    """Return the name of the tile's shape as the job file has it ("rectangle")."""
    return str(type(tile).__struct_config__.tag)


def settings_of(layout: Layout) -> msgspec.Struct:
    """Return the pattern's settings, read strictly. JobFileError naming the key that is wrong."""
    kind = pattern(layout.pattern).Settings
    unknown = sorted(set(layout.settings) - set(kind.__struct_fields__))
    if unknown:
        raise JobFileError(_unknown(layout.pattern, unknown[0]), _keys_of(kind), place=unknown[0])
    try:
        return msgspec.convert(layout.settings, kind, dec_hook=_length)
    except msgspec.ValidationError as error:
        what, _, place = str(error).partition(" - at `$")
        raise JobFileError(f"{what}.", "", place=place.strip(".`") or layout.pattern) from error


def cell_of(layout: Layout, tile: Tile) -> Cell:
    """Return the pattern's cell for this tile. LayoutError if the tile does not suit it."""
    laid_as = pattern(layout.pattern)
    if shape_of(tile) not in laid_as.SHAPES:
        raise LayoutError(
            f'{laid_as.NAME} cannot be laid with the {shape_of(tile)} tile "{tile.title}".',
            f"Choose a {' or '.join(sorted(laid_as.SHAPES))} tile or another pattern.",
        )
    return laid_as.cell(tile, layout.joint, settings_of(layout))


def _unknown(name: str, key: str) -> str:
    return f'"{key}" is not a key of a layout or of the pattern "{name}".'


def _keys_of(kind: type[msgspec.Struct]) -> str:
    keys = ", ".join(kind.__struct_fields__)
    return f"The pattern's own keys are {keys}." if keys else "The pattern has no keys of its own."


def _length(kind: type, value: Any) -> Any:
    """Read a length of a pattern's settings: a number of mm, or a text as a person writes it."""
    if isinstance(value, str):
        try:
            return kind(parse_length(value))
        except LengthError as error:
            raise ValueError(str(error)) from error
    return kind(value)
