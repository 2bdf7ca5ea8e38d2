"""The strip of figures under a plan: what is counted in large numerals, what was assumed in small type."""

from __future__ import annotations

from tilelayout.base.units import format_area, format_length
from tilelayout.layout.patterns import pattern
from tilelayout.planning.left_out import bare_words, strip_words
from tilelayout.planning.plan import Plan
from tilelayout.planning.tile_words import chip_words, hand_words, tile_counts, tile_size
from tilelayout.reports.figure import Mark, Pen, Role, Text
from tilelayout.reports.marks import THIN, line
from tilelayout.reports.sheets.page import BODY, SMALL, paragraph
from tilelayout.reports.type_size import POINT, wrapped

_NUMERAL = 17 * POINT
_LEADING = 1.35


def key_figures(plan: Plan, width: float) -> tuple[tuple[Mark, ...], float]:
    """Return the strip, hanging below (0, 0), and its height in mm."""
    figures = _figures(plan)
    step = width / len(figures)
    x, y = 0.0, 0.0
    marks: list[Mark] = [line((x, y), (x + width, y), pen=Pen(Role.INK, THIN))]
    for number, (label, value) in enumerate(figures):
        marks.append(Text((x + number * step, y - 4.6), label, SMALL))
        marks.append(Text((x + number * step, y - 11.6), value, _NUMERAL, is_bold=True))
    lines = [row for sentence in assumptions(plan) for row in wrapped(sentence, BODY, width)]
    marks += paragraph((x, y - 17.6), tuple(lines), BODY, leading=_LEADING)
    return tuple(marks), 16.0 + len(lines) * BODY * _LEADING


def _figures(plan: Plan) -> tuple[tuple[str, str], ...]:
    narrowest = "none" if plan.narrowest is None else format_length(plan.narrowest, plan.style)
    return (
        ("Tiles needed", str(plan.tiles_needed)),
        ("Whole", str(plan.whole)),
        ("Cut", str(plan.cut)),
        ("Slivers", str(len(plan.slivers))),
        ("Narrowest piece", narrowest),
    )


def assumptions(plan: Plan) -> tuple[str, ...]:
    """Return what the figures rest on, in sentences: tile, joint, how tiles are counted, what is left out."""
    sentences = (
        *tile_words(plan),
        chip_words(plan),
        laying_words(plan),
        _count_words(plan),
        hand_words(plan),
        strip_words(plan),
        bare_words(plan),
    )
    return tuple(sentence for sentence in sentences if sentence)


def tile_words(plan: Plan) -> tuple[str, ...]:
    """Return a sentence for each tile: its name and measured size, of several how many of it are needed."""
    counts = [f"; {words}" for _, words in tile_counts(plan)] or [""]
    return tuple(
        f"Tile: {tile.title}, measured {tile_size(tile, plan.style)}, "
        f"{format_length(tile.thickness, plan.style)} thick{count}."
        for tile, count in zip(plan.tiles, counts, strict=True)
    )


def laying_words(plan: Plan) -> str:
    """Return how the tile is laid: pattern, angle, joint and gap."""
    layout = plan.layout
    angle = f", turned {layout.angle:g}°" if layout.angle else ""
    joint, gap = format_length(layout.joint, plan.style), format_length(layout.gap, plan.style)
    area = format_area(plan.region_area, plan.style)
    name = pattern(layout.pattern).NAME.lower()
    return f"Laid as {name}{angle}, joints {joint}, gap at walls {gap}; {area} to be tiled."


def _count_words(plan: Plan) -> str:
    if not plan.cut:
        return f"{plan.tiles_needed} tiles, all laid whole; breakage and spare are not in it."
    sharing = plan.sharing
    if sharing.is_fewest:
        least = "no plan takes fewer"
    else:
        least = f"no plan can do with fewer than {sharing.tiles_needed_at_least}"
    shared = f"One for each cut piece would be {sharing.without_sharing}." if sharing.is_saving else ""
    words = f"{sharing.tiles_needed} tiles, with offcuts shared: {least}. {shared}".rstrip()
    return f"{words} Breakage and spare are not in it."
