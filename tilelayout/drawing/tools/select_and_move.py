"""Chooses corners, edges, cutouts and pieces, and moves, sizes, inserts and deletes them."""

from __future__ import annotations

import math
from collections.abc import Generator
from dataclasses import replace
from functools import partial

from tilelayout.drawing.context import Answer, Change, Context, Tool
from tilelayout.drawing.dragging import Grip
from tilelayout.drawing.events import (
    Chosen,
    Deleted,
    DoublePressed,
    Entered,
    Escaped,
    Event,
    FieldStepped,
    Inserted,
    LockToggled,
    Nudged,
    PointerMoved,
    PointerPressed,
    PointerReleased,
)
from tilelayout.drawing.features import edge_scene, unit
from tilelayout.drawing.grid import nudge_step
from tilelayout.drawing.hitting import edge_points, foot_on
from tilelayout.drawing.moves import (
    ends_of,
    place_of,
    reshaped,
    restored,
    shifted,
    slid,
    title_of,
    title_of_all,
    without,
)
from tilelayout.drawing.naming import sentence
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.drawing.preview import SnapKind
from tilelayout.drawing.reach import Reach
from tilelayout.drawing.selection import Selection
from tilelayout.drawing.sizing import resized
from tilelayout.drawing.stage import DRAG_PX, offer
from tilelayout.job.edits.surfaces import insert_corner
from tilelayout.job.values import Point, Surface

Part = Generator[Answer, Event, None]
"""A part of the tool that takes events of its own, such as a drag from press to release."""


def select_and_move(context: Context) -> Tool:
    """Choose and change until Esc with nothing chosen."""
    selection = Selection(context)
    nudging: object | None = None
    while True:
        event = yield selection.preview()
        nudging = (nudging or object()) if isinstance(event, Nudged) else None
        if isinstance(event, Escaped) and not _let_go(selection):
            return
        if _only_chooses(selection, event) or selection.takes(event, selection.drawn()):
            selection.look_again()
        elif isinstance(event, PointerPressed):
            yield from _press(selection, event)
        elif isinstance(event, DoublePressed | Inserted):
            yield from _insert(selection, event)
        else:
            yield from _edit(selection, event, nudging)


def _let_go(selection: Selection) -> bool:
    """Take one step back; False if there was nothing to take back."""
    if selection.entry.is_typed or selection.entry.active:
        selection.entry = selection.entry.emptied()
    elif selection.chosen:
        selection.choose(None)
    else:
        return False
    return True


def _only_chooses(selection: Selection, event: Event) -> bool:
    """Deal with what changes only the choice; locks have no meaning here."""
    match event:
        case Chosen(pick, adds):
            selection.choose(pick, adds=adds)
        case FieldStepped(back) if selection.entry.active is None:
            selection.choose_beside(back=back)
        case Entered() if not selection.entry.is_typed:
            first = next(iter(selection.entry.fields), None)
            selection.entry = replace(selection.entry, active=first)
        case LockToggled() | Escaped():
            pass
        case _:
            return False
    selection.trouble = ""
    return True


def _edit(selection: Selection, event: Event, nudging: object | None) -> Part:
    """Offer the change that a key asks for, if any."""
    surface = selection.context.surface
    change = _change(selection, surface, event, nudging) if surface else None
    if change is None:
        return
    selection.trouble = yield from offer(change)
    if selection.trouble:
        return
    if isinstance(event, Entered):
        selection.entry = selection.entry.cleared()
    elif isinstance(event, Deleted):
        selection.choose(None)


def _change(selection: Selection, surface: Surface, event: Event, nudging: object | None) -> Change | None:
    match event:
        case Nudged() if selection.movable:
            return _nudge(selection, surface, event, nudging)
        case Deleted():
            return _delete(selection, surface)
        case Entered() if len(selection.chosen) == 1 and not selection.entry.wrong():
            return Change(*resized(surface, selection.chosen[0], selection.entry.values()))
    return None


def _nudge(selection: Selection, surface: Surface, event: Nudged, nudging: object | None) -> Change | None:
    """Move by steps as fine as a tape is read; one edge alone moves only square to itself."""
    step = nudge_step(selection.style) * (10 if event.big else 1)
    by = (event.dx * step, event.dy * step)
    picks = selection.movable
    label = f"Move {title_of_all(surface, picks)}"
    if len(picks) > 1 or picks[0].kind is not PickKind.EDGE:
        return Change(label, shifted(surface, picks, by), nudging)
    at = picks[0].index
    along = unit(*ends_of(surface, at))
    offset = along[0] * by[1] - along[1] * by[0]
    if abs(offset) < step / 1000:
        selection.trouble = f"{sentence(title_of_all(surface, picks))} moves only square to itself."
        return None
    return Change(label, reshaped(surface, slid(surface, at, offset), {}), nudging)


