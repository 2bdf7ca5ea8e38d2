"""The patterns, one file each: adding a file adds a pattern.

A pattern's file has `NAME` and `SUMMARY` (for people), `SHAPES` (the tile shapes it takes), `Settings`
(its own keys of a layout) and `cell(tile, joint, settings)`, in the pattern's own coordinates before angle
and start. Everything else about a pattern follows from its cell.

It may have more: `START`, where the start lines lie in the first tile ("The lines ..."), and
`STARTS`, where they do for some shapes; `USUAL`, the
settings that people have names for; `FREE`, the settings that change nothing about the name;
`suits(tile, settings)`, if not every tile of the shape can be laid with some joint; and then
`likest(tile, joint, settings)`, the tile most like a given one that can be laid with that joint, to draw the
pattern with.

A pattern whose cell holds tiles of several sizes or shapes has `MORE_TILES`, the roles they play beside the
layout's own tile. Its `cell` takes them as a fourth argument, by role, and `more_sizes` (of tile, joint and
settings) says what size each must have. `roles(settings)` stands for `MORE_TILES` where settings change them.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping
from functools import cache
from typing import Any, Protocol, cast

import msgspec

from tilelayout.base.dropin import modules_in
from tilelayout.base.errors import JobFileError, LayoutError
from tilelayout.job.strict import read_as
from tilelayout.job.values import Layout, Tile
from tilelayout.layout.roles import NO_MORE, MoreTiles, Role, Size, missing, tile_of_size
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

    >>> "herringbone" in names() and "hexagon" in names()
    True
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
    return read_as(kind, layout.settings)


def roles_of(layout: Layout) -> tuple[Role, ...]:
    """Return the roles of the further tiles that the layout's pattern takes, in the pattern's order."""
    laid_as = pattern(layout.pattern)
    if hasattr(laid_as, "roles"):
        return tuple(laid_as.roles(settings_of(layout)))
    return tuple(getattr(laid_as, "MORE_TILES", ()))


def check_roles(layout: Layout) -> None:
    """Raise JobFileError, with its place, if the layout gives a tile for a role that the pattern has not."""
    known = [role.name for role in roles_of(layout)]
    for name in layout.more_tiles:
        if name not in known:
            mend = f"It has {', '.join(known)}." if known else "It takes no further tiles: leave them out."
            what = f'The pattern "{layout.pattern}" has no further tile "{name}".'
            raise JobFileError(what, mend, place=f"more_tiles.{name}")


def cell_of(layout: Layout, tile: Tile, more: MoreTiles = NO_MORE) -> Cell:
    """Return the pattern's cell for this tile and those in its roles. LayoutError if one does not suit."""
    laid_as, roles = pattern(layout.pattern), roles_of(layout)
    _check_shape(laid_as.NAME, tile, laid_as.SHAPES)
    if not roles:
        return laid_as.cell(tile, layout.joint, settings_of(layout))
    sizes = more_sizes(layout, tile)
    for role in roles:
        if role.name not in more:
            raise missing(laid_as.NAME, role, sizes.get(role.name), layout.joint)
        _check_shape(f"The {role.words}", more[role.name], role.shapes)
    filled = {role.name: more[role.name] for role in roles}
    return cast(_OfSeveral, laid_as).cell(tile, layout.joint, settings_of(layout), filled)


def more_sizes(layout: Layout, tile: Tile) -> Mapping[str, Size]:
    """Return the size that fits each role of the pattern; of a pattern that leaves them free, a usual one.

    Nothing if the pattern knows none. A size may be one that cannot be made (see `roles.can_be_made`).
    """
    laid_as = pattern(layout.pattern)
    if not hasattr(laid_as, "more_sizes") or not suits(layout, tile):
        return {}
    return cast(_OfSeveral, laid_as).more_sizes(tile, layout.joint, settings_of(layout))


class _OfSeveral(Protocol):
    """A pattern with roles."""

    def cell(self, tile: Tile, joint: float, settings: msgspec.Struct, more: MoreTiles) -> Cell: ...

    def more_sizes(self, tile: Tile, joint: float, settings: msgspec.Struct) -> Mapping[str, Size]: ...


def _check_shape(what: str, tile: Tile, shapes: frozenset[str]) -> None:
    if shape_of(tile) not in shapes:
        raise LayoutError(
            f'{what} cannot be laid with the {shape_of(tile)} tile "{tile.title}".',
            f"Choose a {' or '.join(sorted(shapes))} tile or another pattern.",
        )


def usual_settings(name: str) -> Mapping[str, Mapping[str, Any]]:
    """Return the settings of a pattern that people have names for, by name; plain ones under its own."""
    usual: Mapping[str, Mapping[str, Any]] = getattr(pattern(name), "USUAL", {pattern(name).NAME: {}})
    return usual


def start_words(layout: Layout, tile: Tile) -> str:
    """Return where the lines through the start lie in the first tile, to go on from "The lines"."""
    plain = "run along two edges of the first tile and cross at its corner"
    if shape_of(tile) != "rectangle":
        plain = "cross at the lower left corner of the first tile, one of them along its lower edge"
    laid_as = pattern(layout.pattern)
    starts: Mapping[str, str] = getattr(laid_as, "STARTS", {})
    return starts.get(shape_of(tile), str(getattr(laid_as, "START", plain)))


def suits(layout: Layout, tile: Tile) -> bool:
    """Claim that the tile can be laid in the layout's pattern with some joint."""
    laid_as = pattern(layout.pattern)
    if shape_of(tile) not in laid_as.SHAPES:
        return False
    own = getattr(laid_as, "suits", None)
    return own is None or bool(own(tile, settings_of(layout)))


def cell_to_show(layout: Layout, tile: Tile) -> Cell:
    """Return a cell to draw the pattern by: of this tile, or of the one most like it that fits the joint.

    Further tiles are such as fit it. LayoutError if the pattern cannot be laid with any such tile.
    """
    likest = getattr(pattern(layout.pattern), "likest", None)
    shown: Tile = likest(tile, layout.joint, settings_of(layout)) if likest and suits(layout, tile) else tile
    sizes = more_sizes(layout, shown)
    return cell_of(layout, shown, {role: tile_of_size(role, size) for role, size in sizes.items()})


def _unknown(name: str, key: str) -> str:
    return f'"{key}" is not a key of a layout or of the pattern "{name}".'


def _keys_of(kind: type[msgspec.Struct]) -> str:
    keys = ", ".join(kind.__struct_fields__)
    return f"The pattern's own keys are {keys}." if keys else "The pattern has no keys of its own."
