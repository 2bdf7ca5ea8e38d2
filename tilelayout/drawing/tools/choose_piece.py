"""Chooses laid pieces. Nothing is moved: the layout puts pieces where they are."""

from __future__ import annotations

from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.events import Chosen, Escaped, Event, Pointer, PointerLeft, PointerPressed
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.preview import PointerShape, Preview
from tilelayout.job.values import Point

Picks = tuple[Pick, ...]


def choose_piece(context: Context) -> Tool:
    """Choose pieces until Esc with none chosen."""
    chosen: Picks = ()
    under: Pick | None = None
    while True:
        event = yield Preview(_hint(chosen), chosen=chosen, under=under, pointer=PointerShape.ARROW)
        if isinstance(event, Escaped) and not chosen:
            return
        if isinstance(event, Pointer):
            under = _piece(context, event.point)
        elif isinstance(event, PointerLeft):
            under = None
        chosen = _after(event, chosen, under)


def _after(event: Event, chosen: Picks, under: Pick | None) -> Picks:
    match event:
        case Escaped():
            return ()
        case Chosen(pick, adds):
            return _with(chosen, pick, adds=adds)
        case PointerPressed(adds=adds):
            return _with(chosen, under, adds=adds)
    return chosen


def _with(chosen: Picks, pick: Pick | None, *, adds: bool) -> Picks:
    """Return the choice with one more or one less if the key that adds is held, else that one alone."""
    if pick is None:
        return chosen if adds else ()
    if not adds:
        return (pick,)
    return tuple(each for each in chosen if each != pick) if pick in chosen else (*chosen, pick)


def _piece(context: Context, point: Point) -> Pick | None:
    id = context.piece_at(point)
    return Pick(PickKind.PIECE, context.surface_id or "", id=id) if id else None


def _hint(chosen: Picks) -> str:
    if not chosen:
        return "Click a piece to choose it."
    ids = ", ".join(pick.id for pick in chosen if pick.id)
    return f"{ids} chosen; Esc lets go." if ids else "Esc lets go."
