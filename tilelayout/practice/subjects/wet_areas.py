"""Whether water is kept out of what is behind the tile: a membrane where it gets wet.

Tile and grout keep no water out. How a wet area must be sealed is a matter of local codes, and a pool one of
licensed trades; the rules here only ask.
"""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.job.kinds import Background, LayerRole, Wetness
from tilelayout.practice.case import Case
from tilelayout.practice.finding import COMMON_PRACTICE, Finding, Level

SPOILED_BY_WATER = frozenset(
    {
        Background.GYPSUM_PLASTER,
        Background.PLASTERBOARD,
        Background.PLYWOOD,
        Background.GYPSUM_FIBRE_BOARD,
    }
)
"""Gypsum softens and wood swells."""


def findings(case: Case) -> Iterator[Finding]:
    """Yield whether a wet surface has a membrane and stands on what water spoils."""
    surface = case.surface
    if surface.wetness not in (Wetness.WET, Wetness.IMMERSED):
        return
    has_membrane = any(layer.role is LayerRole.MEMBRANE for layer in surface.layers)
    is_spoiled = surface.background in SPOILED_BY_WATER
    if not has_membrane:
        level = Level.STOP if is_spoiled else Level.WARN
        behind = str(surface.background or "what is behind").replace("-", " ")
        words = (
            f"{surface.title} gets wet and has no membrane among its layers: tile and grout let water "
            f"through to {behind}. Seal it as the local code says."
        )
        yield Finding("membrane", level, (surface.id,), words, COMMON_PRACTICE)
    if surface.wetness is Wetness.IMMERSED:
        words = f"{surface.title} stands under water: have it designed and built by those licensed for it."
        yield Finding("immersed", Level.WARN, (surface.id,), words, COMMON_PRACTICE)
