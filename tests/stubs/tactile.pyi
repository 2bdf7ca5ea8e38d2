"""What the tests use of package tactile, which brings no types of its own."""

from collections.abc import Sequence

tiling_types: Sequence[int]

class Point:
    x: float
    y: float

class IsohedralTiling:
    parameters: list[float]
    def __init__(self, tiling_type: int) -> None: ...
    @property
    def vertices(self) -> list[Point]: ...
    @property
    def aspects(self) -> list[Sequence[float]]: ...
    @property
    def t1(self) -> Point: ...
    @property
    def t2(self) -> Point: ...
