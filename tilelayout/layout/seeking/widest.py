"""The start with the widest narrowest cut, exactly, for rows between straight walls.

Only starts that leave no bare place are looked for: a tile of which one arm is too narrow to be a piece is
left out as a whole, which no floor can bear.

Within a cell (a stretch of x by a stretch of y) the same pieces are cut and the same strips are left to the
joint, and every width of a piece is a line in x, a line in y, or constant. So the narrowest place is concave
over a cell. The depths at the walls bound it from above: a tile that meets a wall over more than the least
piece is no strip, hence a piece, and no wider than the depth there. The most hopeful start of all is laid; if
it reaches the bounds of all cells, that is the proof. Where it does not, the cells with a higher bound
are laid in turn: a start that falls short of its bound shows, moved by a hair, which line it hits, and that
line is added to the bound. (Cutting planes: J. E. Kelley, Journal of the Society for Industrial and Applied
Mathematics 8 (1960); here there are finitely many lines, so it ends.)
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from tilelayout.layout.offset_map.many_starts import AT_ONCE
from tilelayout.layout.seeking.rows_in_room import RowsInRoom
from tilelayout.layout.seeking.sawteeth import INSIDE, Stretches, peak
from tilelayout.layout.seeking.trials import Start, Trial, Trials

CLOSE = 3e-5
"""Widths that differ by less are equal: what keeping inside a stretch and rounding a start may do."""

_HAIR = 1e-3
_MOST_LAID = 8000
_EITHER_WAY = np.array([(1, 0), (-1, 0), (0, 1), (0, -1)]) * _HAIR


@dataclass(frozen=True)
class Guess:
    """A start in the directions of the pattern, the width hoped for, and how far it is whole tiles."""

    width: float
    shares: tuple[float, float]
    x: float
    y: float

    @property
    def rank(self) -> tuple[float, ...]:
        """Sorts the most hopeful first."""
        return -round(self.width, 4), -round(min(self.shares), 6), -round(sum(self.shares), 6), self.y, self.x


class Widest:
    """The search. `best` is the best laid so far; `is_proved` claims that no start is better."""

    def __init__(self, trials: Trials, rows: RowsInRoom) -> None:
        self.trials, self.rows = trials, rows
        self.best: Trial | None = None
        self.is_proved = False

    def steps(self) -> Iterator[list[Trial]]:
        """Yield what is laid, until the best is proved to be the best or too much has been laid."""
        guesses = self.guesses()
        yield self._lay([(guesses[0].x, guesses[0].y)], [guesses[0].width])
        if self.rows.is_exact:
            yield from self._proof()

    def guesses(self) -> list[Guess]:
        """Return the most hopeful start for every stretch of y that can hold the best, best first."""
        found: list[Guess] = []
        hoped = -np.inf
        ys, heights = self.rows.level.best
        for j in np.argsort(-np.minimum(heights, self.trials.tile_narrowest), kind="stable"):
            if min(heights[j], self.trials.tile_narrowest) < hoped - CLOSE:
                break
            for m, floor in enumerate(self.rows.floors):
                xs, widths = self.rows.upright(float(floor.middle[j])).best
                k = int(np.argmax(np.round(widths, 6)))
                y = float(ys[j]) + m * self.rows.y.module
                found.append(self.guess(float(xs[k]), float(widths[k]), y, float(heights[j])))
                hoped = max(hoped, found[-1].width)
        return sorted(found, key=lambda guess: guess.rank)

    def guess(self, x: float, width: float, y: float, height: float) -> Guess:
        """Return the guess for a start that leaves these depths along x and y."""
        rows = self.rows
        shares = min(width / rows.x.size, 1.0), min(height / rows.y.size, 1.0)
        return Guess(min(width, height, self.trials.tile_narrowest), shares, x, y)

    @property
    def reached(self) -> float:
        """The widest narrowest cut laid so far."""
        return self.best.narrowest if self.best else -np.inf

    def _lay(self, places: list[Start], bounds: list[float]) -> list[Trial]:
        """Lay starts given in the directions of the rows, with the bounds that hold there.

        What seems wider than its bound hangs together by a thread too thin to measure: it is no piece.
        """
        starts = [self.rows.on_surface(*place) for place in places]
        tried = self.trials.of([(round(x, 6), round(y, 6)) for x, y in starts])
        tried = [
            replace(trial, bare=trial.bare + 1) if trial.narrowest > bound + CLOSE else trial
            for trial, bound in zip(tried, bounds, strict=True)
        ]
        for trial in tried:
            if not trial.bare and trial.narrowest > self.reached + CLOSE / 10:
                self.best = trial
        return tried

    def _proof(self) -> Iterator[list[Trial]]:
        """Lay the cells of the highest bounds, some at once, until no bound is above what is reached."""
        cells = sorted(self._open_cells(), key=lambda cell: (-cell.bound, cell.y, cell.x))
        while cells and self.trials.laid < _MOST_LAID:
            now, cells = cells[:AT_ONCE], cells[AT_ONCE:]
            tried = self._lay([(cell.x, cell.y) for cell in now], [cell.bound for cell in now])
            yield tried
            short = [cell for cell, trial in zip(now, tried, strict=True) if cell.falls_short(trial)]
            beside = [(place, cell.bound) for cell in short for place in cell.around()]
            around = self._lay([place for place, _ in beside], [bound for _, bound in beside])
            yield around
            for at, cell in enumerate(short):
                cell.learn(around[4 * at : 4 * at + 4])
            cells = [cell for cell in (*short, *cells) if cell.bound > self.reached + CLOSE]
            cells.sort(key=lambda cell: (-cell.bound, cell.y, cell.x))
        self.is_proved = not cells

    def _open_cells(self) -> Iterator[_Cell]:
        """Yield the cells in which something better could be, as far as the walls tell."""
        most = self.trials.tile_narrowest
        for floor in self.rows.floors:
            heights = np.minimum(floor.best[1], most)
            for j in np.flatnonzero(heights > self.reached + CLOSE):
                along = self.rows.upright(float(floor.middle[j]))
                for k in np.flatnonzero(along.best[1] > self.reached + CLOSE):
                    yield _Cell(_Side(along, int(k)), _Side(floor, int(j)), most)


class _Side:
    """One stretch: a rising and a falling line, by their heights at its middle, and where they meet."""

    def __init__(self, stretches: Stretches, k: int) -> None:
        self.middle, self.half = float(stretches.middle[k]), float(stretches.half[k])
        self.rising, self.falling = float(stretches.rising[k]), float(stretches.falling[k])
        self._meet()

    def learn(self, reached: float, is_rising: bool, is_falling: bool) -> None:
        """Add the line that a laid start was seen to hit, at the place of the meeting."""
        if is_rising:
            self.rising = min(self.rising, reached + self.middle - self.at)
        if is_falling:
            self.falling = min(self.falling, reached - self.middle + self.at)
        self._meet()

    def room(self, by: float) -> float:
        """Return how far of a way the stretch lets one move from the place of the meeting."""
        reach = max(self.half - INSIDE, 0.0)
        return float(np.clip(self.at + by, self.middle - reach, self.middle + reach))

    def _meet(self) -> None:
        lines = (np.array([height]) for height in (self.rising, self.falling, self.middle, self.half))
        at, height = peak(*lines)
        self.at, self.height = float(at[0]), float(height[0])


class _Cell:
    """A stretch of x by a stretch of y, and the bound on the narrowest place there."""

    def __init__(self, along: _Side, up: _Side, most: float) -> None:
        self.along, self.up, self.most = along, up, most
        self.reached = 0.0

    @property
    def x(self) -> float:
        return self.along.at

    @property
    def y(self) -> float:
        return self.up.at

    @property
    def bound(self) -> float:
        return min(self.along.height, self.up.height, self.most)

    def falls_short(self, trial: Trial) -> bool:
        """Take note of what was laid; tell whether the cell may hold something better than that."""
        self.reached = trial.narrowest
        is_open = not trial.bare and trial.narrowest < self.bound - CLOSE
        self.most = self.most if is_open else -np.inf
        return is_open

    def around(self) -> list[Start]:
        """Return the four places a hair beside the meeting, as far as the cell reaches."""
        return [
            (self.along.room(float(x)) if x else self.x, self.up.room(float(y)) if y else self.y)
            for x, y in _EITHER_WAY
        ]

    def learn(self, around: list[Trial]) -> None:
        """Add the lines that were hit; if none of the places beside is better, nothing in the cell is."""
        right, left, above, below = (
            trial.narrowest > self.reached + _HAIR / 2 and not trial.bare for trial in around
        )
        if not (right or left or above or below):
            self.most = -np.inf
        self.along.learn(self.reached, right, left)
        self.up.learn(self.reached, above, below)
