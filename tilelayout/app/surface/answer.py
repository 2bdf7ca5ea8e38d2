"""Works out the answers about a survey one after the other: verdicts, preparation, other standards."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tilelayout.job.preparation import Preparation
from tilelayout.planning.preparing import Prepared, prepared_steps
from tilelayout.planning.surface import Flatness


@dataclass(frozen=True, eq=False)
class Answer:
    """What is known so far of `one`; the verdicts can be read at once when they are claimed to be known.

    Until then `laid` is the share of the straightedges that are laid.
    `is_checked` claims the same of the verdicts on the filled surface.
    """

    one: Flatness
    laid: float = 0.0
    has_verdicts: bool = False
    prepared: Prepared | None = None
    is_prepared: bool = False
    is_checked: bool = False
    has_others: bool = False


def answering(one: Flatness, asked: Preparation) -> Iterator[Answer]:
    """Yield the answer as it grows. SurveyError if the readings make no surface or cannot be mended so."""
    yield from (Answer(one, laid=share) for share in one.judging())
    answer = Answer(one, has_verdicts=True)
    yield answer
    for made in prepared_steps(one, asked):
        _ = made.with_grinding
        answer = replace(answer, prepared=made)
        yield answer
    answer = replace(answer, is_prepared=True)
    yield answer
    checked = answer.prepared.checking() if answer.prepared is not None else ()
    yield from (answer for _ in checked)
    answer = replace(answer, is_checked=True)
    yield answer
    yield from (answer for _ in one.comparing())
    yield replace(answer, has_others=True)
