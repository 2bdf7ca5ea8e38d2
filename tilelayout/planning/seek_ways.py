"""The ways of laying that a wish asks for, each with its own search.

A way is a layout without its start: an angle, row offsets and a joint. What is the same turned by a quarter
is tried once.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

from msgspec.structs import replace

from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Layout, Point, Tile
from tilelayout.layout.patterns import cell_of
from tilelayout.layout.roles import NO_MORE, MoreTiles
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.pool import Scored
from tilelayout.layout.seeking.search import Search
from tilelayout.layout.values import Region
from tilelayout.planning.fixed_pieces import NONE_FIXED, FixedPieces
from tilelayout.planning.seek_joints import Joints, joints_to_try


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
    """One way of laying and its search; `middle` is where starts are to lie near.

    `joints` are those that were tried for it, if a range of them is wished for; `fixed` is what no start
    changes.
    """

    layout: Layout
    search: Search
    middle: Point
    joints: Joints | None = None
    fixed: FixedPieces = NONE_FIXED

    @property
    def best_narrowest(self) -> float:
        """The narrowest cut with the best start so far, those of the border included."""
        return min(self.search.best.trial.narrowest, self.fixed.narrowest)

    @property
    def best_slivers(self) -> int:
        """The slivers with the best start so far, those of the border included."""
        return self.search.best.trial.slivers + self.fixed.slivers

    @property
    def narrowest_at_most(self) -> float | None:
        """A proved bound on the narrowest cut of every start; None if none was proved."""
        bound = self.search.narrowest_at_most
        return None if bound is None else min(bound, self.fixed.narrowest)

    def joints_told(self, style: LengthStyle) -> str:
        """Say which joints of the range fit, without a full stop; "" if all do."""
        return self.joints.words(style) if self.joints else ""

    def laid_at(self, scored: Scored) -> Layout:
        """Return the layout with a start of the pool."""
        return replace(self.layout, start=self.search.trials.near(scored.trial.start, self.middle))


def layouts_wished(
    basis: Layout, tile: Tile, wish: Wish, more: MoreTiles = NO_MORE
) -> list[tuple[Layout, Joints | None]]:
    """Return the layouts to seek a start for, without those that are the same turned by a quarter.

    With each go the joints that were tried for it, if a range of them is wished for. LayoutError if one can
    be laid with no joint of the range.
    """
    found: list[tuple[Layout, Joints | None]] = []
    own = [{"row_offsets": each} for each in wish.row_offsets] or [{}]
    for angle, settings in product(wish.angles or (basis.angle,), own):
        turned = replace(basis, angle=float(angle), settings={**basis.settings, **settings})
        joints = joints_to_try(turned, tile, more, wish.joints) if wish.joints else None
        for joint in joints.fitting if joints else (basis.joint,):
            layout = replace(turned, joint=joint)
            if not any(_is_the_same_pattern(layout, other, tile) for other, _ in found):
                found.append((layout, joints))
    return found


def middle_of(region: Region) -> Point:
    """Return the middle of the region's box."""
    low_x, low_y, high_x, high_y = region.shape.bounds
    return (low_x + high_x) / 2.0, (low_y + high_y) / 2.0


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
