"""In which order the fence is set, so that it is set as seldom as can be.

A cut may often be made at one of two settings, from either side of what is sawn, and a cut of a part must
wait for the cut that frees the part. At each setting every cut is made that can be: that never does harm. So
the state of the work is the set of cuts still to make, and the fewest settings are a shortest way (A*, after
P. Hart, N. Nilsson and B. Raphael) with a bound that counts settings no two cuts can share.
"""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass

MOST_STATES = 3000
"""So many states of the work are looked at; beyond, the most cuts at each setting decide."""

State = frozenset[int]


@dataclass(frozen=True)
class Task:
    """A cut to put in order: the settings at which it can be made, and the number of the cut it waits for.

    `worth` is the area in mm2 of what it leaves to be used; of two orders with as few settings, the one
    comes first that leaves the most at once.
    """

    settings: tuple[float, ...]
    after: int | None = None
    worth: float = 0.0


@dataclass(frozen=True)
class Visit:
    """One setting, and the numbers of the cuts made at it, in an order in which they can be made."""

    setting: float
    tasks: tuple[int, ...]


@dataclass(frozen=True)
class FenceOrder:
    """The settings one after the other, and a number of settings that no order goes below."""

    visits: tuple[Visit, ...]
    at_least: int


def fence_order(tasks: Sequence[Task], most_states: int = MOST_STATES) -> FenceOrder:
    """Return the order with the fewest settings that was found. Every task needs a setting."""
    kinds = _Kinds.of(tasks)
    settings, at_least = _searched(kinds, most_states)
    return FenceOrder(_visits(tasks, settings), at_least)


@dataclass(frozen=True)
class _Kinds:
    """Tasks that are done at the same settings after the same tasks are a kind, always done together."""

    settings: tuple[frozenset[float], ...]
    after: tuple[int | None, ...]
    worth: tuple[float, ...]

    @staticmethod
    def of(tasks: Sequence[Task]) -> _Kinds:
        known: dict[tuple[tuple[float, ...], int | None], int] = {}
        kind_of: list[int] = []
        worth: dict[int, float] = {}
        for task in tasks:
            before = None if task.after is None else kind_of[task.after]
            kind = known.setdefault((tuple(sorted(task.settings)), before), len(known))
            kind_of.append(kind)
            worth[kind] = worth.get(kind, 0.0) + task.worth
        return _Kinds(
            tuple(frozenset(settings) for settings, _ in known),
            tuple(after for _, after in known),
            tuple(worth[kind] for kind in range(len(known))),
        )

    def ready(self, left: State) -> list[int]:
        return [kind for kind in sorted(left) if self.after[kind] not in left]

    def done_at(self, left: State, setting: float) -> State:
        """Return what is left when all is done that can be at one setting."""
        while True:
            done = {kind for kind in self.ready(left) if setting in self.settings[kind]}
            if not done:
                return left
            left -= done

    def at_least(self, left: State) -> int:
        """Return how many settings are needed at the least: one for each of some cuts that share none."""
        used: set[float] = set()
        count = 0
        for kind in sorted(left, key=lambda kind: (len(self.settings[kind]), kind)):
            if used.isdisjoint(self.settings[kind]):
                used |= self.settings[kind]
                count += 1
        return count

    def next_settings(self, left: State) -> list[float]:
        """Return the settings worth trying next, the best first.

        One alone is enough if a cut needs it and no cut that could use it has yet to wait.
        """
        ready = self.ready(left)
        for kind in ready:
            if len(self.settings[kind]) == 1:
                (only,) = self.settings[kind]
                if not any(only in self.settings[other] for other in self.done_at(left, only)):
                    return [only]
        found = {setting for kind in ready for setting in self.settings[kind]}
        return sorted(found, key=lambda setting: self._merit(left, setting))

    def _merit(self, left: State, setting: float) -> tuple[float, int, float]:
        after = self.done_at(left, setting)
        worth = sum(self.worth[kind] for kind in left - after)
        return -worth, len(after), -setting


def _searched(kinds: _Kinds, most_states: int) -> tuple[tuple[float, ...], int]:
    start = frozenset(range(len(kinds.settings)))
    waiting: list[tuple[int, int, int, State, tuple[float, ...]]] = []
    heapq.heappush(waiting, (kinds.at_least(start), len(start), 0, start, ()))
    seen: set[State] = set()
    pushed = 0
    while True:
        bound, _, _, left, settings = heapq.heappop(waiting)
        if not left:
            return settings, bound
        if len(seen) >= most_states:
            return _quickly(kinds, left, settings), bound
        if left in seen:
            continue
        seen.add(left)
        for setting in kinds.next_settings(left):
            after, pushed = kinds.done_at(left, setting), pushed + 1
            total = max(bound, len(settings) + 1 + kinds.at_least(after))
            heapq.heappush(waiting, (total, len(after), pushed, after, (*settings, setting)))


def _quickly(kinds: _Kinds, left: State, settings: tuple[float, ...]) -> tuple[float, ...]:
    """Go on with the setting at which the most cuts can be made."""
    while left:
        best = min(kinds.next_settings(left), key=lambda setting: len(kinds.done_at(left, setting)))
        left, settings = kinds.done_at(left, best), (*settings, best)
    return settings


def _visits(tasks: Sequence[Task], settings: Sequence[float]) -> tuple[Visit, ...]:
    """Deal the tasks out: each at the first setting at which it can be done."""
    left = set(range(len(tasks)))
    visits: list[Visit] = []
    for setting in settings:
        made: list[int] = []
        while ready := [
            n for n in sorted(left) if setting in tasks[n].settings and tasks[n].after not in left
        ]:
            made += ready
            left -= set(ready)
        visits.append(Visit(setting, tuple(made)))
    return tuple(visits)
