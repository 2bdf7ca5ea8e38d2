"""What becomes of the numbers of edges that trims and borders name, when corners come and go.

An edge that is parted stays named in both its parts; one that runs on over a corner that is gone is named if
its first part was. A trim of which no edge is left goes: without edges it would run along every wall.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from tilelayout.job.ground import Trim
from tilelayout.job.values import Layout, Point, Surface

Outline = tuple[Point, ...]


def with_trims_kept(old: Surface, new: Surface) -> Surface:
    """Return the new surface, its trims along what became of their edges."""
    if len(old.outline) == len(new.outline) or not new.trims:
        return new
    return replace(new, trims=tuple(_kept_trims(old.outline, new)))


def with_borders_kept(layouts: Iterable[Layout], old: Surface, new: Surface) -> tuple[Layout, ...]:
    """Return the layouts, borders on this surface leaving out what became of their edges."""
    if len(old.outline) == len(new.outline):
        return tuple(layouts)
    return tuple(_with_border_kept(layout, old, new) for layout in layouts)


def _kept_trims(before: Outline, new: Surface) -> Iterator[Trim]:
    for trim in new.trims:
        edges = edges_now(trim.edges, before, new.outline)
        if edges or not trim.edges:
            yield replace(trim, edges=edges)


def _with_border_kept(layout: Layout, old: Surface, new: Surface) -> Layout:
    border = layout.border
    if layout.surface != new.id or border is None or not border.left_out:
        return layout
    left_out = edges_now(border.left_out, old.outline, new.outline)
    return replace(layout, border=replace(border, left_out=left_out))


def edges_now(edges: Iterable[int], before: Outline, after: Outline) -> tuple[int, ...]:
    """Return the numbers that edges of an outline have in the one that was made of it.

    >>> square = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
    >>> edges_now((1,), square, (*square[:2], (9.0, 4.0), *square[2:]))
    (1, 2)
    """
    named = set(edges)
    return tuple(at for at in range(len(after)) if _edge_before(at, before, after) in named)


def _edge_before(at: int, before: Outline, after: Outline) -> int | None:
    """Return the edge that edge `at` was part of: that of its first corner, or of the last one there was."""
    corners = (after[at - back] for back in range(len(after)))
    return next((before.index(corner) for corner in corners if corner in before), None)
