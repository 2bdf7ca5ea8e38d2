"""Whether tiles sit, for `flat`: every layout on its surveyed surface, every tile on every surface."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from textwrap import fill as wrapped
from typing import Any

from tilelayout.base.errors import TileLayoutError
from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle
from tilelayout.cli.stopping import tell_progress
from tilelayout.job.values import Job
from tilelayout.planning.sitting import Sitting, sitting
from tilelayout.planning.sitting_words import bed_words, dry_words, sits_words, worries_words
from tilelayout.planning.tiles_on_surfaces import TileOnSurface, tiles_on_surfaces_steps
from tilelayout.planning.worries import Worry

_WIDTH = 100
_DECIMALS = 6
_MOST_TOLD = 12
"""So many tiles to worry about are told one by one; the document has all."""


@dataclass(frozen=True, eq=False)
class Laid:
    """A layout on survey `at`; `sitting` is None where it cannot be said, `trouble` says why if known."""

    at: int
    layout: str
    sitting: Sitting | None
    trouble: str = ""


@dataclass(frozen=True, eq=False)
class Sits:
    """All that `flat` says about tiles sitting."""

    laid: tuple[Laid, ...]
    tried: tuple[TileOnSurface, ...]


def sits_of(job: Job) -> Sits:
    """Return it, telling how far it has come. SurveyError if readings lie outside their surface."""
    laid = tuple(_laid(job))
    tried: tuple[TileOnSurface, ...] = ()
    of = len(job.surveys) * len(job.tiles)
    for tried in tiles_on_surfaces_steps(job):
        tell_progress(f"tried tiles on surfaces ({len(tried)} of {of})")
    return Sits(laid, tried)


def _laid(job: Job) -> Iterator[Laid]:
    for at, survey in enumerate(job.surveys):
        for layout in job.layouts:
            if layout.surface == survey.surface:
                tell_progress(f"laid the tiles of {layout.id} on the readings")
                yield _one_laid(job, layout.id, at)


def _one_laid(job: Job, layout_id: str, at: int) -> Laid:
    try:
        return Laid(at, layout_id, sitting(job, layout_id, at))
    except TileLayoutError as error:
        return Laid(at, layout_id, None, str(error))


# --- text ----------------------------------------------------------------------------------------------


def sits_text(job: Job, sits: Sits) -> str:
    """Return both as text, in two paragraphs; "" if there is nothing to say."""
    parts = ["\n".join(_layouts_text(job, sits)), "\n".join(_table_text(job, sits))]
    return "\n\n".join(part for part in parts if part)


def _layouts_text(job: Job, sits: Sits) -> Iterator[str]:
    for each in sits.laid:
        surface = job.surface(job.surveys[each.at].surface)
        yield f"Will the tiles of {each.layout} sit on {surface.title}?"
        if each.sitting is None:
            yield from _indented(each.trouble or "Only lines are known, so it cannot be said.")
            continue
        found = each.sitting
        for words in (sits_words(found), dry_words(found), bed_words(found), *found.lacks):
            yield from _indented(words)
        told = worries_words(found)
        for words in told[:_MOST_TOLD]:
            yield from _indented(words, 4)
        if len(told) > _MOST_TOLD:
            yield f"    ... and {len(told) - _MOST_TOLD} more: --json has all."
        for source in dict.fromkeys(words for may in found.by_tile.values() for words in may.sources):
            yield from _indented(f"source: {source}", 4)


def _table_text(job: Job, sits: Sits) -> Iterator[str]:
    if sits.tried:
        yield "Any tile on any surveyed surface, in a plain grid:"
    for each in sits.tried:
        much = _how_much(each, job.show_lengths)
        yield from _indented(f"{each.tile.title} on {each.one.title}: {each.fits}{much}. {each.why}".rstrip())


def _how_much(each: TileOnSurface, style: LengthStyle) -> str:
    made = each.made
    if made is None:
        return ""
    pours = f", {made.pours} pours" if made.pours > 1 else ""
    return f", {made.litres:.1f} litres, deepest {format_height(made.fill.deepest, style)}{pours}"


def _indented(words: str, by: int = 2) -> list[str]:
    indent = " " * by
    return wrapped(words, _WIDTH, initial_indent=indent, subsequent_indent=indent + "  ").splitlines()


# --- the document --------------------------------------------------------------------------------------


def sitting_tree(sits: Sits, at: int) -> list[dict[str, Any]]:
    """Return the layouts on survey `at` for the document."""
    return [_laid_tree(each) for each in sits.laid if each.at == at]


def _laid_tree(each: Laid) -> dict[str, Any]:
    found = each.sitting
    if found is None:
        return {"layout": each.layout, "ok": None, "why": each.trouble or "Only lines are known."}
    thin, thick = found.bed
    return {
        "layout": each.layout,
        "ok": found.ok,
        "can_be_set": found.can_be_set,
        "why": " ".join((sits_words(found), *found.lacks)),
        "rock": _figure(found.rock),
        "step": _figure(found.step),
        "bed": [_figure(thin), _figure(thick)],
        "unread": list(found.unread),
        "worries": [_worry_tree(worry, found.plan.style) for worry in found.worries],
        "sources": sorted({words for may in found.by_tile.values() for words in may.sources}),
    }


def _worry_tree(worry: Worry, style: LengthStyle) -> dict[str, Any]:
    step, may = worry.step, worry.allowed
    return {
        "piece": worry.id,
        "is": [str(trouble) for trouble in worry.troubles],
        "rock": _figure(worry.rock),
        "on": [_figure(value) for value in worry.rocks_on],
        "hollow": _figure(worry.hollow),
        "step": None
        if step is None
        else {
            "to": step.to,
            "worst": _figure(step.worst),
            "likely": _figure(step.likely),
            "by_surface": _figure(step.floor),
            "by_bow": _figure(step.bow),
            "at": [_figure(value) for value in step.at],
        },
        "step_allowed": _figure(may.step.in_style(style)),
        "bed": [_figure(value) for value in worry.bed],
        "bed_allowed": [_figure(may.least_bed.in_style(style)), _figure(worry.most_bed)],
    }


def tried_tree(sits: Sits) -> list[dict[str, Any]]:
    """Return every tile on every surveyed surface for the document."""
    return [_tried_tree(each) for each in sits.tried]


def _tried_tree(each: TileOnSurface) -> dict[str, Any]:
    made, grid = each.made, each.grid
    fill = None
    if made is not None:
        fill = {
            "volume": _figure(made.fill.volume),
            "deepest": _figure(made.fill.deepest),
            "pours": made.pours,
        }
    laid = None
    if grid is not None:
        laid = {"pieces": grid.count, "out": grid.out, "rock": _figure(grid.rock), "step": _figure(grid.step)}
    tried = {"surface": each.one.surface.id, "survey": each.at, "tile": each.tile.id, "fits": str(each.fits)}
    return tried | {"why": each.why, "fill": fill, "grid": laid}


def _figure(figure: float) -> float:
    return round(float(figure), _DECIMALS) + 0.0
