"""Judged surveys as text for a person at a terminal: verdicts first, then what it takes to mend it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from textwrap import fill as wrapped

from tilelayout.base.units import LengthStyle, format_area, format_length
from tilelayout.cli.flat_sits import Sits, sits_text
from tilelayout.flatness.fill import Fill
from tilelayout.flatness.values import Spot
from tilelayout.flatness.verdicts import Verdict
from tilelayout.job.values import Job
from tilelayout.planning.preparing import UPRIGHT_WAY_WORDS, WAY_WORDS, Prepared
from tilelayout.planning.surface import Flatness
from tilelayout.planning.surface_words import (
    CAUTIONS,
    checked_words,
    f_number_words,
    fine_words,
    mend_words,
    plumb_words,
)

_WIDTH = 100
_LITRE = 1e6


def as_text(
    job: Job,
    judged: Sequence[Flatness],
    with_standards: bool = False,
    sits: Sits | None = None,
    made: Sequence[Prepared | None] = (),
) -> str:
    """Return the text, ending in a line feed; `made` is each survey prepared, in their order."""
    parts = [job.title] if job.title else []
    mends = [*made, *[None] * (len(judged) - len(made))]
    parts += [_survey(job, one, each, with_standards) for one, each in zip(judged, mends, strict=True)]
    parts += [text] if sits is not None and (text := sits_text(job, sits)) else []
    return "\n\n".join([*parts, wrapped(CAUTIONS, _WIDTH)]) + "\n"


def _survey(job: Job, one: Flatness, made: Prepared | None, with_standards: bool) -> str:
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
    lines += _indented("  ", plumb_words(one, style) or f_number_words(one))
    lines += _preparation(one, style)
    lines += [] if made is None else _prepared(made, style)
    lines += _others(one, style) if with_standards else []
    lines += _indented("Note: ", " ".join(one.traps)) if with_standards else []
    return "\n".join(lines)


def _names(one: Flatness) -> str:
    return " and ".join(standard.NAME for standard in one.standards)


_WORDS = {True: "flat enough", False: "NOT FLAT ENOUGH", None: "cannot be judged"}


def _verdict(each: Verdict, style: LengthStyle) -> list[str]:
    found, limit = each.variation, each.limit
    form = f" ({limit.form})" if limit.form else ""
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
    return lines + _indented("      ", each.why_in(style))


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


def _prepared(made: Prepared, style: LengthStyle) -> list[str]:
    """The way that was asked for, with what it takes, and the verdict on the filled surface."""
    words = UPRIGHT_WAY_WORDS if made.is_upright else WAY_WORDS
    lines = [f"  What to do: {words[made.asked.way]}"]
    for sentence in (*mend_words(made, style), *checked_words(made, style)):
        lines += _indented("    ", sentence)
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
    fine = f"{round(mm + 1e-9, 2):g} mm"
    return fine if style.is_metric else f"{fine_words(mm, style)} [{fine}]"


def _place(spot: Spot, style: LengthStyle) -> str:
    x, y = (format_length(value, style) for value in spot)
    return f"({x}, {y})"


def _indented(first: str, text: str) -> list[str]:
    indent = " " * (len(first) - len(first.lstrip()))
    return wrapped(text, _WIDTH, initial_indent=first, subsequent_indent=indent + "  ").splitlines()
