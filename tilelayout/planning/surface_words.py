"""A survey in words for people: what looks mistyped, its verdicts, what to do, what to mind.

Window and sheets say the same sentences.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle, format_area, format_length
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.flatness.values import Spot
from tilelayout.flatness.verdicts import Verdict
from tilelayout.job.values import SurfaceKind
from tilelayout.planning.preparing import Prepared, product_words

JUDGED = {True: "Flat enough", False: "Not flat enough", None: "Cannot be judged"}

CAUTIONS = (
    "Do not sand, scrape or grind old flooring or black adhesive that may hold asbestos: have it tested. "
    "Grind concrete with dust extraction and a mask. The surface must also be sound, stiff and dry, which no "
    "survey shows. Local codes and the product's own sheet come first."
)


def slip_words(slip: Mistyped, style: LengthStyle) -> str:
    """Return what looks wrong with a reading and what would fit."""
    height, low, high = (format_height(value, style) for value in (slip.height, slip.low, slip.high))
    where = place_words((slip.x, slip.y), style)
    fits = "" if slip.fits is None else f" {format_height(slip.fits, style)} would fit."
    return f"{height} at {where} looks mistyped: its neighbours say {low} to {high}.{fits}"


def place_words(spot: Spot, style: LengthStyle) -> str:
    """Return a place as the distances across and up."""
    x, y = (format_length(value, style, decimals=0) for value in spot)
    return f"({x}, {y})"


def measured_words(each: Verdict, style: LengthStyle) -> str:
    """Return what was found beside what is allowed: "over 3048 mm: rise 5.3 mm, 3.2 mm allowed"."""
    worst, limit = format_height(each.variation.worst, style), format_height(each.limit.limit, style)
    over = format_length(each.limit.over, style)
    form = f" {each.limit.form}" if each.limit.form else ""
    return f"over {over}: {each.variation.by} {worst}, {limit} allowed{form}"


def mend_words(made: Prepared, style: LengthStyle) -> tuple[str, ...]:
    """Return what to do in sentences: volume, bags, depths, pours, dams, primer."""
    return tuple(_mend_words(made, style))


def _mend_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    fill = made.fill
    if not made.is_needed:
        yield "Nothing is to be filled or taken off: the surface is flat enough as it is."
        return
    if fill.volume_removed > 1.0:
        most = format_height(fill.most_removed, style)
        litres = f"{fill.volume_removed / 1e6:.2f} litres"
        yield f"Grind off {litres}, {most} at most, at the spots below nought on the map."
    deepest, thinnest = format_height(fill.deepest, style), format_height(fill.thinnest, style)
    where = place_words(fill.deepest_at, style)
    bags = "1 bag" if made.bags == 1 else f"{made.bags} bags"
    yield f"{made.litres:.1f} litres of filler, {bags} with a tenth more."
    yield f"Deepest {deepest} at {where}; thinnest {thinnest}."
    yield from product_words(made, style)
    yield f"Prime {format_area(made.primed_area, style)} first, as its maker says for this ground."
    beyond = fill.ground.area_beyond
    if beyond > 0.005 * fill.ground.whole_area:
        yield f"{format_area(beyond, style)} beyond the outermost readings are not counted."


def kind_words(kind: SurfaceKind) -> str:
    """Return how heights are taken on a surface of this kind."""
    if kind is SurfaceKind.WALL:
        return "Heights are out from any plumb plane: a string, a laser, a long level."
    return "Heights are up from any level plane: measured down to the floor, they are negative."
