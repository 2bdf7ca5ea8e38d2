"""How the tile is bedded: how much of its back must hold adhesive, which notch, how thick the bed may be."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.job.adhesive_class import AdhesiveKind
from tilelayout.job.ground import Adhesive
from tilelayout.job.kinds import Exposure, Wetness
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Figure, Finding, Grade, Level, Source
from tilelayout.practice.sources import BED_US, COVERAGE_US, LARGE_AND_HEAVY_US

COVERAGE_DRY = Figure(80.0, COVERAGE_US)
COVERAGE_WET = Figure(95.0, COVERAGE_US)
"""How much of the back of a tile holds adhesive at the least, in %."""

THINNEST_BED = Figure(25.4 * 3 / 32, BED_US, metric=2.0)
THICKEST_THIN_BED = Figure(6.35, Source("usual limit of a thin bed", Grade.TRADE_PRESS), metric=6.0)
THICKEST_BED = Figure(12.7, LARGE_AND_HEAVY_US, metric=13.0)
"""Of the bed once the tile is pressed in; the last for a mortar for large and heavy tile."""

GIVEN_BED = Source("the bed that the job gives for this surface", Grade.COMMON_PRACTICE)
_GUIDE = Source("guides to trowels, no standard", Grade.HOW_TO)
_COMBED = Source("worked out: half of a square notch, held at 45 degrees", Grade.COMMON_PRACTICE)
NOTCHES = ((203.2, 6.35, 200.0, 6.0), (380.9, 9.525, 380.9, 10.0), (float("inf"), 12.7, float("inf"), 12.0))
"""Up to a longest side, the depth of the square notch that guides name; then both in round mm."""

_SMALL_TILE = 203.2
_AT_45_DEGREES = 0.5**0.5
LARGE = 381.0


def findings(case: Case) -> Iterator[Finding]:
    """Yield the coverage to reach, the notch that suits, and whether the bed is too thin or too thick."""
    yield from _coverage(case)
    adhesive = case.surface.adhesive or Adhesive()
    yield from _notch(case, adhesive.notch)
    if adhesive.notch is not None:
        yield from _combed(case, adhesive.notch)
    if adhesive.bed is not None:
        yield from _bed(case, *adhesive.bed)


def bed_range(case: Case) -> tuple[Figure, Figure]:
    """Return how thin and how thick the bed may be once the tile is pressed in.

    What the job gives for the surface comes first, else what holds and what the adhesive's class takes.
    """
    adhesive = case.surface.adhesive
    if adhesive is not None and adhesive.bed is not None:
        thinnest, thickest = adhesive.bed
        return Figure(thinnest, GIVEN_BED), Figure(thickest, GIVEN_BED)
    return THINNEST_BED, _thickest(case)


def _thickest(case: Case) -> Figure:
    known = case.adhesive
    return THICKEST_BED if known is not None and known.is_for_large_and_heavy else THICKEST_THIN_BED


def coverage(case: Case) -> Figure | None:
    """Return how much of the back must hold adhesive; None if it is not known how wet the surface gets."""
    if case.surface.exposure is Exposure.OUTSIDE:
        return COVERAGE_WET
    if case.surface.wetness is None:
        return None
    return COVERAGE_DRY if case.surface.wetness is Wetness.DRY else COVERAGE_WET


def _coverage(case: Case) -> Iterator[Finding]:
    figure = coverage(case)
    wetness = ("how wet the surface gets", "surface.wetness", figure)
    yield from case.missing("wetness-unknown", "how much of its back must hold adhesive", wetness)
    if figure is not None:
        words = (
            f"{case.where}: adhesive must reach {figure.value:g} % of every back and all its corners. Lift "
            "one of the first three tiles to see; if it falls short, take a larger notch or butter the back."
        )
        limit = figure.value
        yield Finding("coverage", Level.ADVISE, case.ids, words, figure.source, None, limit, "%")


def suggested_notch(longest_side: float, is_metric: bool) -> float:
    """Return the depth of the square notch that guides name for a tile of this longest side."""
    for inch_side, inch_notch, side, notch in NOTCHES:
        if longest_side <= (side if is_metric else inch_side):
            return notch if is_metric else inch_notch
    raise AssertionError("the last row takes any side")


def _notch(case: Case, notch: float | None) -> Iterator[Finding]:
    side = case.longest_side
    suggested = suggested_notch(side, case.style.is_metric)
    butter = " and adhesive on the back as well" if not case.is_less(side, LARGE) else ""
    if notch is None or case.is_less(notch, suggested):
        have = "" if notch is None else f" The {case.said(notch)} here is less."
        words = (
            f"{case.where}: guides name a square notch of {case.said(suggested)}{butter} for sides of "
            f"{case.said(side)}.{have} What counts is the coverage."
        )
        yield Finding("notch", Level.ADVISE, case.ids, words, _GUIDE, notch, suggested)


def _combed(case: Case, notch: float) -> Iterator[Finding]:
    bed, least = notch / 2 * _AT_45_DEGREES, THINNEST_BED.value
    if case.longest_side > _SMALL_TILE and bed < least:
        words = (
            f"{case.where}: a notch of {case.said(notch)}, held at 45 degrees, leaves a bed of about "
            f"{case.said_finely(bed)}, under {case.said_finely(least)}. Take a larger notch."
        )
        yield Finding("combed-bed", Level.WARN, case.ids, words, _COMBED, bed, least)


def _bed(case: Case, thinnest: float, thickest: float) -> Iterator[Finding]:
    least = case.limit(THINNEST_BED)
    if case.is_less(thinnest, least):
        words = f"{case.where}: a bed of {case.said(thinnest)} is under the {case.said(least)} that holds."
        level = case.at_home(Level.WARN, THINNEST_BED.source)
        yield Finding("thin-bed", level, case.ids, words, THINNEST_BED.source, thinnest, least)
    known = case.adhesive
    if known is None or known.kind is not AdhesiveKind.CEMENT:
        return
    figure = _thickest(case)
    most = case.limit(figure)
    if case.is_more(thickest, most):
        words = (
            f"{case.where}: a bed of {case.said(thickest)} is over {case.said(most)}. Mortar is no leveller: "
            "fill the floor first, or use an adhesive whose sheet allows such a bed."
        )
        yield Finding("thick-bed", Level.WARN, case.ids, words, figure.source, thickest, most)
