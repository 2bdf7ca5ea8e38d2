"""Judged surveys as text for a person at a terminal: verdicts first, then what it takes to mend it."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import fill as wrapped

from tilelayout.base.units import INCH, LengthStyle, format_area, format_length
from tilelayout.flatness.fill import Fill
from tilelayout.flatness.values import Spot
from tilelayout.flatness.verdicts import Verdict
from tilelayout.job.values import Job
from tilelayout.planning.surface import Flatness

_WIDTH = 100
_LITRE = 1e6

_CAUTION = (
    "Do not sand, scrape or grind old flooring or black adhesive that may hold asbestos: have it tested. "
    "Grind concrete with dust extraction. What is laid on must also be sound, stiff and dry, which no "
    "survey shows."
)


def as_text(job: Job, judged: Iterable[Flatness], with_standards: bool = False) -> str:
    """Return the text, ending in a line feed."""
    parts = [job.title] if job.title else []
    parts += [_survey(job, one, with_standards) for one in judged]
    return "\n\n".join([*parts, wrapped(_CAUTION, _WIDTH)]) + "\n"


def _survey(job: Job, one: Flatness, with_standards: bool) -> str:
    style = job.show_lengths
    count = len(one.survey.points) + len(one.survey.straightedge)
    lines = [f"Survey of {one.surface.title}: {count} readings, judged by {_names(one)}"]
    if not one.tiles:
        lines.append("  No tile is planned on this surface: add a layout, and it is judged for its tile.")
    for tile in one.tiles:
        lines.append(f"  For {tile.title}:")
        verdicts = [each for each in one.verdicts if each.tile == tile.id]
        lines += [line for each in verdicts for line in _verdict(each, style)]
        lines += [line for words in _sources(verdicts) for line in _indented("    source: ", words)]
    lines += _preparation(one, style)
    lines += _others(one, style) if with_standards else []
    lines += _indented("Note: ", " ".join(one.traps)) if with_standards else []
    return "\n".join(lines)


def _names(one: Flatness) -> str:
    return " and ".join(standard.NAME for standard in one.standards)


_WORDS = {True: "flat enough", False: "NOT FLAT ENOUGH", None: "cannot be judged"}


def _verdict(each: Verdict, style: LengthStyle) -> list[str]:
    found, limit = each.variation, each.limit
    form = f" {limit.form}" if limit.form else ""
    head = (
        f"    over {format_length(limit.over, style)}: {_WORDS[each.ok]}, "
        f"{found.by} {_fine(found.worst, style)}, limit {_fine(limit.limit, style)}{form}"
    )
    lines = [head]
    if found.chord is not None:
        start, end, at = (
            _place(spot, style) for spot in (found.chord.start, found.chord.end, found.chord.at)
        )
        lines += _indented("      ", f"straightedge from {start} to {end}, {_below(found.by)} at {at}")
    return lines + (_indented("      ", each.why) if each.why else [])


def _sources(verdicts: Iterable[Verdict]) -> Iterable[str]:
    """Each source once: several limits often come from one clause."""
    return dict.fromkeys(each.limit.source.words for each in verdicts)


def _below(by: str) -> str:
    return "the surface lies below it" if by == "gap" else "the surface stands above it"


def _preparation(one: Flatness, style: LengthStyle) -> list[str]:
    level, least = one.level_fill, one.least_fill
    lines = []
    if least is not None:
        head = f"  Least fill for {one.tiles[0].title}: "
        lines.append(head + ("none is needed" if least.volume < 1.0 else _fill(least, style)))
    if level is not None:
        lines.append(f"  Level with the highest point: {_fill(level, style)}")
        lines += _beyond(level, style)
    if one.slips:
        lines.append("  Check the readings named above before buying anything: every figure counts them.")
    return lines


def _beyond(fill: Fill, style: LengthStyle) -> list[str]:
    beyond = fill.ground.area_beyond
    if beyond < 0.005 * fill.ground.whole_area:
        return []
    area = format_area(beyond, style)
    return [f"  {area} lie beyond the outermost readings and are not counted in these volumes."]


def _fill(fill: Fill, style: LengthStyle) -> str:
    return (
        f"{fill.volume / _LITRE:.1f} litres over {format_area(fill.ground.area, style)}, "
        f"deepest {_fine(fill.deepest, style)} at {_place(fill.deepest_at, style)}"
    )


def _others(one: Flatness, style: LengthStyle) -> list[str]:
    lines = ["  By other prints of the figures and other countries' standards, for comparison:"]
    for name, each in one.compared:
        found, limit = each.variation, each.limit
        form = f", {limit.form}" if limit.form else ""
        lines.append(
            f"    {each.tile}, over {format_length(limit.over, style)}: {_WORDS[each.ok]}, "
            f"{found.by} {_fine(found.worst, style)}, limit {_fine(limit.limit, style)} ({name}{form})"
        )
    return lines


def _fine(mm: float, style: LengthStyle) -> str:
    """A height: hundredths of a mm matter here, and in inches thousandths."""
    if style.is_metric:
        return f"{round(mm + 1e-9, 2):g} mm"
    return f"{mm / float(INCH) + 1e-9:.3f} in ({round(mm + 1e-9, 2):g} mm)"


def _place(spot: Spot, style: LengthStyle) -> str:
    x, y = (format_length(value, style) for value in spot)
    return f"({x}, {y})"


def _indented(first: str, text: str) -> list[str]:
    indent = " " * (len(first) - len(first.lstrip()))
    return wrapped(text, _WIDTH, initial_indent=first, subsequent_indent=indent + "  ").splitlines()
