"""Plans as text for a person at a terminal: the figures that matter, then the cut list."""

from __future__ import annotations

from collections.abc import Iterable

from tilelayout.base.units import LengthStyle, format_area, format_length
from tilelayout.cli.lay_rules import buying_text
from tilelayout.job.values import Job
from tilelayout.layout import patterns
from tilelayout.planning.cut_list import CutRow
from tilelayout.planning.left_out import bare_words, strip_words
from tilelayout.planning.plan import Plan
from tilelayout.planning.range_words import (
    border_cut_words,
    border_range_words,
    counts_words,
    length_range_words,
    off_words,
)
from tilelayout.planning.reference_lines import line_misses
from tilelayout.planning.sensitivity import BorderRange, ranges
from tilelayout.planning.tile_words import hand_words, sliver_words, tile_counts
from tilelayout.planning.wall_names import edge_name

_MOST_IDS = 6
"""How many pieces of a row are named before the rest is only counted."""


def as_text(job: Job, plans: Iterable[Plan], rules: list[str], with_ranges: bool = False) -> str:
    """Return the text, ending in a line feed; `rules` are the lines of what the trade's rules find."""
    parts = [job.title] if job.title else []
    laid = [_layout(job, made, with_ranges) for made in plans]
    return "\n\n".join([*parts, *laid, *(["\n".join(rules)] if rules else [])]) + "\n"


def _layout(job: Job, made: Plan, with_ranges: bool) -> str:
    pattern = patterns.pattern(made.layout.pattern).NAME.lower()
    tiles = ", ".join(tile.title for tile in made.tiles)
    head = f"Layout {made.layout.id}: {tiles}, {pattern}, on {made.surface.title}"
    may_be = _ranges(made) if with_ranges else []
    buying = buying_text(job, made)
    cuts = _cut_list(made.cut_rows, _numbered_words(job))
    return "\n".join([head, *_figures(made), *may_be, *buying, *cuts])


def _figures(made: Plan) -> list[str]:
    tiles = "tiles" if made.chips is None else "sheets"
    rows = [
        ("area to tile", format_area(made.region_area, made.style), ""),
        (f"whole {tiles}", str(made.whole), ""),
        ("cut pieces", str(made.cut), " ".join(filter(None, (strip_words(made), bare_words(made))))),
        *_chips(made),
        (
            f"{tiles} to open",
            str(made.tiles_needed),
            "; ".join(filter(None, (_least_words(made), hand_words(made).rstrip(".")))),
        ),
        ("narrowest piece", _length(made.narrowest, made.style), ""),
        ("slivers", str(len(made.slivers)), _slivers(made)),
    ]
    value_width = max(len(value) for _, value, _ in rows)
    lines = [f"  {name:<16}{value:>{value_width}}  {note}".rstrip() for name, value, note in rows]
    lines += [f"  {title}: {words}" for title, words in tile_counts(made)]
    return lines + [f"  line to keep to: {line.words}" for line in line_misses(made)]


def _chips(made: Plan) -> list[tuple[str, str, str]]:
    """How many chips of mosaic sheets stay whole and how many are cut."""
    if made.chips is None:
        return []
    whole, cut = made.chips.whole_count, len(made.chips.cut_parts)
    return [("whole chips", str(whole), ""), ("cut chips", str(cut), "the rest is parted with the knife")]


def _least_words(made: Plan) -> str:
    """What is proved: that no plan takes fewer tiles, or how few it might be."""
    sharing = made.sharing
    if not made.cut:
        return ""
    least = f"no plan can do with fewer than {sharing.tiles_needed_at_least}"
    apart = f"; one for each cut piece would be {sharing.without_sharing}" if sharing.is_saving else ""
    return ("the fewest possible" if sharing.is_fewest else least) + apart


def _ranges(made: Plan) -> list[str]:
    """The border cuts with their ranges, and what the counts may be."""
    found, style = ranges(made), made.style
    borders = [found.borders.get(cut.edge, BorderRange()) for cut in made.borders]
    rows = [
        (edge_name(made.surface, cut.edge), border_cut_words(cut, style), border_range_words(border, style))
        for cut, border in zip(made.borders, borders, strict=True)
    ]
    name_width, cut_width = (max((len(row[k]) for row in rows), default=0) for k in (0, 1))
    lines = [f"  Border cuts, and what they may be with {off_words(style)}"]
    lines += [f"    {name:<{name_width}}  {cut:>{cut_width}}  {words}".rstrip() for name, cut, words in rows]
    narrowest = length_range_words(found.narrowest, style)
    return ["", *lines, f"    counts: {counts_words(found)}; narrowest piece {narrowest}"]


def _length(length: float | None, style: LengthStyle) -> str:
    return "-" if length is None else format_length(length, style)


def _slivers(made: Plan) -> str:
    if not made.slivers:
        return ""
    return f"{_ids([piece.id for piece in made.slivers])}: {sliver_words(made)}"


def _ids(ids: list[str]) -> str:
    rest = len(ids) - _MOST_IDS
    return ", ".join(ids) if rest <= 0 else f"{', '.join(ids[:_MOST_IDS])} and {rest} more"


def _numbered_words(job: Job) -> list[str]:
    """Say that the list is of one layout, where window and sheets have one list over the whole job."""
    if not job.shares_tiles:
        return []
    return [
        "  Rows and pieces are numbered within this layout. Window and sheets number the sawn tiles over the",
        "  whole job and, of several surfaces, put the surface's number before a piece: 2-C4.",
    ]


def _cut_list(rows: tuple[CutRow, ...], numbered: list[str]) -> list[str]:
    if not rows:
        return ["", "  Nothing to cut."]
    number_width, count_width = len(str(len(rows))), max(len(str(row.count)) for row in rows)
    lines = ["", "  Cut list (each tile face up, its length from left to right)", *numbered]
    for row in rows:
        head = f"  {row.number:>{number_width}}.  {row.count:>{count_width}} x  "
        first, *rest = (*row.words, _about(row))
        lines.append(f"{head}{first}{'  [sliver]' if row.is_sliver else ''}")
        lines += [f"{'':{len(head)}}{text}" for text in rest]
    return lines


def _about(row: CutRow) -> str:
    where = f" at {', '.join(row.walls)}" if row.walls else ""
    return f"{row.size}{where}: {_ids([piece.id for piece in row.pieces])}"
