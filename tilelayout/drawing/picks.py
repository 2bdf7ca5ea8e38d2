"""What on a surface can be pointed at: plain values that board, cards and tools share."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

GRAB_PX = 24.0
"""Width of a grab zone in screen pixels (WCAG 2.2, 2.5.8 target size: at least 24 by 24)."""


class PickKind(StrEnum):
    """What can be pointed at."""

    CORNER = "corner"
    EDGE = "edge"
    CUTOUT = "cutout"
    PIECE = "piece"
    START = "start"


@dataclass(frozen=True)
class Pick:
    """One thing of the surface `surface`: its number from 0, or the id of a piece or of a start's layout."""

    kind: PickKind
    surface: str
    index: int = 0
    id: str = ""
