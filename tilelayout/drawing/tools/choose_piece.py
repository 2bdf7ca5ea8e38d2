"""Chooses laid pieces. Nothing is moved: the layout puts pieces where they are.

By keys one goes from cut piece to cut piece: to the next in order, or with an arrow to the nearest that way.
"""

from __future__ import annotations

from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.events import (
    Chosen,
    Escaped,
    Event,
    FieldStepped,
    Nudged,
    Pointer,
    PointerLeft,
    PointerPressed,
)
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
        chosen = _after(event, chosen, under, context)


def _after(event: Event, chosen: Picks, under: Pick | None, context: Context) -> Picks:
    match event:
        case Escaped():
            return ()
        case Chosen(pick, adds):
            return _with(chosen, pick, adds=adds)
        case PointerPressed(adds=adds):
            return _with(chosen, under, adds=adds)
        case FieldStepped(back=back):
            return _stepped(chosen, context, -1 if back else 1)
        case Nudged(dx, dy):
            return _beside(chosen, context, (dx, dy))
    return chosen


def _stepped(chosen: Picks, context: Context, step: int) -> Picks:
    """Choose the next cut piece in order; from nothing or a whole tile, the first or last."""
    ids = [id for id, _ in context.cut_pieces()]
    if not ids:
        return chosen
    last = chosen[-1].id if chosen else ""
    at = ids.index(last) + step if last in ids else min(step, 0)
    return (Pick(PickKind.PIECE, context.surface_id or "", id=ids[at % len(ids)]),)


def _beside(chosen: Picks, context: Context, way: Point) -> Picks:
    """Choose the nearest cut piece that lies more that way than beside it; stay where there is none."""
    middles = dict(context.cut_pieces())
    here = middles.get(chosen[-1].id) if chosen else None
    if here is None:
        return _stepped(chosen, context, 1)
    far = {id: ((x - here[0]), (y - here[1])) for id, (x, y) in middles.items()}
    ahead = {id: dx * way[0] + dy * way[1] for id, (dx, dy) in far.items()}
    aside = {id: abs(dx * way[1] - dy * way[0]) for id, (dx, dy) in far.items()}
    there = [id for id in far if ahead[id] > 0 and aside[id] <= ahead[id]]
    if not there:
        return chosen
    nearest = min(there, key=lambda id: ahead[id] + 2 * aside[id])
    return (Pick(PickKind.PIECE, context.surface_id or "", id=nearest),)


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
        return "Click a piece to choose it, or go from cut to cut with the arrow keys."
    ids = ", ".join(pick.id for pick in chosen if pick.id)
    return f"{ids} chosen; Esc lets go." if ids else "Esc lets go."
