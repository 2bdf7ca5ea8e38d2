"""Tries what would make a layout fit the tiles on hand, and says what came of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tilelayout.cli.stopping import tell_progress
from tilelayout.job.canonical import tree_of_value
from tilelayout.job.values import Job
from tilelayout.planning.make_it_fit import Fit, FitStep, make_it_fit
from tilelayout.planning.plan import Plan
from tilelayout.planning.shortage import shortages

_MOST_TOLD = 5


def fit_text(job: Job, plans: Iterable[Plan]) -> list[str]:
    """Return the lines of what makes each layout fit that is short of tiles. Progress goes to stderr."""
    return [line for made in plans if shortages(made) for line in _tried(job, made)]


def fit_tree(job: Job, plans: Iterable[Plan]) -> list[dict[str, Any]]:
    """Return of each layout that is short of tiles what was tried, as keys for another program."""
    return [
        {"layout": made.layout.id, "tried": [_tree(fit) for fit in _all_tried(job, made).tried]}
        for made in plans
        if shortages(made)
    ]


def _tree(fit: Fit) -> dict[str, Any]:
    return {
        "layout": tree_of_value(fit.layout),
        "words": fit.words,
        "tiles_needed": fit.tiles_needed,
        "short": fit.short,
    }


def _all_tried(job: Job, made: Plan) -> FitStep:
    """Return the last step, naming each change on standard error as it is tried."""
    trying, last = "", FitStep(0.0, "")
    for last in make_it_fit(job, made.layout.id):
        if last.trying != trying:
            trying = last.trying
            tell_progress(f"trying {trying} ({last.done:.0%})" if trying else "tried all")
    return last


def _tried(job: Job, made: Plan) -> list[str]:
    step = _all_tried(job, made)
    head = f"Layout {made.layout.id}, made to fit"
    if step.fits:
        return [head, *(f"  fits with {_words(fit)}" for fit in step.fits[:_MOST_TOLD])]
    if step.nearest is None:
        return [head, "  nothing could be tried"]
    return [
        head,
        f"  nothing tried fits; nearest is {_words(step.nearest)}, still {step.nearest.short} short",
    ]


def _words(fit: Fit) -> str:
    x, y = fit.layout.start
    return f"{fit.words}: {fit.tiles_needed} tiles, start at {x:.1f}, {y:.1f} mm"
