"""Judged surveys as the JSON document that other programs read. Lengths in mm, areas mm2, volumes mm3."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import msgspec

from tilelayout.flatness.fill import Fill
from tilelayout.flatness.mistyped import Mistyped
from tilelayout.flatness.values import Chord, Spot, Variation
from tilelayout.flatness.verdicts import Verdict
from tilelayout.planning.surface import Flatness

_DECIMALS = 6
"""A nanometre: far below any measure, and short enough to read."""


def as_json(judged: Iterable[Flatness], with_standards: bool = False) -> str:
    """Return the document, ending in a line feed. With standards each survey has a key "compared" more."""
    surveys = [
        _survey(one) | ({"compared": [_compared(*each) for each in one.compared]} if with_standards else {})
        for one in judged
    ]
    return msgspec.json.encode({"surveys": surveys}).decode() + "\n"


def _survey(one: Flatness) -> dict[str, Any]:
    return {
        "surface": one.surface.id,
        "variation": [_variation(each) for each in one.variations],
        "verdicts": [_verdict(each) for each in one.verdicts],
        "level_fill": _fill(one.level_fill),
        "least_fill": _fill(one.least_fill),
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