def _delete(selection: Selection, surface: Surface) -> Change | None:
    edit = without(surface, selection.chosen)
    if edit is None:
        if selection.chosen:
            selection.trouble = "A wall goes when one of its corners goes: choose a corner or a cutout."
        return None
    return Change(f"Delete {title_of_all(surface, selection.chosen)}", edit)


def _insert(selection: Selection, event: DoublePressed | Inserted) -> Part:
    """Put a corner on the edge under the pointer, or in the middle of the chosen edge, and choose it."""
    surface = selection.context.surface
    pick = selection.under(event) if isinstance(event, DoublePressed) else next(iter(selection.chosen), None)
    if surface is None or pick is None or pick.kind is not PickKind.EDGE:
        return
    point = place_of(surface, pick)
    if isinstance(event, DoublePressed):
        point = _on_edge(selection, surface, pick.index)
    edit = partial(insert_corner, id=surface.id, edge_at=pick.index, point=point)
    selection.trouble = yield from offer(Change(f"Add a corner to {title_of(surface, pick)}", edit))
    if not selection.trouble:
        selection.choose(Pick(PickKind.CORNER, surface.id, pick.index + 1))


def _on_edge(selection: Selection, surface: Surface, at: int) -> Point:
    """Return where on an edge the pointer snaps to, its foot if it is not to snap."""
    scene = edge_scene(surface, at)
    target = selection.snapped(scene)
    if target is not None and target.marker is not None and target.marker.kind is not SnapKind.GRID:
        return target.point
    pointed = selection.pointer.point if selection.pointer else ends_of(surface, at)[0]
    return foot_on(edge_points(surface, at), pointed)


def _press(selection: Selection, press: PointerPressed) -> Part:
    """A click chooses; a drag moves what was pressed, or draws a box on empty ground."""
    pick = selection.under(press)
    was_chosen = pick in selection.chosen
    if pick is None or press.adds or not was_chosen:
        selection.choose(pick, adds=press.adds)
    while True:
        event = yield selection.preview()
        if isinstance(event, Escaped | PointerReleased):
            break
        selection.takes(event, selection.drawn())
        if isinstance(event, PointerMoved) and _is_drag(press, event):
            yield from _drag_from(selection, press, pick, event)
            return
    if was_chosen and pick is not None and not press.adds:
        selection.choose(pick)


def _is_drag(press: PointerPressed, event: PointerMoved) -> bool:
    return math.dist(press.point, event.point) * event.px_per_mm > DRAG_PX


def _drag_from(selection: Selection, press: PointerPressed, pick: Pick | None, event: PointerMoved) -> Part:
    surface = selection.context.surface
    if pick is None:
        yield from _box(selection, press, event)
    elif surface is not None and pick in selection.movable:
        kinds = selection.context.snap_kinds
        yield from _drag(selection, Grip(surface, pick, selection.movable, press.point, kinds), event)


def _box(selection: Selection, press: PointerPressed, moved: PointerMoved) -> Part:
    """Draw a box from the press to the release and choose what stands in it."""
    end: Point = moved.point
    while True:
        event = yield selection.preview(selection_box=(press.point, end))
        if isinstance(event, Escaped):
            return
        if isinstance(event, PointerReleased):
            selection.choose_within(press.point, event.point, adds=press.adds)
            return
        if isinstance(event, PointerMoved):
            end = event.point


def _drag(selection: Selection, grip: Grip, event: Event) -> Part:
    """Move what is gripped with the pointer, every step under one gesture, until the release.

    Esc, or a release where it cannot stay, puts it back. If the job is changed from elsewhere, the drag ends.
    """
    gesture = object()
    while True:
        marker = None
        if isinstance(event, PointerMoved | PointerReleased):
            selection.takes(event, {})
            reach = Reach.of(event, selection.style, selection.context.snap_px)
            dragged = grip.dragged_to(event.point, reach)
            refused = yield from offer(Change(grip.label, dragged.edit, gesture))
            selection.trouble, marker = refused, dragged.marker
        left = selection.context.surface
        if isinstance(event, Escaped) or (isinstance(event, PointerReleased) and selection.trouble):
            yield from offer(Change(grip.label, restored(grip.surface), gesture))
        if isinstance(event, Escaped | PointerReleased):
            return
        event = yield selection.preview(marker)
        if selection.context.surface is not left:
            return
