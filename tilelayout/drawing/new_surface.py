"""The one way in which the drawing tools make a new surface: its id, its name, and the edit that adds it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from tilelayout.drawing.context import Change, Context
from tilelayout.job.edits.ids import free_id
from tilelayout.job.edits.surfaces import add_surface
from tilelayout.job.values import Job, Point, Surface, SurfaceKind


def add_outline(context: Context, outline: tuple[Point, ...]) -> Change:
    """Return the change that adds a surface of the context's kind with this outline."""
    kind = context.new_kind
    return Change(f"Draw {kind.value}", _adding(kind, outline))


def _adding(kind: SurfaceKind, outline: tuple[Point, ...]) -> Callable[[Job], Job]:
    return partial(_added, kind=kind, outline=outline)


def _added(job: Job, kind: SurfaceKind, outline: tuple[Point, ...]) -> Job:
    id = free_id([surface.id for surface in job.surfaces], kind.value)
    name = id.replace("-", " ").capitalize()
    return add_surface(job, Surface(id=id, kind=kind, name=name, outline=outline))
