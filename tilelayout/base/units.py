"""Lengths as a person writes them, and as the program shows them. All else in the program is in mm."""

from __future__ import annotations

from enum import StrEnum


class LengthStyle(StrEnum):
    """How lengths are shown, and what a bare number typed by a person means."""

    MM = "mm"
    CM = "cm"
    M = "m"
    INCH = "inch"
    FEET = "feet"
    DECIMAL_FEET = "decimal-feet"
