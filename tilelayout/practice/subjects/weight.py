"""Whether a wall carries its tile: weight per area of tile, adhesive and grout against the background.

The limits of backgrounds are British ones; where another country's rules are asked for they are still the
best figures there are, and the sentence says whose they are.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.base.units import POUND_PER_SQUARE_FOOT
from tilelayout.job.kinds import Background, Practice
from tilelayout.practice.case import Case
from tilelayout.practice.finding import COMMON_PRACTICE, Figure, Finding, Grade, Level, Source
from tilelayout.practice.sources import WEIGHT_UK

_FOAM = Source("a guide to wall backgrounds", Grade.TRADE_PRESS, Practice.UK)
CARRIES = {
    Background.GYPSUM_PLASTER: Figure(20.0, WEIGHT_UK),
    Background.PLASTERBOARD: Figure(32.0, WEIGHT_UK),
    Background.PLYWOOD: Figure(30.0, WEIGHT_UK),
    Background.GYPSUM_FIBRE_BOARD: Figure(40.0, WEIGHT_UK),
    Background.CEMENT_BOARD: Figure(50.0, WEIGHT_UK),
    Background.FOAM_BOARD: Figure(60.0, _FOAM),
}
"""What each background carries of tile, adhesive and grout, in kg/m2; plasterboard is bare, not skimmed."""

VENEER_US = Figure(
    20 * POUND_PER_SQUARE_FOOT,
    Source("IBC 2021, 1404.10.3, adhered veneer", Grade.QUOTED, Practice.US),
)
SUGGESTED_US = Figure(
    15 * POUND_PER_SQUARE_FOOT,
    Source("a mortar maker's answer, no code limit", Grade.QUOTED, Practice.US),
)
SOLID_BED = Figure(70.0, Source("BS 5385, as updated", Grade.QUOTED, Practice.UK))
"""From so many % of what the background carries even a small tile wants a solid bed."""

_SMALL_FACE_M2 = 0.1
_THIN_ADHESIVE, _PER_MM_OF_BED, _USUAL_BED = 4.0, 5.0 / 3.0, 3.0
"""Adhesive and grout: 2 to 4 kg/m2, 5 for a solid bed of 3 mm (a maker's and a merchant's article)."""


def findings(case: Case) -> Iterator[Finding]:
    """Yield whether the wall carries the tile; floors are not judged by weight."""
    if not case.is_wall:
        return
    background = case.surface.background
    yield from case.missing(
        "wall-weight-unknown",
        "the weight",
        ("the background of the wall", "surface.background", background),
        ("the weight of the tile", "tile.weight_kg", case.kg_per_m2),
    )
    if case.kg_per_m2 is not None:
        total = case.kg_per_m2 + adhesive_kg_per_m2(case)
        yield from _against_codes(case, total)
        if background in CARRIES:
            yield from _against_background(case, total, CARRIES[background])
        if background is Background.OLD_TILE:
            yield _over_old_tile(case)


def adhesive_kg_per_m2(case: Case) -> float:
    """Return the weight of adhesive and grout in kg/m2, for the thickest bed said, or for 3 mm."""
    adhesive = case.surface.adhesive
    bed = adhesive.bed[1] if adhesive is not None and adhesive.bed is not None else _USUAL_BED
    return max(_THIN_ADHESIVE, bed * _PER_MM_OF_BED)


def _against_background(case: Case, total: float, carries: Figure) -> Iterator[Finding]:
    name = str(case.surface.background).replace("-", " ")
    limit = carries.value
    if total > limit:
        words = (
            f"{case.where} weighs {case.weighed(total)} with its adhesive; {name} is taken to carry "
            f"{case.weighed(limit)}{_elsewhere(case)}. Choose a lighter tile or a stronger background."
        )
        level = Level.STOP if case.practice is Practice.UK else Level.WARN
        yield Finding("wall-weight", level, case.ids, words, carries.source, total, limit, "kg/m2")
    elif case.face_m2 < _SMALL_FACE_M2 and case.kg_per_m2 and case.kg_per_m2 > limit * SOLID_BED.value / 100:
        words = (
            f"{case.where} weighs {case.weighed(case.kg_per_m2)}, over {SOLID_BED.value:g} % of what {name} "
            f"carries: bed every tile solidly, small as it is."
        )
        share = 100 * case.kg_per_m2 / limit
        source, least = SOLID_BED.source, SOLID_BED.value
        yield Finding("solid-bed", Level.ADVISE, case.ids, words, source, share, least, "%")


def _elsewhere(case: Case) -> str:
    if case.practice is Practice.UK:
        return ""
    us = (
        f"; the US code stops at {case.weighed(VENEER_US.value)} only" if case.practice is Practice.US else ""
    )
    return f" (a UK figure{us})"


def _against_codes(case: Case, total: float) -> Iterator[Finding]:
    if case.practice is not Practice.US:
        return
    for figure, level, code in ((VENEER_US, Level.STOP, "veneer"), (SUGGESTED_US, Level.WARN, "heavy-wall")):
        if total > figure.value:
            words = (
                f"{case.where} weighs {case.weighed(total)} with its adhesive, over the "
                f"{case.weighed(figure.value)} of an interior wall. Ask the local building authority."
            )
            yield Finding(code, level, case.ids, words, figure.source, total, figure.value, "kg/m2")
            return


def _over_old_tile(case: Case) -> Finding:
    words = (
        f"{case.where} is laid over old tile: the wall behind carries both, and the weakest layer decides. "
        "Check that the old tile is firm, and add its weight."
    )
    return Finding("tile-on-tile", Level.WARN, case.ids, words, COMMON_PRACTICE)
