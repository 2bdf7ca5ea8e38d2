"""The ways of laying a tile that a person chooses from: patterns with their usual settings.

A pattern that is added to the program as one file appears here by itself, once for each of the settings that
people have a name for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tilelayout.base.errors import TileLayoutError
from tilelayout.job.values import Layout, Tile
from tilelayout.layout.patterns import names, pattern, settings_of, shape_of, suits, usual_settings


@dataclass(frozen=True)
class Way:
    """A pattern with settings, in words."""

    words: str
    pattern: str
    settings: tuple[tuple[str, Any], ...] = ()

    @property
    def keys(self) -> dict[str, Any]:
        """The settings as the layout keeps them."""
        return dict(self.settings)


def ways_for(tile: Tile) -> tuple[Way, ...]:
    """Return the ways that suit the shape of a tile, in the order of the patterns' names; rows come first."""
    suited = [name for name in names() if shape_of(tile) in pattern(name).SHAPES]
    suited.sort(key=lambda name: (name != "rows", name))
    ways = (way for name in suited for way in _ways_of(name))
    return tuple(way for way in ways if suits(_laid_as(way), tile))


def way_of(layout: Layout, tile: Tile) -> Way | None:
    """Return the way a layout is laid; None if its settings are the person's own."""
    wanted = settings_of(layout)
    return next((way for way in ways_for(tile) if way.pattern == layout.pattern and _fits(way, wanted)), None)


def _fits(way: Way, wanted: object) -> bool:
    own = settings_of(_laid_as(way))
    free: frozenset[str] = getattr(pattern(way.pattern), "FREE", frozenset())
    keys = (key for key in own.__struct_fields__ if key not in free)
    return all(_same(getattr(wanted, key), getattr(own, key)) for key in keys)


def _laid_as(way: Way) -> Layout:
    return Layout(id="", surface="", tile="", pattern=way.pattern, settings=way.keys)


def _same(one: object, other: object) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(abs(a - b) < 1e-3 for a, b in zip(one, other, strict=True))
    return one == other


def _ways_of(name: str) -> list[Way]:
    return [Way(words, name, tuple(keys.items())) for words, keys in usual_settings(name).items()]


def offsets_text(offsets: tuple[float, ...]) -> str:
    """Return row offsets as a person writes them.

    >>> offsets_text((0.0, 1 / 3, 0.25))
    '0, 1/3, 1/4'
    """
    return ", ".join(_share_text(offset) for offset in offsets)


def read_offsets(text: str) -> tuple[float, ...]:
    """Return row offsets from text such as "0, 1/3, 2/3"; a TileLayoutError with an example if it is none.

    >>> read_offsets("0 1/4; .5")
    (0.0, 0.25, 0.5)
    """
    words = text.replace(";", " ").replace(", ", " ").replace(",", " ").split()
    try:
        offsets = tuple(_share(word) for word in words)
    except (ValueError, ZeroDivisionError):
        offsets = ()
    if not offsets:
        raise TileLayoutError(f"“{text}” is no list of row offsets.", "Write for example 0, 1/3, 2/3.")
    return offsets


def _share(word: str) -> float:
    above, _, below = word.partition("/")
    return float(above) / float(below) if below else float(above)


def _share_text(offset: float) -> str:
    for below in (1, 2, 3, 4, 5, 6, 8):
        above = round(offset * below)
        if abs(above / below - offset) < 1e-6:
            return str(above) if below == 1 else f"{above}/{below}"
    return f"{offset:.4g}"
