"""How far each question is answered, and the most serious thing to say about the job.

Both are read from the bench alone, so path, foot and tests agree.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from tilelayout.app.bench import Bench, Stage
from tilelayout.app.rule_findings import findings_in_front
from tilelayout.base.units import format_length
from tilelayout.job.edits.readings import survey_of
from tilelayout.planning.left_out import bare_words
from tilelayout.planning.plan import Plan
from tilelayout.planning.trims import trim_trouble
from tilelayout.practice.finding import Finding as RuleFinding
from tilelayout.practice.finding import Level as RuleLevel


class Answered(StrEnum):
    """How far a question is answered; the words are what a screen reader says."""

    OPEN = "not yet answered"
    HALF = "partly answered"
    FULL = "answered"
    TROUBLE = "needs a look"


class Level(StrEnum):
    """How serious a finding is."""

    STOP = "stop"
    WARN = "warn"
    ADVISE = "advise"
    WELL = "well"


@dataclass(frozen=True)
class Finding:
    """One thing to say: a sentence, how serious it is, the pieces it is about, the rule that found it."""

    level: Level
    words: str
    pieces: tuple[str, ...] = ()
    stage: Stage = Stage.MEASURE
    rule: RuleFinding | None = None


def answered(stage: Stage, bench: Bench) -> Answered:
    """Return how far a question is answered for what is in front."""
    before_laying = _BEFORE_LAYING.get(stage)
    if before_laying is not None:
        return before_laying(bench)
    if bench.plan is None:
        return Answered.TROUBLE if bench.trouble and stage is Stage.SET_OUT else Answered.OPEN
    if stage is Stage.SET_OUT:
        return Answered.TROUBLE if bench.plan.slivers or bench.plan.bare_patches else Answered.FULL
    if stage is Stage.COMPARE:
        return Answered.FULL if len(bench.layouts) > 1 else Answered.OPEN
    return Answered.FULL if bench.is_printed else Answered.HALF


def _tile_answered(bench: Bench) -> Answered:
    if bench.trouble:
        return Answered.TROUBLE
    if bench.layout is not None:
        return Answered.FULL
    return Answered.HALF if bench.job.tiles else Answered.OPEN


def _measure_answered(bench: Bench) -> Answered:
    return Answered.FULL if bench.surface else Answered.OPEN


def _surface_answered(bench: Bench) -> Answered:
    """Readings answer half of it; a way to mend that was chosen, the whole."""
    survey = None if bench.surface is None else survey_of(bench.job, bench.surface.id)
    if survey is None:
        return Answered.OPEN
    return Answered.FULL if survey.preparation is not None else Answered.HALF


_BEFORE_LAYING: dict[Stage, Callable[[Bench], Answered]] = {
    Stage.MEASURE: _measure_answered,
    Stage.TILE: _tile_answered,
    Stage.SURFACE: _surface_answered,
}


def worst_finding(bench: Bench) -> Finding:
    """Return the most serious finding about what is in front; there is always one to say."""
    if bench.surface is None:
        return Finding(
            Level.ADVISE, "Nothing is drawn yet. Draw the room, type its size, or open a sample room."
        )
    if bench.trouble:
        return Finding(Level.STOP, bench.trouble, stage=Stage.TILE)
    if bench.plan is None:
        words = f"No tile is laid on {bench.surface.title} yet. Choose a tile and a pattern."
        return Finding(Level.ADVISE, words, stage=Stage.TILE)
    trouble = trim_trouble(bench.job, bench.surface, bench.plan.layout.joint)
    if trouble:
        return Finding(Level.STOP, trouble, stage=Stage.TILE)
    about_pieces = _about_bare_patches(bench.plan) or _about_slivers(bench.plan)
    order = tuple(Level)
    return min(about_pieces, _about_rules(bench) or about_pieces, key=lambda each: order.index(each.level))


def _about_rules(bench: Bench) -> Finding | None:
    """Return the most serious of what the trade's rules find; advices stand in the list alone."""
    found = [each for each in findings_in_front(bench) if each.level is not RuleLevel.ADVISE]
    if not found:
        return None
    stage = Stage.MEASURE if len(found[0].subject) == 1 else Stage.TILE
    return Finding(Level(found[0].level.value), found[0].sentence, stage=stage, rule=found[0])


def _about_bare_patches(plan: Plan) -> Finding | None:
    words = bare_words(plan)
    return Finding(Level.WARN, f"{words} Move the start to mend it.", stage=Stage.SET_OUT) if words else None


def _about_slivers(plan: Plan) -> Finding:
    slivers = sorted(plan.slivers, key=lambda piece: piece.narrowest)
    if not slivers:
        return Finding(Level.WELL, _all_well(plan), stage=Stage.SET_OUT)
    least = format_length(slivers[0].narrowest, plan.style)
    limit = format_length(plan.sliver_limit, plan.style)
    others = f" and {len(slivers) - 1} more" if len(slivers) > 1 else ""
    verb = "are slivers" if others else "is a sliver"
    words = (
        f"{slivers[0].id}{others} {verb}: {least} at the narrowest, under {limit}. Move the start to mend it."
    )
    return Finding(Level.WARN, words, tuple(piece.id for piece in slivers), Stage.SET_OUT)


def _all_well(plan: Plan) -> str:
    if plan.narrowest is None:
        return "No piece fits. Check the gap and the size of the tile."
    least = format_length(plan.narrowest, plan.style)
    return f"No slivers. The narrowest piece is {least} wide." if plan.cut else "Every tile is whole."
