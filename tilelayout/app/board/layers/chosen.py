"""What is chosen, pointed at or lit: a double outline, a fine one, a bright one."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath

from tilelayout.app.board.layers.groups import pieces_path
from tilelayout.app.board.shown import Shown
from tilelayout.app.board.view import Bounds, View
from tilelayout.app.paint.palette import Colours, faded
from tilelayout.app.paint.paths import lines_path, rings_path
from tilelayout.app.paint.strokes import line_pen, stroke_double
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.layout.values import Piece


def paint_chosen(
    painter: QPainter, picks: Iterable[Pick], shown: Shown, view: View, colours: Colours
) -> None:
    """Give each chosen thing a double outline; a corner has one by its handle."""
    for pick in picks:
        if pick.kind is PickKind.CORNER:
            continue
        path = path_of(pick, shown, view)
        stroke_double(painter, path, colours.colour("selection"), colours.colour("paper"))


def paint_under(painter: QPainter, pick: Pick, shown: Shown, view: View, colours: Colours) -> None:
    """Show with a fine outline what a press would choose."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(line_pen(faded(colours.colour("selection"), 0.9), 2.0, (5.0, 3.0)))
    painter.drawPath(path_of(pick, shown, view))


def paint_lit(painter: QPainter, ids: Iterable[str], shown: Shown, view: View, colours: Colours) -> None:
    """Light the pieces with these ids."""
    pieces = pieces_there(ids, shown)
    if not pieces:
        return
    path = view.transform.map(pieces_path(pieces))
    painter.fillPath(path, faded(colours.colour("accent"), 0.25))
    stroke_double(painter, path, colours.colour("accent"), colours.colour("paper"))


def path_of(pick: Pick, shown: Shown, view: View) -> QPainterPath:
    """Return the outline of a picked thing on the screen; empty if it is no longer there."""
    shape = shown.shape
    if shape is None or (shown.surface is not None and pick.surface != shown.surface.id):
        return QPainterPath()
    if pick.kind is PickKind.CORNER and pick.index < len(shape.edges):
        at = view.to_screen(*map(float, shape.edges[pick.index].line[0]))
        path = QPainterPath()
        path.addEllipse(at, 9.0, 9.0)
        return path
    if pick.kind is PickKind.EDGE and pick.index < len(shape.edges):
        return lines_path([view.all_to_screen(shape.edges[pick.index].line)])
    if pick.kind is PickKind.CUTOUT and pick.index < len(shape.cutouts):
        return rings_path([view.all_to_screen(shape.cutouts[pick.index])])
    if pick.kind is PickKind.PIECE:
        return view.transform.map(pieces_path(pieces_there((pick.id,), shown)))
    return QPainterPath()


def pieces_there(ids: Iterable[str], shown: Shown) -> list[Piece]:
    """Return the pieces with these ids that are laid; a start that was moved may have left some out."""
    found: list[Piece] = []
    if shown.plan is None:
        return found
    for id in ids:
        with suppress(KeyError):
            found.append(shown.plan.laid.piece(id))
    return found


def bounds_of(picks: Iterable[Pick], lit: Iterable[str], shown: Shown) -> Bounds | None:
    """Return what chosen and lit things take up in mm; None if there is nothing."""
    as_it_is = View(1.0, 0.0, 0.0)
    pieces = (Pick(PickKind.PIECE, shown.surface.id, id=id) for id in lit) if shown.surface else ()
    rect = QRectF()
    for pick in (*picks, *pieces):
        rect = rect.united(path_of(pick, shown, as_it_is).boundingRect())
    if rect.isNull():
        return None
    return Bounds(rect.left(), -rect.bottom(), rect.right(), -rect.top())
