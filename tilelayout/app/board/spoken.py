"""What is chosen on the board in words, for the line at the foot and for a screen reader."""

from __future__ import annotations

from tilelayout.app.board.layers.chosen import pieces_there
from tilelayout.app.board.shown import Shown
from tilelayout.base.units import format_length
from tilelayout.drawing.picks import Pick, PickKind
from tilelayout.planning.words import piece_size


def words_of(pick: Pick, shown: Shown) -> str:
    """Return a picked thing in one sentence; "" if it is no longer there."""
    surface, shape, style = shown.surface, shown.shape, shown.style
    if surface is None or shape is None:
        return ""
    count = len(surface.outline)
    if pick.kind is PickKind.CORNER and pick.index < count:
        x, y = (format_length(value - low, style) for value, low in _from_ends(pick.index, shown))
        return f"Corner {pick.index + 1} of {count}, {x} from the left, {y} from the bottom."
    if pick.kind is PickKind.EDGE and pick.index < count:
        edge = shape.edges[pick.index]
        name = edge.edge.name or edge.edge.role.value.replace("-", " ")
        return f"Edge {pick.index + 1} of {count}, {name}, {format_length(edge.length, style)} long."
    if pick.kind is PickKind.CUTOUT and pick.index < len(surface.cutouts):
        return f"Cutout {surface.cutouts[pick.index].name or pick.index + 1}."
    if pick.kind is PickKind.PIECE and (there := pieces_there((pick.id,), shown)):
        piece = there[0]
        kind = "whole tile" if piece.whole else f"cut piece, {piece_size(piece, style)}"
        return f"Piece {pick.id}, {kind}."
    return "The start of the layout." if pick.kind is PickKind.START else ""


def _from_ends(index: int, shown: Shown) -> tuple[tuple[float, float], tuple[float, float]]:
    assert shown.surface is not None
    x, y = shown.surface.outline[index]
    return (x, shown.bounds.left), (y, shown.bounds.bottom)
