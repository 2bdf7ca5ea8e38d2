"""The drawing tools by name: what a window offers and a board can be told to use."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.tools.add_line import centre_on, full_tile_at, joint_on_line, no_joint_near
from tilelayout.drawing.tools.add_round_cutout import add_round_cutout
from tilelayout.drawing.tools.bend_edge import bend_edge
from tilelayout.drawing.tools.choose_piece import choose_piece
from tilelayout.drawing.tools.drag_start import drag_start
from tilelayout.drawing.tools.draw_rectangle import add_rect_cutout, draw_rectangle
from tilelayout.drawing.tools.draw_surface import draw_surface
from tilelayout.drawing.tools.insert_corner import insert_corner
from tilelayout.drawing.tools.measure_between import measure_between
from tilelayout.drawing.tools.select_and_move import select_and_move

TOOLS: Mapping[str, Callable[[Context], Tool]] = MappingProxyType(
    {
        "select": select_and_move,
        "choose_piece": choose_piece,
        "draw_rectangle": draw_rectangle,
        "draw_surface": draw_surface,
        "insert_corner": insert_corner,
        "bend_edge": bend_edge,
        "add_rect_cutout": add_rect_cutout,
        "add_round_cutout": add_round_cutout,
        "drag_start": drag_start,
        "measure_between": measure_between,
        "centre_on": centre_on,
        "joint_on_line": joint_on_line,
        "full_tile_at": full_tile_at,
        "no_joint_near": no_joint_near,
    }
)
"""Each is a generator function of a `Context`; run it with `running.ToolRun`."""
