"""Works out the answers about a survey one after the other: verdicts, preparation, other standards."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tilelayout.job.preparation import Preparation
from tilelayout.planning.preparing import Prepared, prepared_steps
from tilelayout.planning.surface import Flatness


@dataclass(frozen=True, eq=False)
class Answer:
    """What is known so far of `one`; the verdicts can be read at once when they are claimed to be known."""

    one: Flatness
    has_verdicts: bool = False
    prepared: Prepared | None = None
    is_prepared: bool = False
    has_others: bool = False


def answering(one: Flatness, asked: Preparation) -> Iterator[Answer]:
    """Yield the answer as it grows. SurveyError if the readings make no surface or cannot be mended so."""
    _ = one.verdicts
    answer = Answer(one, has_verdicts=True)
    yield answer
    for made in prepared_steps(one, asked):
        answer = replace(answer, prepared=made)
        yield answer
    answer = replace(answer, is_prepared=True)
    yield answer
    _ = one.compared
    yield replace(answer, has_others=True)
