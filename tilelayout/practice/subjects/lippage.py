"""How much one tile may stand above its neighbour, and whether its own bow already takes more.

The bow is taken as a parabola of the measured rise w: the end of a tile shifted by a share f meets it at
f of its length, so the step there is 4 f (1 - f) w. Worked out from the geometry; no measured model is known.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.job.kinds import Practice
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Figure, Finding, Grade, Level, Source
from tilelayout.practice.sources import FINISH_AU, FINISH_UK, LIPPAGE_US, STEP_DE

NARROW_JOINT_US = Figure(25.4 / 4, LIPPAGE_US)
NARROW_US, WIDE_US = Figure(25.4 / 32, LIPPAGE_US), Figure(25.4 / 16, LIPPAGE_US)
NARROW_UK, WIDE_UK = Figure(1.0, FINISH_UK), Figure(2.0, FINISH_UK)
NARROW_AU, USUAL_AU, POLISHED_AU = (Figure(step, FINISH_AU) for step in (1.0, 2.0, 1.5))
SMALL_DE, LARGE_DE = Figure(1.5, STEP_DE), Figure(2.0, STEP_DE)

_ROUNDING = 1e-6
_NARROW_JOINT_UK, _NARROW_JOINT_AU, _SMALL_FACE_DE = 6.0, 3.0, 0.25
_BOW = Source("worked out: the edge bowed as a parabola", Grade.COMMON_PRACTICE)


def allowed_step(case: Case, *, is_polished: bool = False) -> Figure:
    """Return the step allowed between neighbours. In the US the measured warpage comes on top."""
    joint = case.layout.joint
    if case.practice is Practice.UK:
        return NARROW_UK if joint <= _NARROW_JOINT_UK else WIDE_UK
    if case.practice is Practice.AU:
        if joint <= _NARROW_JOINT_AU:
            return NARROW_AU
        return POLISHED_AU if is_polished else USUAL_AU
    if case.practice is Practice.DE:
        return SMALL_DE if case.face_m2 <= _SMALL_FACE_DE else LARGE_DE
    base = NARROW_US if joint < NARROW_JOINT_US.value else WIDE_US
    return Figure(base.value + (case.tile.warpage or 0.0), base.source)


def findings(case: Case) -> Iterator[Finding]:
    """Yield the step allowed, and whether the bow of the tile alone makes a larger one."""
    warpage, figure = case.tile.warpage, allowed_step(case)
    share = case.offset
    if share:
        warped = ("the measured warpage of the tile", "tile.warpage", warpage)
        yield from case.missing("warpage-unknown", "the step from row to row", warped)
    step = bow_step(share, warpage or 0.0)
    if step > figure.value + _ROUNDING:
        words = (
            f"{case.where}: an edge that bows by {case.said_finely(warpage or 0.0)}, shifted by "
            f"{100 * share:.0f} %, makes a step of {case.said_finely(step)}; "
            f"{case.said_finely(figure.value)} is allowed. Shift the rows less."
        )
        yield Finding("bow", Level.WARN, case.layout_ids, words, _BOW, step, figure.value)
    words = f"{case.where}: a tile may stand {case.said(figure.value)} above its neighbour{_why(case)}."
    source, limit = figure.source, figure.value
    yield Finding("lippage", Level.ADVISE, case.layout_ids, words, source, None, limit)


def bow_step(share: float, warpage: float) -> float:
    """Return the step that a bow of `warpage` makes beside an end shifted by `share` of the tile."""
    return 4.0 * share * (1.0 - share) * warpage


def _why(case: Case) -> str:
    if case.practice is Practice.AU and case.layout.joint > _NARROW_JOINT_AU:
        return f", or {case.said(POLISHED_AU.value)} if it is ground flat and polished"
    if case.practice is not Practice.US:
        return ""
    return ", its measured warpage included" if case.tile.warpage else ", and by its measured warpage more"
