"""A survey in words for people: what looks mistyped, its verdicts, what to do, what to mind.

Window and sheets say the same sentences.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.base.falls import format_fall
from tilelayout.base.heights import format_height, format_height_about
from tilelayout.base.units import LengthStyle, format_area, format_length
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.flatness.plumb import LIMIT, OVER, SOURCE
from tilelayout.flatness.values import Spot
from tilelayout.flatness.verdicts import Verdict
from tilelayout.job.preparation import GivenHeight, PreparationWay
from tilelayout.job.values import SurfaceKind
from tilelayout.planning.preparing import Prepared, product_words, volume_words
from tilelayout.planning.surface import Flatness

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
    over, limit = format_length(each.limit.over, style), format_height(each.limit.limit, style)
    form = f" ({each.limit.form})" if each.limit.form else ""
    return (
        f"over {over}: {each.variation.by} {fine_words(each.variation.worst, style)}, {limit} allowed{form}"
    )


def fine_words(mm: float, style: LengthStyle) -> str:
    """Return a height that is held against a limit: on the rule, and as fine as it was worked out."""
    about, fine = format_height_about(mm, style), format_height(mm, style)
    if about == fine or not any(digit in about for digit in "123456789"):
        return fine
    return f"{about} ({fine})"


def plumb_words(one: Flatness, style: LengthStyle) -> str:
    """Return whether a wall stands plumb, if its readings were taken from a plumb line; "" for a floor."""
    if one.surface.kind is not SurfaceKind.WALL:
        return ""
    found = one.lean
    if found is None:
        apart = format_length(600.0, style, decimals=0)
        return f"Cannot be judged for plumb: read heights above each other, {apart} or more apart."
    over, way = format_length(found.over, style, decimals=0), "out" if found.out > 0.0 else "in"
    where = "" if found.x is None else f" at {format_length(found.x, style, decimals=0)} across"
    allowed = f"{format_height(LIMIT, style)} in {format_length(OVER, style, decimals=0)}"
    leans = fine_words(abs(found.out), style)
    return (
        f"{'Plumb enough' if found.ok else 'Not plumb enough'}: the top leans {way} by {leans} over {over}"
        f"{where}; {allowed} is usual ({SOURCE.through}). It counts if heights were read from a plumb line."
    )


def f_number_words(one: Flatness) -> str:
    """Return FF and FL with what they are worth, or what the survey lacks for them; nothing for a wall."""
    found = one.f_numbers
    if one.surface.kind is SurfaceKind.WALL:
        return ""
    if found is None:
        return "FF and FL: they need lines of five or more readings every 12 in (300 mm)."
    lines = "1 line" if found.lines == 1 else f"{found.lines} lines"
    level = (
        "FL needs lines longer than 10 ft (3 m)"
        if found.levelness is None
        else f"FL {_f_number(found.levelness)}"
    )
    return (
        f"FF {_f_number(found.flatness)}, {level}, over {lines}: indicative only, after ASTM E1155 with its "
        "constants from memory. No tile is judged by them."
    )


def _f_number(number: float) -> str:
    return f"{number:.0f}" if number < 1000.0 else "over 1000"


def given_words(given: GivenHeight, style: LengthStyle) -> str:
    """Return a height to meet: "kitchen door: 5 mm", "drain: -12 mm, 2 % to it"."""
    where = given.name or place_words(given.at, style)
    height = "as low as it can be" if given.height is None else format_height(given.height, style)
    fall = "" if given.fall_percent is None else f", {format_fall(given.fall_percent, style)} to it"
    return f"{where}: {height}{fall}"


def checked_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    """Yield what the verdict says of the filled surface. It is worked out if it was not asked for before."""
    if made.verdicts and made.is_needed:
        found = ". ".join(f"{JUDGED[each.ok]} {measured_words(each, style)}" for each in made.verdicts)
        yield f"Judged again as filled, for {made.one.tiles[0].title}: {found}."
        if any(each.ok is not True for each in made.verdicts) and made.has_falls:
            yield (
                "Straightedges across a fall find the bowl that it is: small tile follows it, large tile "
                "wants a channel along a wall, or cuts where the planes meet."
            )


def mend_words(made: Prepared, style: LengthStyle) -> tuple[str, ...]:
    """Return what to do in sentences: volume, bags, depths, pours, dams, primer."""
    return tuple(_mend_words(made, style))


def _mend_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    yield from _missed_words(made, style)
    if not made.is_needed:
        yield "Nothing is to be filled or taken off: the surface is flat enough as it is."
        return
    yield from _ground_words(made, style)
    yield from _filled_words(made, style)
    yield from _grinding_words(made, style)
    if made.cost is not None:
        yield f"Filling and grinding together cost {made.cost:.2f}."
    beyond = made.fill.ground.area_beyond
    if beyond > 0.005 * made.fill.ground.whole_area:
        yield f"{format_area(beyond, style)} beyond the outermost readings are not counted."


def _missed_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    for each in made.missed:
        name = each.given.name or place_words(each.given.at, style)
        off = format_height_about(abs(each.above), style)
        side = "above" if each.above > 0.0 else "below"
        mend = (
            "change the fall, or a height"
            if made.has_falls
            else "these heights lie in no one plane: change one"
        )
        yield f"At {name} it comes to {off} {side} the height given: {mend}."


def _ground_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    fill = made.fill
    if fill.volume_removed <= 1.0:
        return
    most, where = fine_words(fill.most_removed, style), place_words(fill.most_removed_at, style)
    litres = _little(made.litres_removed)
    if made.asked.way is PreparationWay.PLANE:
        mend = f"raise the heights given by {most}" if made.asked.meets else "fill higher"
        yield (
            f"The surface stands above this plane, by {most} at most, at {where}: grind off {litres} at the "
            f"spots below nought on the map, or {mend}."
        )
    else:
        yield f"Grind off {litres}, {most} at most, at {where}: the spots below nought on the map."
    if made.grinds_too_deep:
        allowed = format_height(made.asked.most_ground or 0.0, style)
        yield f"That is deeper than the {allowed} that may be ground off."


def _little(litres: float) -> str:
    return f"{litres:.2f} litres" if litres >= 0.01 else "less than 0.01 litres"


def _grinding_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    other = made.with_grinding
    if other is not None:
        most = format_height_about(other.fill.most_removed, style)
        yield (
            f"If {most} may be ground off at {place_words(other.fill.most_removed_at, style)}, "
            f"{_little(other.litres_removed)} in all, a plane takes {other.litres:.1f} litres of filler."
        )


def _filled_words(made: Prepared, style: LengthStyle) -> Iterator[str]:
    fill = made.fill
    if fill.volume <= 1.0:
        return
    deepest, thinnest = (format_height_about(each, style) for each in (fill.deepest, fill.thinnest))
    bags = "1 bag" if made.bags == 1 else f"{made.bags} bags"
    yield f"{volume_words(made.litres, style)} of filler, {bags} with a tenth more."
    yield f"Deepest {deepest} at {place_words(fill.deepest_at, style)}; thinnest {thinnest}."
    yield from product_words(made, style)
    yield f"Prime {format_area(made.primed_area, style)} first, as its maker says for this ground."


def kind_words(kind: SurfaceKind) -> str:
    """Return how heights are taken on a surface of this kind."""
    if kind is SurfaceKind.WALL:
        return "Heights are out from any plumb plane: a string, a laser, a long level."
    return "Heights are up from any level plane: measured down to the floor, they are negative."
