"""What a drawing tool may know: the job and what the board shows of it."""

from __future__ import annotations

from collections.abc import Callable

from tilelayout.app.board.finder import finder_of
from tilelayout.app.board.kept_lines import wishes_of
from tilelayout.app.board.shown import Shown
from tilelayout.drawing.context import Context, PlacedPattern
from tilelayout.job.session import Session
from tilelayout.job.values import Point, SurfaceKind


def context_of(session: Session, shown: Callable[[], Shown], new_kind: SurfaceKind) -> Context:
    """Return the surroundings of a tool that works on what is shown."""
    now = shown()
    return Context(
        read_job=lambda: session.job,
        surface_id=now.surface.id if now.surface else None,
        layout_id=now.layout.id if now.layout else None,
        new_kind=new_kind,
        piece_at=lambda point: _piece_at(shown(), point),
        cut_pieces=lambda: _cut_pieces(shown()),
        pattern=lambda: _pattern(shown()),
    )


def _pattern(shown: Shown) -> PlacedPattern | None:
    if shown.plan is None:
        return None
    laid = shown.plan.laid
    return PlacedPattern(laid.placed_faces, laid.placed_vectors, wishes_of(shown.plan))


def _cut_pieces(shown: Shown) -> list[tuple[str, Point]]:
    if shown.plan is None or shown.is_measured:
        return []
    middles = ((piece.id, piece.outline.mean(axis=0).tolist()) for piece in shown.plan.laid.cut)
    return [(id, (x, y)) for id, (x, y) in middles]


def _piece_at(shown: Shown, point: Point) -> str | None:
    if shown.plan is None or shown.is_measured:
        return None
    return finder_of(shown.plan.laid).at(point)
