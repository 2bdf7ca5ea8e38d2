"""What a rule says: how serious it is, what it is about, what was measured, the limit, and whose limit.

A rule without a published source says so. The grade tells how far a source is to be trusted; the standards
themselves are sold and were not read whole, so that even the best of them is a quotation.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tilelayout.base.units import LengthStyle
from tilelayout.job.kinds import Practice


class Level(StrEnum):
    """How serious a finding is: do not go on; this will show or fail; worth knowing."""

    STOP = "stop"
    WARN = "warn"
    ADVISE = "advise"


class Grade(StrEnum):
    """How a figure came to be known."""

    QUOTED = "A"
    TRADE_PRESS = "B"
    HOW_TO = "C"
    FROM_MEMORY = "M"
    COMMON_PRACTICE = "CP"


_GRADE_WORDS = {
    Grade.QUOTED: "as trade bodies, makers or officials quote it",
    Grade.TRADE_PRESS: "as the trade press has it",
    Grade.HOW_TO: "a single how-to article or guide",
    Grade.FROM_MEMORY: "from memory, not looked up",
}


@dataclass(frozen=True)
class Source:
    """Where a figure stands: document, edition and clause; its grade; the country whose rule it is."""

    where: str
    grade: Grade
    country: Practice | None = None

    @property
    def words(self) -> str:
        """The source for a person to read, with how far it is to be trusted."""
        grade = _GRADE_WORDS.get(self.grade)
        return f"{self.where} ({grade})" if grade else self.where


COMMON_PRACTICE = Source("common practice, no source", Grade.COMMON_PRACTICE)
NOTHING_TO_CITE = Source("not known, so not judged", Grade.COMMON_PRACTICE)


@dataclass(frozen=True)
class Figure:
    """A limit with its source. Where that prints mm beside inches, `metric` is its own rounded figure."""

    value: float
    source: Source
    metric: float | None = None

    def in_style(self, style: LengthStyle) -> float:
        """Return the length in mm that a person who works in this style is held to."""
        return self.metric if style.is_metric and self.metric is not None else self.value


@dataclass(frozen=True)
class Finding:
    """One thing that a rule says. `subject` are ids of the job: surface, tile, layout.

    `measured` and `limit` are in `unit` ("mm", "kg/m2", "%"), or not there if nothing is measured. `place` is
    the one place of the surface that it is about, "edge 2" or "cutout 0", counted from nought; "" if it is
    about all of it. `asks` are the keys of the job that nobody has said yet, such as "surface.background".
    """

    code: str
    level: Level
    subject: tuple[str, ...]
    sentence: str
    source: Source
    measured: float | None = None
    limit: float | None = None
    unit: str = "mm"
    place: str = ""
    asks: tuple[str, ...] = ()
