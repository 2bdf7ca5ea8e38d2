"""Judged surveys as the JSON document that other programs read. Lengths in mm, areas mm2, volumes mm3."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

import msgspec

from tilelayout.cli.flat_sits import Sits, sitting_tree, tried_tree
from tilelayout.flatness.f_numbers import SOURCE
from tilelayout.flatness.fill import Fill
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.flatness.plumb import LIMIT, OVER, Lean
from tilelayout.flatness.values import Chord, Spot, Variation
from tilelayout.flatness.verdicts import Verdict
from tilelayout.planning.preparing import Prepared
from tilelayout.planning.surface import Flatness

_DECIMALS = 6
"""A nanometre: far below any measure, and short enough to read."""


def as_json(
    judged: Iterable[Flatness],
    with_standards: bool = False,
    sits: Sits | None = None,
    made: Sequence[Prepared | None] = (),
) -> str:
    """Return the document, ending in a line feed; `made` is each survey prepared, in their order.

    With standards each survey has a key "compared" more, with `sits` one "sitting" and the document one
    "tiles_on_surfaces".
    """
    surveys = [_survey_tree(one, at, with_standards, sits) for at, one in enumerate(judged)]
    for survey, each in zip(surveys, made, strict=False):
        survey["preparation"] = None if each is None else _prepared(each)
    more = {} if sits is None else {"tiles_on_surfaces": tried_tree(sits)}
    return msgspec.json.encode({"surveys": surveys} | more).decode() + "\n"


def _survey_tree(one: Flatness, at: int, with_standards: bool, sits: Sits | None) -> dict[str, Any]:
    compared = {"compared": [_compared(*each) for each in one.compared]} if with_standards else {}
    laid = {} if sits is None else {"sitting": sitting_tree(sits, at)}
    return _survey(one) | compared | laid


def _survey(one: Flatness) -> dict[str, Any]:
    return {
        "surface": one.surface.id,
        "variation": [_variation(each) for each in one.variations],
        "verdicts": [_verdict(each) for each in one.verdicts],
        "level_fill": _fill(one.level_fill),
        "least_fill": _fill(one.least_fill),
        "f_numbers": _f_numbers(one),
        "lean": _lean(one.lean),
        "looks_mistyped": [_slip(slip) for slip in one.slips],
    }


def _variation(each: Variation) -> dict[str, Any]:
    return {
        "over": _figure(each.over),
        "gap": _figure(each.gap),
        "rise": _figure(each.rise),
        **_chord(each.chord),
        "gap_at_most": _figure(each.gap_at_most),
        "rise_at_most": _figure(each.rise_at_most),
        "gap_place": _chord(each.gap_chord),
        "rise_place": _chord(each.rise_chord),
    }


def _chord(chord: Chord | None) -> dict[str, Any]:
    if chord is None:
        return {"from": None, "to": None, "at": None}
    return {"from": _spot(chord.start), "to": _spot(chord.end), "at": _spot(chord.at)}


def _verdict(each: Verdict) -> dict[str, Any]:
    found = {
        "tile": each.tile,
        "over": _figure(each.limit.over),
        "limit": _figure(each.limit.limit),
        "worst": _figure(each.variation.worst),
        "by": each.variation.by,
        "ok": each.ok,
        "source": each.limit.source.words,
    }
    return found | ({"why": each.why} if each.why else {})


def _compared(name: str, each: Verdict) -> dict[str, Any]:
    return {"standard": name, "form": each.limit.form} | _verdict(each)


def _fill(fill: Fill | None) -> dict[str, Any] | None:
    """Over the part of the surface that the readings reach; "area_beyond" is what they do not."""
    if fill is None:
        return None
    return {
        "volume": _figure(fill.volume),
        "deepest": _figure(fill.deepest),
        "deepest_at": _spot(fill.deepest_at),
        "area": _figure(fill.ground.area),
        "area_beyond": _figure(fill.ground.area_beyond),
    }


def _prepared(made: Prepared) -> dict[str, Any]:
    """The way that was asked for. `cost` is in the job's currency, null where nobody gave prices."""
    fill, asked = made.fill, made.asked
    return {
        "way": asked.way.value,
        "is_needed": made.is_needed,
        **(_fill(fill) or {}),
        "thinnest": _figure(fill.thinnest),
        "volume_removed": _figure(fill.volume_removed),
        "most_removed": _figure(fill.most_removed),
        "most_removed_at": _spot(fill.most_removed_at),
        "grinds_too_deep": made.grinds_too_deep,
        "bag_volume": _figure(made.bag_litres * 1e6),
        "bags": made.bags,
        "pours": made.pours,
        "primed_area": _figure(made.primed_area),
        "dams": list(made.dams),
        "cost": None if made.cost is None else _figure(made.cost),
        "missed": [
            {"name": each.given.name, "at": _spot(each.given.at), "above": _figure(each.above)}
            for each in made.missed
        ],
        "verdicts_after": [_verdict(each) for each in made.verdicts],
    }


def _lean(found: Lean | None) -> dict[str, Any] | None:
    """A wall's lean: `out` at the top over `over` mm of height; null for a floor, or if nothing tells it."""
    if found is None:
        return None
    return {
        "out": _figure(found.out),
        "over": _figure(found.over),
        "x": None if found.x is None else _figure(found.x),
        "limit": _figure(LIMIT),
        "limit_over": _figure(OVER),
        "ok": found.ok,
    }


def _f_numbers(one: Flatness) -> dict[str, Any] | None:
    """Null where no line of readings stands at every 12 in (300 mm), and on walls."""
    found = one.f_numbers
    if found is None:
        return None
    numbers = {"flatness": found.flatness, "levelness": found.levelness}
    shown = {
        name: None if each is None or not math.isfinite(each) else _figure(each)
        for name, each in numbers.items()
    }
    return shown | {"lines": found.lines, "source": SOURCE}


def _slip(slip: Mistyped) -> dict[str, Any]:
    return {
        "point": slip.index,
        "reading": [_figure(slip.x), _figure(slip.y), _figure(slip.height)],
        "among": [_figure(slip.low), _figure(slip.high)],
        "would_fit": None if slip.fits is None else _figure(slip.fits),
    }


def _spot(spot: Spot) -> list[float]:
    return [_figure(value) for value in spot]


def _figure(figure: float) -> float:
    return round(float(figure), _DECIMALS) + 0.0
