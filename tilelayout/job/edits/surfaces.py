"""Edits of the surfaces of a job: their outline, what stands at their edges, and their cutouts."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from msgspec.structs import replace

from tilelayout.base.errors import EditError
from tilelayout.job.checks import id_problems
from tilelayout.job.edits.corners import bent_along, is_plain, joined, split, with_edge
from tilelayout.job.edits.kept_edges import with_borders_kept, with_trims_kept
from tilelayout.job.edits.kept_lines import with_lines_kept
from tilelayout.job.edits.parts import allowed, changed, existing, left_out, put, without
from tilelayout.job.moved import moved_cutout, moved_layout, moved_surface, moved_survey
from tilelayout.job.surface_checks import surface_problems
from tilelayout.job.values import Cutout, Edge, Job, Point, Surface, SurfaceKind

Cutouts = tuple[Cutout, ...]


def add_surface(job: Job, surface: Surface) -> Job:
    """Return the job with one more surface. EditError if its id is taken or it cannot be."""
    surfaces = (*job.surfaces, allowed(surface, surface_problems(surface)))
    allowed(surfaces, id_problems("surfaces", "surface", [surface.id for surface in surfaces]))
    return replace(job, surfaces=surfaces)


def remove_surface(job: Job, id: str) -> Job:
    """Return the job without the surface and without what belongs to it: its layouts and surveys."""
    return replace(
        job,
        surfaces=without(job.surfaces, id, "surface"),
        layouts=tuple(layout for layout in job.layouts if layout.surface != id),
        surveys=tuple(survey for survey in job.surveys if survey.surface != id),
    )


def rename_surface(job: Job, id: str, name: str) -> Job:
    """Return the job with another name for the surface; its id stays."""
    return _with_surface(job, id, lambda surface: replace(surface, name=name))


def set_kind(job: Job, id: str, kind: SurfaceKind) -> Job:
    """Return the job with the surface as a floor or a wall."""
    return _with_surface(job, id, lambda surface: replace(surface, kind=kind))


def set_outline(job: Job, id: str, outline: Iterable[Point], edges: Iterable[Edge] = ()) -> Job:
    """Return the job with a whole new outline and what stands at its edges."""
    new = {"outline": tuple(outline), "edges": tuple(edge for edge in edges if not is_plain(edge))}
    return _with_surface(job, id, lambda surface: replace(surface, **new))


def move_corner(job: Job, id: str, at: int, point: Point) -> Job:
    """Return the job with corner `at` elsewhere; arcs that end there keep their form."""

    def change(surface: Surface) -> Surface:
        outline = put(surface.outline, at, point, "corner")
        edges = tuple(bent_along(surface.edges, surface.outline, outline))
        return replace(surface, outline=outline, edges=edges)

    return _with_surface(job, id, change)


def insert_corner(job: Job, id: str, edge_at: int, point: Point) -> Job:
    """Return the job with a new corner, `edge_at` + 1, that parts edge `edge_at` in two alike.

    On an arc the corner goes to the nearest point of the arc.
    """

    def change(surface: Surface) -> Surface:
        old = surface.edge(existing(surface.outline, edge_at, "edge"))
        outline, edges = split(surface.edges, old, surface.outline, point)
        return replace(surface, outline=outline, edges=edges)

    return _with_surface(job, id, change)


def delete_corner(job: Job, id: str, at: int) -> Job:
    """Return the job without corner `at`; the edge before it runs straight to the next corner."""

    def change(surface: Surface) -> Surface:
        outline = left_out(surface.outline, at, "corner")
        if len(outline) < 3:
            raise EditError("A surface has three corners at the least.", "Remove the surface instead.")
        return replace(surface, outline=outline, edges=joined(surface.edges, at, len(surface.outline)))

    return _with_surface(job, id, change)


def set_edge(job: Job, id: str, edge: Edge) -> Job:
    """Return the job with `edge` as what stands there; a plain wall is forgotten."""
    return _with_surface(job, id, lambda surface: replace(surface, edges=with_edge(surface.edges, edge)))


def bend_edge(job: Job, id: str, at: int, through: Point | None) -> Job:
    """Return the job with edge `at` an arc through a point, or straight."""

    def change(surface: Surface) -> Surface:
        bent = replace(surface.edge(existing(surface.outline, at, "edge")), through=through)
        return replace(surface, edges=with_edge(surface.edges, bent))

    return _with_surface(job, id, change)


def move_surface(job: Job, id: str, by: Point) -> Job:
    """Return the job with a surface and all that stands on it elsewhere by (x, y) mm."""
    moved = _with_surface(job, id, lambda surface: moved_surface(surface, by))
    return replace(
        moved,
        layouts=tuple(moved_layout(one, by) if one.surface == id else one for one in job.layouts),
        surveys=tuple(moved_survey(one, by) if one.surface == id else one for one in job.surveys),
    )


def add_cutout(job: Job, id: str, cutout: Cutout) -> Job:
    """Return the job with one more cutout, the last, in the surface."""
    return _with_cutouts(job, id, lambda cutouts: (*cutouts, cutout))


def replace_cutout(job: Job, id: str, index: int, cutout: Cutout) -> Job:
    """Return the job with another cutout in the place of cutout `index`."""
    return _with_cutouts(job, id, lambda cutouts: put(cutouts, index, cutout, "cutout"))


def move_cutout(job: Job, id: str, index: int, by: Point) -> Job:
    """Return the job with cutout `index` elsewhere by (x, y) mm."""

    def change(cutouts: Cutouts) -> Cutouts:
        old = cutouts[existing(cutouts, index, "cutout")]
        return put(cutouts, index, moved_cutout(old, by), "cutout")

    return _with_cutouts(job, id, change)


def remove_cutout(job: Job, id: str, index: int) -> Job:
    """Return the job without cutout `index` of the surface."""
    return _with_cutouts(job, id, lambda cutouts: left_out(cutouts, index, "cutout"))


def _with_cutouts(job: Job, id: str, change: Callable[[Cutouts], Cutouts]) -> Job:
    return _with_surface(job, id, lambda surface: replace(surface, cutouts=change(surface.cutouts)))


def _with_surface(job: Job, id: str, change: Callable[[Surface], Surface]) -> Job:
    """Return the job with one surface changed. EditError if there is none, or it cannot be so."""

    def checked(old: Surface) -> Surface:
        new = with_trims_kept(old, change(old))
        return allowed(new, surface_problems(new))

    surfaces = changed(job.surfaces, id, "surface", checked)
    after = replace(job, surfaces=surfaces)
    layouts = with_borders_kept(with_lines_kept(job, after, id), job.surface(id), after.surface(id))
    return replace(job, surfaces=surfaces, layouts=layouts)
