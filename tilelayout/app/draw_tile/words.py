"""What the drawing tools say of a room, said of a tile: it has sides, and nothing is cut out of it."""

from __future__ import annotations

import re
from dataclasses import replace

from tilelayout.drawing.preview import Preview

_SAID = (
    (re.compile(r", a wall or a cutout to choose it; press a wall twice"), " or a side; press a side twice"),
    (re.compile(r"takes a corner or a cutout away"), "takes a corner away"),
    (re.compile(r"choose a corner or a cutout"), "choose a corner"),
    (re.compile(r"\bwall\b"), "side"),
    (re.compile(r"\bWall\b"), "Side"),
    (re.compile(r"\b[Ss]urface\b"), "tile"),
)


def of_a_tile(words: str) -> str:
    """Return what is said of a wall as it is said of the side of a tile.

    >>> of_a_tile("Drag wall 2 or nudge it; Delete takes a corner or a cutout away.")
    'Drag side 2 or nudge it; Delete takes a corner away.'
    """
    for said, instead in _SAID:
        words = said.sub(instead, words)
    return words


def preview_of_a_tile(preview: Preview) -> Preview:
    """Return what a tool shows with its words said of a tile."""
    marker = preview.marker and replace(preview.marker, words=of_a_tile(preview.marker.words))
    hint, trouble = of_a_tile(preview.hint), of_a_tile(preview.trouble)
    return replace(preview, hint=hint, trouble=trouble, marker=marker)
