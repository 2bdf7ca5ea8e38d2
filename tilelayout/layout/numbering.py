"""The ids of pieces: letters for the course, counted from the lowest, and the place along it ("C4").

Whole and cut pieces are counted alike. The place of a cut piece is one more than the cut pieces before it
and the whole ones before it, and the latter follow from where the runs of whole tiles begin and end; so
the few cut pieces of a large floor are numbered without listing the many whole ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from tilelayout.layout.kernel.arrays import Whole, spread
from tilelayout.layout.kernel.overlap import Parts
from tilelayout.layout.kernel.placed import Placed
from tilelayout.layout.kernel.runs import Runs
from tilelayout.layout.values import Cell, Points

_NEVER = np.iinfo(np.int64).min // 4
"""The last column that stands before a tile, for faces of another course."""


def letters(course: int) -> str:
    """Return the letters of a course, counted from 0.

    >>> [letters(course) for course in (0, 25, 26, 701, 702)]
    ['A', 'Z', 'AA', 'ZZ', 'AAA']
    """
    text = ""
    course += 1
    while course:
        course, letter = divmod(course - 1, 26)
        text = chr(ord("A") + letter) + text
    return text


def course_of(text: str) -> int:
    """Return the course with these letters, counted from 0; the inverse of `letters`.

    >>> [course_of(text) for text in ("A", "Z", "AA", "ZZ", "AAA")]
    [0, 25, 26, 701, 702]
    """
    course = 0
    for letter in text:
        course = course * 26 + ord(letter) - ord("A") + 1
    return course - 1


@dataclass(frozen=True, eq=False)
class Courses:
    """The courses of a laid pattern: which tiles and parts each holds, and in what order."""

    cell: Cell
    placed: Placed
    runs: Runs
    parts: Parts

    @cached_property
    def course_of_face(self) -> Whole:
        """Which course of its cell each face lies in."""
        return np.array([face.course for face in self.cell.faces])

    def number(self, face: Whole, row: Whole) -> Whole:
        """Return the number of the course that tiles lie in; it grows upwards, from anywhere."""
        return np.asarray(row * self.cell.courses + self.course_of_face[face])

    @cached_property
    def run_courses(self) -> Whole:
        """The course of each run of whole tiles."""
        return self.number(self.runs.face, self.runs.row)

    @cached_property
    def part_courses(self) -> Whole:
        """The course of each part."""
        return self.number(self.parts.face, self.parts.row)

    @cached_property
    def lowest(self) -> int:
        """The number of the course lettered A."""
        courses = np.concatenate((self.run_courses, self.part_courses))
        return int(courses.min(initial=np.iinfo(np.int64).max))

    @cached_property
    def highest(self) -> int:
        """The number of the last course; below `lowest` if there is no piece at all."""
        courses = np.concatenate((self.run_courses, self.part_courses, [self.lowest - 1]))
        return int(courses.max())

    @cached_property
    def along(self) -> Points:
        """How far along its course each face's middle lies, in steps of the first vector."""
        return self.placed.centres[:, 0].round(9)

    @cached_property
    def part_order(self) -> Whole:
        """The parts' numbers in the order of their ids."""
        parts, outlines = self.parts, self.parts.outlines
        middle = np.add.reduceat(outlines.points, outlines.starts[:-1]) if len(parts) else outlines.points
        u, v = self.placed.in_lattice(middle / outlines.sizes[:, None]).T
        along = parts.column + self.along[parts.face]
        return np.lexsort((v, u, parts.face, along, self.part_courses))

    def part_ids(self) -> list[str]:
        """Return the ids of the parts, in the order of `part_order`."""
        courses = self.part_courses[self.part_order]
        begins = np.searchsorted(courses, courses, side="left")
        place = np.arange(len(courses)) - begins + self._whole_before()[self.part_order] + 1
        names = {int(c): letters(int(c) - self.lowest) for c in np.unique(courses)}
        return [f"{names[course]}{at}" for course, at in zip(courses.tolist(), place.tolist(), strict=True)]

    def _whole_before(self) -> Whole:
        """Count, for each part, the whole tiles before it in its course."""
        face, row, column = self.parts.face, self.parts.row, self.parts.column
        before = np.zeros(len(face), dtype=np.int64)
        for other, last in enumerate(self._last_before().T):
            chosen = self.runs.face == other
            before += _tiles_up_to(self.runs.only(chosen), row, column + last[face])
        return before

    def _last_before(self) -> Whole:
        """Return (f, g): the last column of face g that stands before face f of column 0."""
        ahead = (self.along[:, None] - self.along).round(9)
        last = np.ceil(ahead).astype(np.int64) - 1
        first_named = np.arange(len(ahead))[:, None] > np.arange(len(ahead))
        last += (ahead == np.ceil(ahead)) & first_named
        return np.where(self.course_of_face[:, None] == self.course_of_face, last, _NEVER)

    def tiles(self, course: int) -> tuple[Whole, Whole, Whole, Whole]:
        """Return face, column, row and part (-1 for a whole tile) of a course's pieces in order."""
        runs = np.flatnonzero(self.run_courses == course)
        owner, step = spread(self.runs.lengths[runs])
        owner = runs[owner]
        part = self.part_order[self.part_courses[self.part_order] == course]
        face = np.concatenate((self.runs.face[owner], self.parts.face[part]))
        column = np.concatenate((self.runs.first[owner] + step, self.parts.column[part]))
        row = np.concatenate((self.runs.row[owner], self.parts.row[part]))
        part = np.concatenate((np.full(len(owner), -1), part))
        order = np.lexsort((face, column + self.along[face]))
        return face[order], column[order], row[order], part[order]


def _tiles_up_to(runs: Runs, row: Whole, column: Whole) -> Whole:
    """Count, for each place, the tiles of the runs (of one face, in order) in its row up to its column."""
    if not len(runs.row):
        return np.zeros(len(row), dtype=np.int64)
    left, right = runs.first.min() - 1, runs.last.max()
    width = right - left + 1
    begins, ends = runs.row * width + runs.first - left, runs.row * width + runs.last - left
    passed = np.concatenate(([0], np.cumsum(runs.lengths)))

    def up_to(place: Whole) -> Whole:
        run = np.searchsorted(begins, place, side="right")
        not_reached = np.where(run > 0, np.maximum(ends[run - 1] - place, 0), 0)
        return np.asarray(passed[run] - not_reached)

    return up_to(row * width + np.clip(column, left, right) - left) - up_to(row * width)
