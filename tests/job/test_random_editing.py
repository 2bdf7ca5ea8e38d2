"""Random editing with undo and redo: the job is always in order, and nothing done is ever lost."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule
from msgspec.structs import replace

from tests.job.cast import BAY, job_of
from tilelayout.base.errors import EditError
from tilelayout.job.checks import job_problems
from tilelayout.job.edits import jobs, layouts, surfaces, tiles
from tilelayout.job.edits.ids import free_id
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.session import Session
from tilelayout.job.values import Circle, Cutout, Edge, EdgeRole, Job, Layout, RectangleTile, Surface

PLACES = st.tuples(st.integers(-500, 3500).map(float), st.integers(-500, 2500).map(float))
NUMBERS = st.integers(-1, 5)
TRIANGLE = Surface(id="", outline=((0.0, 0.0), (900.0, 0.0), (0.0, 700.0)))


class Editing(RuleBasedStateMachine):
    """A person who tries everything, keeping on paper what the job was after each step."""

    def __init__(self) -> None:
        super().__init__()
        self.session = Session(job_of(BAY))
        self.paper = [job_to_bytes(self.session.job)]
        self.at = 0
        self.saved = self.paper[0]

    def _try(self, edit: Any, *arguments: Any, **changes: Any) -> None:
        before = self.session.job
        try:
            self.session.apply("Edit", lambda job: edit(job, *arguments, **changes))
        except EditError as error:
            assert error.what.endswith(".")
            assert error.mend.endswith(".")
            assert self.session.job is before
        if self.session.job is not before:
            self.paper[self.at + 1 :] = [job_to_bytes(self.session.job)]
            self.at += 1

    def _a_surface(self, number: int) -> str:
        ids = [surface.id for surface in self.session.job.surfaces]
        return ids[number % len(ids)] if ids else "none"

    def _a_layout(self, number: int) -> str:
        ids = [layout.id for layout in self.session.job.layouts]
        return ids[number % len(ids)] if ids else "none"

    @rule(which=NUMBERS, at=NUMBERS, point=PLACES)
    def move_a_corner(self, which: int, at: int, point: tuple[float, float]) -> None:
        self._try(surfaces.move_corner, self._a_surface(which), at, point)

    @rule(which=NUMBERS, at=NUMBERS, point=PLACES)
    def insert_a_corner(self, which: int, at: int, point: tuple[float, float]) -> None:
        self._try(surfaces.insert_corner, self._a_surface(which), at, point)

    @rule(which=NUMBERS, at=NUMBERS)
    def delete_a_corner(self, which: int, at: int) -> None:
        self._try(surfaces.delete_corner, self._a_surface(which), at)

    @rule(which=NUMBERS, at=NUMBERS, point=st.none() | PLACES)
    def bend_an_edge(self, which: int, at: int, point: tuple[float, float] | None) -> None:
        self._try(surfaces.bend_edge, self._a_surface(which), at, point)

    @rule(which=NUMBERS, at=NUMBERS, role=st.sampled_from(EdgeRole))
    def say_what_an_edge_is(self, which: int, at: int, role: EdgeRole) -> None:
        self._try(surfaces.set_edge, self._a_surface(which), Edge(at=at, role=role))

    @rule(which=NUMBERS, point=PLACES, diameter=st.integers(0, 400).map(float))
    def add_a_cutout(self, which: int, point: tuple[float, float], diameter: float) -> None:
        cutout = Cutout(circle=Circle(centre=point, diameter=diameter))
        self._try(surfaces.add_cutout, self._a_surface(which), cutout)

    @rule(which=NUMBERS, index=NUMBERS, by=PLACES)
    def move_a_cutout(self, which: int, index: int, by: tuple[float, float]) -> None:
        self._try(surfaces.move_cutout, self._a_surface(which), index, by)

    @rule(which=NUMBERS, index=NUMBERS)
    def remove_a_cutout(self, which: int, index: int) -> None:
        self._try(surfaces.remove_cutout, self._a_surface(which), index)

    @rule(base=st.sampled_from(["step", "wall"]))
    def add_a_surface(self, base: str) -> None:
        id = free_id([surface.id for surface in self.session.job.surfaces], base)
        self._try(surfaces.add_surface, replace(TRIANGLE, id=id))

    @rule(which=NUMBERS, by=PLACES)
    def move_a_surface(self, which: int, by: tuple[float, float]) -> None:
        self._try(surfaces.move_surface, self._a_surface(which), by)

    @rule(which=NUMBERS)
    def remove_a_surface(self, which: int) -> None:
        self._try(surfaces.remove_surface, self._a_surface(which))

    @rule(size=st.integers(-1, 6000).map(float), id=st.sampled_from(["comb", "brick"]))
    def add_or_replace_a_tile(self, size: float, id: str) -> None:
        tile = RectangleTile(id=id, length=size, width=100.0)
        known = any(tile.id == id for tile in self.session.job.tiles)
        self._try(tiles.replace_tile, id, tile) if known else self._try(tiles.add_tile, tile)

    @rule(id=st.sampled_from(["comb", "brick"]))
    def remove_a_tile(self, id: str) -> None:
        self._try(tiles.remove_tile, id)

    @rule(which=NUMBERS, tile=st.sampled_from(["comb", "brick"]))
    def add_a_layout(self, which: int, tile: str) -> None:
        id = free_id([layout.id for layout in self.session.job.layouts], "A")
        self._try(layouts.add_layout, Layout(id=id, surface=self._a_surface(which), tile=tile))

    @rule(which=NUMBERS, joint=st.integers(-1, 120).map(float))
    def change_a_joint(self, which: int, joint: float) -> None:
        self._try(layouts.replace_layout, self._a_layout(which), joint=joint)

    @rule(which=NUMBERS, name=st.sampled_from(["", "half tiles", " at the  door "]))
    def name_a_layout(self, which: int, name: str) -> None:
        self._try(layouts.rename_layout, self._a_layout(which), name)

    @rule(which=NUMBERS)
    def lay_a_layout(self, which: int) -> None:
        self._try(layouts.lay_layout, self._a_layout(which))

    @rule(which=NUMBERS)
    def remove_a_layout(self, which: int) -> None:
        self._try(layouts.remove_layout, self._a_layout(which))

    @rule(which=NUMBERS, points=st.lists(PLACES, min_size=1, max_size=4))
    def drag_a_start(self, which: int, points: list[tuple[float, float]]) -> None:
        id, before = self._a_layout(which), self.session.job
        drag = object()
        for point in points:
            self._drag_to(id, point, drag)
        if self.session.job is not before:
            self.paper[self.at + 1 :] = [job_to_bytes(self.session.job)]
            self.at += 1

    def _drag_to(self, id: str, point: tuple[float, float], drag: object) -> None:
        try:
            self.session.apply("Move start", lambda job: layouts.move_start(job, id, point), drag)
        except EditError as error:
            assert "none" in error.what

    @rule(title=st.sampled_from("ABC"))
    def name_the_job(self, title: str) -> None:
        self._try(jobs.set_title, title)

    @precondition(lambda self: self.session.can_undo)
    @rule()
    def undo(self) -> None:
        self.session.undo()
        self.at -= 1

    @precondition(lambda self: self.session.can_redo)
    @rule()
    def redo(self) -> None:
        self.session.redo()
        self.at += 1

    @rule()
    def save(self) -> None:
        self.session.mark_saved(Path("room.tilejob"))
        self.saved = self.paper[self.at]

    @invariant()
    def the_job_is_what_the_paper_says(self) -> None:
        assert job_to_bytes(self.session.job) == self.paper[self.at]

    @invariant()
    def the_job_is_in_order_and_can_be_saved_and_read(self) -> None:
        job: Job = self.session.job
        assert list(job_problems(job)) == []
        assert job_from_bytes(self.paper[self.at]) == job

    @invariant()
    def undo_redo_and_the_modified_mark_say_what_is_so(self) -> None:
        assert self.session.can_undo == (self.at > 0)
        assert self.session.can_redo == (self.at < len(self.paper) - 1)
        assert self.session.is_modified == (self.paper[self.at] != self.saved)

    def teardown(self) -> None:
        while self.session.can_undo:
            self.session.undo()
        assert job_to_bytes(self.session.job) == self.paper[0]


Editing.TestCase.settings = settings(max_examples=40, stateful_step_count=25, deadline=None)
TestEditing = Editing.TestCase
