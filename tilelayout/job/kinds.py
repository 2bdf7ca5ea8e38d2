"""The kinds of things a job tells apart where the trade's rules do: practice, background, wetness and so on.

Each is the word that stands in the job file. Where a value may be left out, leaving it out means that it is
not known, and whatever would judge by it says so.
"""

from __future__ import annotations

from enum import StrEnum


class Practice(StrEnum):
    """Whose rules are asked for: those of the United States, United Kingdom, Germany or Australia."""

    US = "us"
    UK = "uk"
    DE = "de"
    AU = "au"


class Background(StrEnum):
    """What the tile is stuck to: a board, plaster, masonry, a screed, or an old covering that stays."""

    GYPSUM_PLASTER = "gypsum-plaster"
    PLASTERBOARD = "plasterboard"
    PLYWOOD = "plywood"
    GYPSUM_FIBRE_BOARD = "gypsum-fibre-board"
    CEMENT_BOARD = "cement-board"
    FOAM_BOARD = "foam-board"
    MASONRY = "masonry"
    CONCRETE = "concrete"
    SCREED = "screed"
    OLD_TILE = "old-tile"
    OLD_RESILIENT = "old-resilient-flooring"


class Wetness(StrEnum):
    """How wet the surface gets in use: now and then, regularly (a shower), or under water (a pool)."""

    DRY = "dry"
    WET = "wet"
    IMMERSED = "immersed"


class Exposure(StrEnum):
    """Whether the tile is inside, inside in the sun, or outside: it moves more with the heat."""

    INSIDE = "inside"
    SUNLIT = "sunlit"
    OUTSIDE = "outside"


class CutoutKind(StrEnum):
    """A cutout whose height must suit that of the tile: the flange of a toilet, an appliance."""

    FLANGE = "flange"
    APPLIANCE = "appliance"


class LayerRole(StrEnum):
    """What a layer between the bare base and the face of the tile is for."""

    PREPARATION = "preparation"
    BOARD = "board"
    MEMBRANE = "membrane"
    BED = "bed"
    TILE = "tile"
    COVERING = "covering"


class TrimKind(StrEnum):
    """What strips cut from the tile are for."""

    BASE = "base"
    CAP = "cap"
    THRESHOLD = "threshold"
    RETURN = "return"


class TrimCorners(StrEnum):
    """How two strips meet at a corner: one against the other, or both cut at an angle."""

    BUTT = "butt"
    MITRE = "mitre"


class BorderCorners(StrEnum):
    """How a border turns a corner: two tiles cut along the line between, or one side runs through."""

    MITRED = "mitred"
    BUTTED = "butted"


class BorderBegin(StrEnum):
    """How the tiles of a border are spread along an edge: equal ends, or a whole one at the first corner."""

    BALANCED = "balanced"
    CORNER = "corner"


class LineKind(StrEnum):
    """What a reference line asks of a layout."""

    CENTRE = "centre"
    JOINT = "joint"
    FULL_TILE = "full-tile"
    NO_JOINT = "no-joint"


class Centred(StrEnum):
    """What is centred on a feature: a tile, a joint, or whichever comes better."""

    EITHER = "either"
    TILE = "tile"
    JOINT = "joint"
