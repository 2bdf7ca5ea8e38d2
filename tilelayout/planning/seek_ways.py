"""The ways of laying that a wish asks for, each with its own search.

A way is a layout without its start: an angle, row offsets and a joint. What is the same turned by a quarter
is tried once.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

from msgspec.structs import replace

from tilelayout.job.values import Layout, Point, Tile
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.pool import Scored
from tilelayout.layout.seeking.search import Search
from tilelayout.layout.values import Region

_FINEST_JOINT = 0.25
_MOST_JOINTS = 9


@dataclass(frozen=True)
class Wish:
    """What to seek.

    `angles` and `row_offsets` are the ways of laying to try; none means that of the layout there is. `joints`
    is the least and the greatest joint that is allowed, in mm. `most` is how many layouts to return.
    """

    aim: Aim = Aim.BALANCED
    most: int = 5
    angles: tuple[float, ...] = ()
    row_offsets: tuple[tuple[float, ...], ...] = ()
    joints: tuple[float, float] | None = None


@dataclass(frozen=True, eq=False)
class Way:
    """One way of laying and its search; `middle` is where starts are to lie near."""

    layout: Layout
    search: Search
    middle: Point

    def laid_at(self, scored: Scored) -> Layout:
        """Return the layout with a start of the pool."""
        return replace(self.layout, start=self.search.trials.near(scored.trial.start, self.middle))


def layouts_wished(basis: Layout, tile: Tile, wish: Wish) -> list[Layout]:
    """Return the layouts to seek a start for, without those that are the same turned by a quarter."""
    offsets = [{"row_offsets": each} for each in wish.row_offsets] or [{}]
    found: list[Layout] = []
    for angle, own, joint in product(wish.angles or (basis.angle,), offsets, _joints(basis, wish)):
        layout = replace(basis, angle=float(angle), joint=joint, settings={**basis.settings, **own})
        if not any(_is_the_same_pattern(layout, other, tile) for other in found):
            found.append(layout)
    return found


def middle_of(region: Region) -> Point:
    """Return the middle of the region's box."""
    low_x, low_y, high_x, high_y = region.shape.bounds
    return (low_x + high_x) / 2.0, (low_y + high_y) / 2.0


def _joints(basis: Layout, wish: Wish) -> list[float]:
    if wish.joints is None:
        return [basis.joint]
    least, most = wish.joints
    count = min(max(2, round((most - least) / _FINEST_JOINT) + 1), _MOST_JOINTS) if most > least else 1
    return [round(least + (most - least) * k / max(count - 1, 1), 6) for k in range(count)]


def _is_the_same_pattern(one: Layout, other: Layout, tile: Tile) -> bool:
    """Tell whether two ways of laying differ by nothing but a quarter turn of a square grid."""
    if one.joint != other.joint or one.settings != other.settings or (one.angle - other.angle) % 90.0:
        return False
    if (one.angle - other.angle) % 360.0 == 0.0:
        return True
    if one.more_tiles:
        return False
    (a, b), (c, d) = cell_of(one, tile).vectors
    is_square = abs(b) + abs(c) < 1e-9 and abs(a - d) < 1e-9
    return is_square and len(cell_of(one, tile).faces) == 1
