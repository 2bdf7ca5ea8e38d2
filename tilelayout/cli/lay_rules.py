"""What to buy, which trims to saw and what the trade's rules find, as text and for other programs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import Any

from tilelayout.base.units import LengthStyle
from tilelayout.job.values import Job, SurfaceKind
from tilelayout.materials.meetings import has_heights
from tilelayout.offcuts.sharing import Sharing
from tilelayout.planning.heights import heights
from tilelayout.planning.plan import Plan
from tilelayout.planning.shortage import Shortage, shortages
from tilelayout.planning.to_buy import BuyingLine, buying_lines, to_buy
from tilelayout.planning.trims import trims_of
from tilelayout.practice.finding import Finding, Level

_DECIMALS = 6


def buying_text(job: Job, made: Plan) -> list[str]:
    """Return the lines of what to buy of each tile, then the trims and the heights that the job asks for."""
    several = len(made.tiles) > 1
    lines = stock_text(made)
    for tile, bought in to_buy(job, made):
        lines += ["", f"  Tiles to buy{f' of {tile.title}' if several else ''}"]
        lines += buying_rows(buying_lines(bought))
    lines += [f"  {trim.words(made.style)}" for trim in trims_of(job, made.layout.id)]
    if made.surface.kind is SurfaceKind.FLOOR:
        found = heights(job, made.layout.id)
        if has_heights(made.surface) or made.surface.layers:
            lines.append(f"  Layers: {found.stack_words}")
        lines += [f"  {words}" for words in found.meeting_words]
    return lines


def stock_text(made: Plan) -> list[str]:
    """Return the lines of what is on hand: offcuts that are sawn again, and the tiles that are missing."""
    return stock_lines(made.sharing, shortages(made), made.style)


def stock_lines(sharing: Sharing, short: Iterable[Shortage], style: LengthStyle) -> list[str]:
    """Return the lines of what is used of the offcuts on hand, and what is missing."""
    used = sharing.offcuts_used
    offcuts = [f"  {used} offcut{'s'[: used != 1]} on hand sawn again"] if used else []
    return offcuts + [f"  {each.words(style)}" for each in short]


def buying_rows(lines: Iterable[BuyingLine]) -> list[str]:
    """Return what to buy of a tile, a line each."""
    return [f"    {line.name:<14}{line.count:>5}  {line.why}".rstrip() for line in lines]


def findings_text(found: tuple[Finding, ...], *, wants_all: bool) -> list[str]:
    """Return stops and warnings; with `wants_all` advices too, and the source of each."""
    shown = [each for each in found if wants_all or each.level is not Level.ADVISE]
    lines = ["What the trade's rules find"]
    for each in shown:
        lines.append(f"  {each.level:<6}  {each.sentence}")
        lines += [f"          [{each.code}] {each.source.words}"] if wants_all else []
    left = Counter(each.level for each in found)[Level.ADVISE] - sum(
        each.level is Level.ADVISE for each in shown
    )
    if left:
        lines.append(
            f"  {left} more advice{'s'[: left != 1]} and cautions: --findings shows all, with sources."
        )
    return lines if len(lines) > 1 else []


def findings_tree(found: Iterable[Finding]) -> list[dict[str, Any]]:
    """Return findings for another program: lengths in mm, weights in kg/m2, shares in %, as `unit` says."""
    return [
        {
            "code": each.code,
            "level": str(each.level),
            "subject": list(each.subject),
            "measured": _figure(each.measured),
            "limit": _figure(each.limit),
            "unit": each.unit,
            "sentence": each.sentence,
            "source": each.source.where,
            "grade": str(each.source.grade),
        }
        for each in found
    ]


def _figure(figure: float | None) -> float | None:
    return None if figure is None else round(figure, _DECIMALS) + 0.0
