"""Where the work can hurt: the usual cautions of the trade, and those that an old covering calls for.

They come before any plan, and give way to local codes, the makers' instructions and licensed trades.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilelayout.job.kinds import Background, Practice
from tilelayout.practice.case import Case
from tilelayout.practice.finding import Finding, Grade, Level, Source


@dataclass(frozen=True)
class Caution:
    """What to mind, in few words: a title for a sheet, a code for a list."""

    code: str
    title: str
    words: str
    source: Source


_SILICA = Source("29 CFR 1926.1153, Table 1, wet saws", Grade.QUOTED, Practice.US)
_POWER = Source("how-to articles on tile saws", Grade.HOW_TO)
_CEMENT = Source("mortar makers' data sheets", Grade.QUOTED)

USUAL = (
    Caution(
        "caution-dust",
        "Dust",
        "Tile dust holds silica, which scars the lungs. Saw wet; do not sweep or blow it dry.",
        _SILICA,
    ),
    Caution(
        "caution-power",
        "Power",
        "Water and mains meet here: use a ground-fault protected outlet. Unplug to change the blade.",
        _POWER,
    ),
    Caution(
        "caution-eyes",
        "Eyes, ears, hands",
        "Wear eye and ear protection, keep the guard on. Nip or score what is too small to hold.",
        _POWER,
    ),
    Caution(
        "caution-cement",
        "Cement",
        "Wet mortar and grout burn the skin: wear gloves and wash splashes off at once.",
        _CEMENT,
    ),
)
"""What every job calls for."""

ASBESTOS = Caution(
    "caution-asbestos",
    "Old flooring",
    "Resilient flooring and black adhesive from before 1980 may hold asbestos: have a laboratory test them "
    "first. Never sand, score or grind them; leave their removal to those licensed for it.",
    Source("underlayment makers' data sheets", Grade.QUOTED),
)
LEAD = Caution(
    "caution-lead",
    "Old tile",
    "Old glaze may hold lead, and breaking the tile sets its dust free: test it; work wet and closed off.",
    Source("EPA on lead-safe work with tile", Grade.QUOTED, Practice.US),
)
LIFTING = Caution(
    "caution-lifting",
    "Lifting",
    "Bags of mortar and boxes of tile can weigh 25 kg (55 lb) or more: lift them by two, or by halves.",
    Source("bag labels", Grade.FROM_MEMORY),
)
_OF_BACKGROUND = {Background.OLD_RESILIENT: ASBESTOS, Background.OLD_TILE: LEAD}


def findings(case: Case) -> Iterator[Finding]:
    """Yield the cautions that hold for every job, and a warning where an old covering stays."""
    for caution in (*USUAL, LIFTING):
        yield Finding(caution.code, Level.ADVISE, (), caution.words, caution.source)
    found = None if case.surface.background is None else _OF_BACKGROUND.get(case.surface.background)
    if found is not None:
        words = f"{case.surface.title}: {found.words} Local rules come first."
        yield Finding(found.code, Level.WARN, (case.surface.id,), words, found.source)
    elif case.surface.background is None:
        words = f"If an old floor or wall covering is under {case.surface.title}: {ASBESTOS.words}"
        yield Finding("caution-old-covering", Level.ADVISE, (case.surface.id,), words, ASBESTOS.source)
