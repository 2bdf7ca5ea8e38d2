"""Whether the adhesive suits tile, surface and water: its class against size, absorption and wetness."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.base.units import POUND_PER_SQUARE_FOOT
from tilelayout.job.adhesive_class import AdhesiveClass, AdhesiveKind
from tilelayout.job.kinds import Practice, Wetness
from tilelayout.practice.case import Case
from tilelayout.practice.finding import COMMON_PRACTICE, Figure, Finding, Grade, Level, Source
from tilelayout.practice.sources import LARGE_AND_HEAVY_US

_MASTIC = Source("ANSI A136.1, where mastic may be used", Grade.QUOTED, Practice.US)
_MASTIC_SHEET = Source("data sheet of one Type I mastic", Grade.QUOTED)
MASTIC_WALL = Figure(304.8, _MASTIC_SHEET, metric=300.0)
MASTIC_FLOOR = Figure(203.2, _MASTIC_SHEET, metric=200.0)
"""The longest side that dries out under the tile."""

PLAIN_CEMENT = Figure(300.0, Source("advice of a maker of binders on C1", Grade.TRADE_PRESS))
"""The longest side for a plain cement adhesive."""

POROUS = Figure(0.5, COMMON_PRACTICE)
"""A tile that takes up no more water than this (%) gives a plain cement adhesive no hold."""

LARGE = Figure(381.0, LARGE_AND_HEAVY_US)
HEAVY = Figure(5 * POUND_PER_SQUARE_FOOT, LARGE_AND_HEAVY_US)
"""From the one on ("15 in or longer") or above the other a mortar for large and heavy tile is asked for."""


def findings(case: Case) -> Iterator[Finding]:
    """Yield whether the class of the adhesive suits; what is missing to judge it if it is not known."""
    judged = "whether the adhesive suits the tile"
    known = case.adhesive
    grade = ("the class of the adhesive", "surface.adhesive.class", known)
    yield from case.missing("adhesive-unknown", judged, grade)
    if known is None:
        return
    if known.kind is AdhesiveKind.DISPERSION:
        wetness = ("how wet it gets", "surface.wetness", case.surface.wetness)
        yield from case.missing("wetness-unknown", judged, wetness)
        yield from _mastic_and_water(case, known)
        yield from _mastic_and_size(case, known)
    if known.kind is AdhesiveKind.CEMENT:
        yield from _plain_cement(case, known)
        yield from _large_and_heavy(case, known)


def _mastic_and_water(case: Case, known: AdhesiveClass) -> Iterator[Finding]:
    wetness = case.surface.wetness
    if wetness in (Wetness.WET, Wetness.IMMERSED):
        may = known.is_improved and wetness is Wetness.WET
        words = (
            f"{case.where} gets wet, and mastic softens in water: use a cement mortar or a resin adhesive."
            + (" Some makers allow theirs on shower walls: read its sheet." if may else "")
        )
        yield Finding("mastic-wet", Level.WARN if may else Level.STOP, case.ids, words, _MASTIC)


def _mastic_and_size(case: Case, known: AdhesiveClass) -> Iterator[Finding]:
    figure = MASTIC_WALL if case.is_wall else MASTIC_FLOOR
    limit, side = case.limit(figure), case.longest_side
    if case.is_more(side, limit):
        words = (
            f"{case.where} is {case.said(side)} long: mastic dries out only from the joints, on a "
            f"{case.surface.kind} up to {case.said(limit)}. Use a cement mortar."
        )
        yield Finding("mastic-size", Level.WARN, case.ids, words, figure.source, side, limit)
    if not case.is_wall and not known.is_improved:
        words = f"{case.where}: mastic of the lower class is for walls and ceilings, not for floors."
        yield Finding("mastic-floor", case.at_home(Level.WARN, _MASTIC), case.ids, words, _MASTIC)


def _plain_cement(case: Case, known: AdhesiveClass) -> Iterator[Finding]:
    if known.is_improved:
        return
    side, limit = case.longest_side, PLAIN_CEMENT.value
    if case.is_more(side, limit):
        words = (
            f"{case.where} is {case.said(side)} long, over the {case.said(limit)} that a plain cement "
            "adhesive is advised for. Use an improved one (C2, A118.4)."
        )
        yield Finding("plain-adhesive-size", Level.WARN, case.ids, words, PLAIN_CEMENT.source, side, limit)
    yield from _hold(case, case.tile.absorption_percent)


def _hold(case: Case, absorption: float | None) -> Iterator[Finding]:
    soaks = ("the water absorption of the tile", "tile.absorption_percent", absorption)
    yield from case.missing("absorption-unknown", "the hold of a plain adhesive", soaks)
    if absorption is not None and absorption <= POROUS.value:
        words = (
            f"{case.where} takes up {absorption:g} % of water, too little for a plain cement adhesive to "
            "hold on to. Use an improved one (C2, A118.4)."
        )
        limit = POROUS.value
        yield Finding("no-hold", Level.WARN, case.ids, words, POROUS.source, absorption, limit, "%")


def _large_and_heavy(case: Case, known: AdhesiveClass) -> Iterator[Finding]:
    if case.practice is not Practice.US or known.is_for_large_and_heavy:
        return
    side, weight = case.longest_side, case.kg_per_m2
    ask = "Use a mortar whose bag says that it is for large and heavy tile (H)."
    if not case.is_less(side, LARGE.value):
        words = f"{case.where} is {case.said(side)} long, {case.said(LARGE.value)} or longer. {ask}"
        yield Finding("large-tile", Level.WARN, case.ids, words, LARGE.source, side, LARGE.value)
    elif weight is not None and weight > HEAVY.value:
        words = f"{case.where} weighs {case.weighed(weight)}, over {case.weighed(HEAVY.value)}. {ask}"
        yield Finding("heavy-tile", Level.WARN, case.ids, words, HEAVY.source, weight, HEAVY.value, "kg/m2")
