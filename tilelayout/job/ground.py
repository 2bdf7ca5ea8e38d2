"""Of what a surface is built up, and what is allowed for on it: layers, adhesive, trims, breakage."""

from __future__ import annotations

import msgspec

from tilelayout.job.kinds import LayerRole, TrimCorners, TrimKind
from tilelayout.job.value import Length, Value


class Layer(Value, frozen=True, kw_only=True):
    """One layer between the bare base and the face that is walked on."""

    name: str = ""
    thickness: Length
    role: LayerRole | None = msgspec.field(default=None, name="is")


class Adhesive(Value, frozen=True, kw_only=True):
    """What the tile is stuck with: its class as on the bag ("C2TE S1"), the bed (least, most), the notch."""

    grade: str = msgspec.field(default="", name="class")
    bed: tuple[Length, Length] | None = None
    notch: Length | None = None


class Trim(Value, frozen=True, kw_only=True):
    """Strips of one height sawn from a tile, along `edges` of a surface; along every wall if none is named.

    `factory_edge_up` claims that each strip shows a factory edge along its length.
    """

    kind: TrimKind = TrimKind.BASE
    tile: str
    height: Length
    edges: tuple[int, ...] = ()
    factory_edge_up: bool = True
    corners: TrimCorners = TrimCorners.BUTT


class Breakage(Value, frozen=True, kw_only=True):
    """Of how many cuts of a kind one breaks the tile; 0 for never.

    A person who would rather say it outright says how many `tiles` break, or what `percent` of those laid
    whole and opened.
    """

    straight: int = 50
    notch: int = 15
    hole: int = 10
    narrow: int = 10
    tiles: int | None = None
    percent: float | None = None
