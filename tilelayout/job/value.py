"""What every part of a job is made of: lengths, points, and values that never change."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

if TYPE_CHECKING:
    Length = float
else:

    class _AnyFloat(type):
        def __instancecheck__(cls, value: object) -> bool:
            return isinstance(value, float)

    class Length(metaclass=_AnyFloat):
        """A length in mm, always a plain float.

        A type of its own only so that the strict reader knows where a length stands and a text such as
        "8 ft" is to be read as one.
        """

        def __new__(cls, value: float) -> float:
            """Return the plain float."""
            return float(value)


Point = tuple[Length, Length]


class Value(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What every part of a job is: immutable, compared by content, strict about unknown keys."""
