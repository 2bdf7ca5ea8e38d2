"""What every edit does with the parts of a job: find one by its id, put another in its place, check it.

A tuple with one part replaced holds all the others as the same objects, so that whoever compares by
identity sees at once what did not change.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Protocol, TypeVar

from tilelayout.base.errors import EditError
from tilelayout.job.limits import Problem


class _Named(Protocol):
    @property
    def id(self) -> str: ...


N = TypeVar("N", bound=_Named)
V = TypeVar("V")


def with_id(parts: tuple[N, ...], id: str, kind: str) -> N:
    """Return the part with this id. EditError if there is none; `kind` is what it is called ("tile")."""
    for part in parts:
        if part.id == id:
            return part
    raise EditError(f"There is no {kind} “{id}” in this job.", f"Choose a {kind} that is there.")


def changed(parts: tuple[N, ...], id: str, kind: str, change: Callable[[N], N]) -> tuple[N, ...]:
    """Return the parts with the one of this id changed. EditError if there is none."""
    old = with_id(parts, id, kind)
    new = change(old)
    return tuple(new if part is old else part for part in parts)


def without(parts: tuple[N, ...], id: str, kind: str) -> tuple[N, ...]:
    """Return the parts but for the one of this id. EditError if there is none."""
    old = with_id(parts, id, kind)
    return tuple(part for part in parts if part is not old)


def put(values: tuple[V, ...], index: int, value: V, kind: str) -> tuple[V, ...]:
    """Return the values with `value` at `index`. EditError if there is no such place."""
    return (*values[: existing(values, index, kind)], value, *values[index + 1 :])


def left_out(values: tuple[V, ...], index: int, kind: str) -> tuple[V, ...]:
    """Return the values but for the one at `index`. EditError if there is no such place."""
    return values[: existing(values, index, kind)] + values[index + 1 :]


def existing(values: tuple[object, ...], index: int, kind: str) -> int:
    """Return the index if it is one of the values'. EditError if not; `kind` is what they are called."""
    if not 0 <= index < len(values):
        raise EditError(f"There is no {kind} {index} here.", f"Choose a {kind} that is there.")
    return index


def allowed(value: V, problems: Iterator[Problem]) -> V:
    """Return the value if nothing is wrong with it. EditError with the first problem otherwise."""
    for problem in problems:
        raise EditError(problem.what, problem.mend)
    return value
