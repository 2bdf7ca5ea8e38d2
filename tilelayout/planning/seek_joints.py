"""The joints to try for a layout: spread over a range, and of a set of tiles those with which it fits.

Tiles of several sizes share one joint only if it ties their sizes together, and a basketweave one that ties
the tile's sides. Of such a pattern hardly any joint of a range can be laid, so the few that can are worked
out: the size that a further tile must have grows in equal steps with the joint.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from msgspec.structs import replace

from tilelayout.base.errors import LayoutError
from tilelayout.base.units import LengthStyle, format_length
from tilelayout.job.values import Layout, Tile
from tilelayout.layout.patterns import cell_of, more_sizes
from tilelayout.layout.roles import MoreTiles, size_of

_FINEST = 0.25
_MOST = 9
_SAME = 0.005
_DECIMALS = 2
"""A joint that is worked out is told, and tried, to so many decimals of a millimetre."""


@dataclass(frozen=True)
class Joints:
    """What of a range of joints can be laid: those `tried`, and those of them that fit the layout's tiles."""

    tried: tuple[float, ...]
    fitting: tuple[float, ...]

    def words(self, style: LengthStyle) -> str:
        """Say which joints fit, without a full stop; "" if all that were tried do."""
        if len(self.fitting) == len(self.tried):
            return ""
        size = partial(format_length, style=style, fraction=32, decimals=_DECIMALS)
        *first, last = (size(joint) for joint in self.fitting)
        fitting = f"{', '.join(first)} and {last} fit" if first else f"{last} fits"
        return f"of the joints from {size(self.tried[0])} to {size(self.tried[-1])} only {fitting}"


def joints_to_try(layout: Layout, tile: Tile, more: MoreTiles, limits: tuple[float, float]) -> Joints:
    """Return the joints within limits, in mm, least first. LayoutError if none of them can be laid."""
    spread = _spread(*limits)
    errors = {joint: _refusal(layout, tile, more, joint) for joint in spread}
    if not any(errors.values()):
        return Joints(spread, spread)
    for joint in _tying(layout, tile, more, spread):
        if all(abs(joint - other) > _SAME for other in errors):
            errors[joint] = _refusal(layout, tile, more, joint)
    tried = tuple(sorted(errors))
    fitting = tuple(joint for joint in tried if errors[joint] is None)
    if not fitting:
        raise _none_fits(errors, spread)
    return Joints(tried, fitting)


def _spread(least: float, most: float) -> tuple[float, ...]:
    """Return the joints that stand for a range: its ends and some between, in equal steps."""
    count = min(max(2, round((most - least) / _FINEST) + 1), _MOST) if most > least else 1
    return tuple(round(least + (most - least) * k / max(count - 1, 1), 6) for k in range(count))


def _tying(layout: Layout, tile: Tile, more: MoreTiles, spread: Sequence[float]) -> Iterator[float]:
    """Yield joints of the range that may tie the tiles together: the layout's own, and where sizes agree."""
    for joint in (layout.joint, *_agreeing(layout, tile, more, spread[0], spread[-1])):
        if spread[0] <= joint <= spread[-1]:
            yield joint


def _agreeing(layout: Layout, tile: Tile, more: MoreTiles, least: float, most: float) -> Iterator[float]:
    """Yield the joints at which a side of a further tile is as long as its role asks."""
    if most <= least:
        return
    at_least, at_most = (more_sizes(replace(layout, joint=joint), tile) for joint in (least, most))
    for role in at_least.keys() & more.keys():
        for side, first, last in zip(size_of(more[role]), at_least[role], at_most[role], strict=True):
            if first != last:
                yield round(least + (most - least) * (side - first) / (last - first), _DECIMALS)


def _refusal(layout: Layout, tile: Tile, more: MoreTiles, joint: float) -> LayoutError | None:
    try:
        cell_of(replace(layout, joint=joint), tile, more)
    except LayoutError as error:
        return error
    return None


def _none_fits(errors: Mapping[float, LayoutError | None], spread: Sequence[float]) -> LayoutError:
    """Return the error of a single joint; of a range one that tells the first of all of them."""
    error = errors[spread[0]] or LayoutError("")
    if len(spread) == 1:
        return error
    what = f"No joint from {spread[0]:.4g} to {spread[-1]:.4g} mm can be laid. {error.what}"
    return LayoutError(what, error.mend)
