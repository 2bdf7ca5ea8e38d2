"""What becomes of reference lines when their surface is edited.

A point or a line stays where it is. A line at an edge follows the edge: to its new number when corners come
and go before it, to the edge it was joined to when its first corner is gone. A line at a cutout follows the
cutout's name. A line whose edge or cutout is gone goes with it.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from tilelayout.job.values import Job, Layout, ReferenceLine, Surface


def with_lines_kept(before: Job, after: Job, surface_id: str) -> tuple[Layout, ...]:
    """Return the layouts of `after`, their lines following what became of the surface."""
    if not any(layout.surface == surface_id and layout.lines for layout in after.layouts):
        return after.layouts
    old, new = before.surface(surface_id), after.surface(surface_id)
    return tuple(
        _kept(layout, old, new) if layout.surface == surface_id and layout.lines else layout
        for layout in after.layouts
    )


def _kept(layout: Layout, old: Surface, new: Surface) -> Layout:
    lines = tuple(kept for line in layout.lines for kept in _followed(line, old, new))
    return layout if lines == layout.lines else replace(layout, lines=lines)


def _followed(line: ReferenceLine, old: Surface, new: Surface) -> Iterator[ReferenceLine]:
    """Yield the line as it is now; nothing if what it stood at is gone."""
    if line.edge is not None:
        edge = _edge_now(line.edge, old, new)
        if edge is not None:
            yield line if edge == line.edge else replace(line, edge=edge)
    elif line.cutout is not None:
        name = _name_now(line.cutout, old, new)
        if name is not None:
            yield line if name == line.cutout else replace(line, cutout=name)
    else:
        yield line


def _edge_now(at: int, old: Surface, new: Surface) -> int | None:
    """Return the number an edge has now: that of its first corner, else of the last corner before it left."""
    if len(new.outline) == len(old.outline):
        return at
    for back in range(len(old.outline)):
        corner = old.outline[at - back]
        if corner in new.outline:
            return new.outline.index(corner)
    return None


def _name_now(name: str, old: Surface, new: Surface) -> str | None:
    """Return what a cutout is called now; None if it is gone or has no name any more."""
    if any(cutout.name == name for cutout in new.cutouts):
        return name
    if len(new.cutouts) != len(old.cutouts):
        return None
    at = next(at for at, cutout in enumerate(old.cutouts) if cutout.name == name)
    return new.cutouts[at].name or None
