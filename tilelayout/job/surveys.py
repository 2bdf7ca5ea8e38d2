"""Surveys of a surface: heights read, gaps felt under a straightedge, and how it is to be made flat."""

from __future__ import annotations

from enum import StrEnum

import msgspec

from tilelayout.job.preparation import Preparation
from tilelayout.job.value import Length, Point, Value


class SurveyTool(StrEnum):
    """What the heights were read with."""

    LASER = "laser"
    STRAIGHTEDGE = "straightedge"
    LEVEL = "level"
    OTHER = "other"


class StraightedgeReading(Value, frozen=True, kw_only=True):
    """A gap felt under a straightedge that rests on two points of a surface, `along` mm from the first."""

    start: Point = msgspec.field(name="from")
    end: Point = msgspec.field(name="to")
    along: Length
    gap: Length


class Survey(Value, frozen=True, kw_only=True):
    """Height readings (x, y, height) on a surface, and gaps read under a straightedge.

    A height is up from a floor and out from a wall, from any level or plumb plane. `tool` is what they were
    read with and `resolution` the smallest difference it shows; None if nobody said. `preparation` is how it
    is to be made flat.
    """

    surface: str
    name: str = ""
    tool: SurveyTool = SurveyTool.OTHER
    resolution: Length | None = None
    points: tuple[tuple[Length, Length, Length], ...] = ()
    straightedge: tuple[StraightedgeReading, ...] = ()
    preparation: Preparation | None = None
