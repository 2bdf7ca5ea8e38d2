"""Verdicts: the worst of a survey held against the limit for a tile.

A chord that is worse than the limit was found on the surface itself, so it decides against it however thin
the survey is. That none was found says something only if the survey could have shown one: otherwise the
verdict stays open, and says what to measure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tilelayout.base.units import LengthStyle
from tilelayout.flatness.coverage import Lack, lacks
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.flatness.sentences import Sentence
from tilelayout.flatness.standards import FlatnessLimit
from tilelayout.flatness.surveyed import Surveyed
from tilelayout.flatness.values import Variation

_SAME = 1e-6
"""A surface that is out by the limit and the rounding of arithmetic keeps to it."""

_NEAR_LIMIT = 0.98
"""From this share of the limit on the rest that a search may miss could matter."""


@dataclass(frozen=True)
class Verdict:
    """A surface judged for a tile by one limit. `ok` is None where it cannot be judged; `reasons` say why."""

    tile: str
    limit: FlatnessLimit
    variation: Variation
    ok: bool | None
    reasons: tuple[Sentence, ...] = ()

    @property
    def why(self) -> str:
        """The reasons in mm."""
        return self.why_in(LengthStyle.MM)

    def why_in(self, style: LengthStyle) -> str:
        """Return the reasons in the lengths of a job; nothing where there is nothing to say."""
        return " ".join(reason.said(style) for reason in self.reasons)


def verdict(
    surveyed: Surveyed, tile: str, limit: FlatnessLimit, variation: Variation, slips: Sequence[Mistyped] = ()
) -> Verdict:
    """Judge the worst over the limit's length."""
    missing = lacks(surveyed, limit)
    ok = _is_ok(variation, limit.limit, missing)
    reasons = [lack.sentence for lack in missing] if ok is None else []
    reasons += [] if ok is not True else _not_proved(variation, limit.limit)
    reasons += [_slip_sentence(slip) for slip in slips]
    return Verdict(tile, limit, variation, ok, tuple(reasons))


def _is_ok(variation: Variation, limit: float, missing: Sequence[Lack]) -> bool | None:
    if any(lack.spoils_failure for lack in missing):
        return None
    if variation.worst > limit + _SAME:
        return False
    return None if missing else True


def _not_proved(variation: Variation, limit: float) -> list[Sentence]:
    """Say so where the worst is near the limit and was found by searching between corners."""
    if variation.at_most <= limit + _SAME or variation.worst < _NEAR_LIMIT * limit:
        return []
    return [Sentence("So near the limit, a straightedge of full length may show a little more somewhere.")]


def _slip_sentence(slip: Mistyped) -> Sentence:
    meant = "" if slip.fits is None else " {fits} would fit."
    words = (
        "Reading {height} at ({x}, {y}) looks mistyped among {low} to {high}, and is counted here." + meant
    )
    heights = {"height": slip.height, "low": slip.low, "high": slip.high, "fits": slip.fits or 0.0}
    return Sentence(words, {"x": slip.x, "y": slip.y}, heights)
