"""What a start gives, in words: where it is, the narrowest cut, slivers, and the border cut at each wall."""

from __future__ import annotations

from dataclasses import dataclass

from tilelayout.app.cards.set_out import border_words
from tilelayout.base.units import format_length
from tilelayout.planning.offset_map import worst_border
from tilelayout.planning.plan import Plan
from tilelayout.planning.wall_names import wall_name


@dataclass(frozen=True)
class StartWords:
    """The words for one start: `place`, `verdict`, and a line for each border."""

    place: str
    verdict: str
    borders: tuple[str, ...]

    @property
    def in_one(self) -> str:
        """All of it as one text to be read out."""
        return " ".join((f"{self.place}.", self.verdict, "; ".join(self.borders))).strip()


def start_words(plan: Plan) -> StartWords:
    """Return the words for the plan's start."""
    x, y = (format_length(length, plan.style) for length in plan.layout.start)
    return StartWords(
        f"{x} from left, {y} from bottom",
        f"{_narrowest(plan)} {_slivers(len(plan.slivers))} {_cuts(plan.cut)}",
        tuple(border_words(cut, plan) for cut in plan.borders),
    )


def _narrowest(plan: Plan) -> str:
    if not plan.cut or plan.narrowest is None:
        return "Nothing is cut."
    border = worst_border(plan)
    where = f", at the {wall_name(plan.surface, border)}" if border is not None else ""
    return f"Narrowest {format_length(plan.narrowest, plan.style)}{where}."


def _slivers(count: int) -> str:
    return "No slivers." if not count else f"{count} sliver{'s'[: count != 1]}."


def _cuts(count: int) -> str:
    return f"{count} cut piece{'s'[: count != 1]}."
