"""Reads the class of an adhesive as it stands on the bag or tub.

Two standards name them: EN 12004 (C cement, D dispersion, R reaction resin, then 1 or 2, then letters: F
fast, T slip resistant, E extended open time, S1 and S2 deformable) and the ANSI A118 and A136.1 sheets
(A118.1 plain, A118.4 and A118.15 improved cement mortar, A118.3 epoxy, A136.1 mastic; the letters F, T, E
and H, for large and heavy tile). Both as quoted on makers' data sheets.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum


class AdhesiveKind(StrEnum):
    """What makes it set: cement, drying out, or the reaction of two parts."""

    CEMENT = "cement"
    DISPERSION = "dispersion"
    RESIN = "resin"


@dataclass(frozen=True)
class AdhesiveClass:
    """An adhesive by its kind; `letters` are those after its number, in alphabetical order."""

    kind: AdhesiveKind
    is_improved: bool
    letters: str = ""

    @property
    def is_for_large_and_heavy(self) -> bool:
        """Whether the bag says that it is a mortar for large and heavy tile (the letter H of ANSI)."""
        return "H" in self.letters


_EN = re.compile(r"([CDR])([12])([FTE]*)(?:S[12])?([FTE]*)")
_ANSI = re.compile(r"(?:ANSI)?A?118[.](15|11|1|3|4)([FTEH]*)")
_MASTIC = re.compile(r"(?:ANSI)?A?136[.]1(?:TYPE)?(II|I|2|1)?")
_KINDS = {"C": AdhesiveKind.CEMENT, "D": AdhesiveKind.DISPERSION, "R": AdhesiveKind.RESIN}


def adhesive_class(text: str) -> AdhesiveClass | None:
    """Return what a class says, however it is spaced; None if it cannot be read.

    >>> adhesive_class("C2TE S1")
    AdhesiveClass(kind=<AdhesiveKind.CEMENT: 'cement'>, is_improved=True, letters='ET')
    >>> adhesive_class("ANSI A118.4H").is_for_large_and_heavy
    True
    """
    plain = re.sub(r"[\s_-]", "", text).upper()
    if en := _EN.fullmatch(plain):
        return AdhesiveClass(_KINDS[en[1]], en[2] == "2", _letters(en[3] + en[4]))
    if ansi := _ANSI.fullmatch(plain):
        kind = AdhesiveKind.RESIN if ansi[1] == "3" else AdhesiveKind.CEMENT
        return AdhesiveClass(kind, ansi[1] != "1", _letters(ansi[2]))
    if mastic := _MASTIC.fullmatch(plain):
        return AdhesiveClass(AdhesiveKind.DISPERSION, mastic[1] in ("I", "1"))
    return None


def _letters(text: str) -> str:
    return "".join(sorted(set(text)))
