"""Opens the sheet to draw the tile in front on, and puts what is used of it into the job as one step."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from tilelayout.app.bench import Bench
from tilelayout.app.draw_tile.sheet import DrawTileSheet
from tilelayout.app.first_layouts import first_layout
from tilelayout.job.edits.layouts import add_layout
from tilelayout.job.values import Job, Layout, Surface, Tile
from tilelayout.layout.drafts import Draft
from tilelayout.layout.drawn_cells import draft_of
from tilelayout.planning.drawn_tiles import with_drawn_cell

_USUAL_JOINT = 3.0


def draw_tile(bench: Bench, parent: QWidget) -> DrawTileSheet | None:
    """Open the sheet over the window that `parent` is in; None if there is no tile to draw."""
    tile = bench.tile
    if tile is None:
        return None
    sheet = DrawTileSheet(
        parent.window(),
        bench.look,
        _draft(bench, tile),
        bench.job.show_lengths,
        lambda draft: bench.session.apply("Draw tile", lambda job: _used(job, bench.surface, tile, draft)),
    )
    sheet.open()
    return sheet


def _draft(bench: Bench, tile: Tile) -> Draft:
    """Return the cell of the layout in front, if it lays the tile; else the tile by itself."""
    layout = bench.layout
    if layout is None:
        plain = Layout(id="A", surface="", tile=tile.id, joint=_USUAL_JOINT)
        return draft_of(tile, plain, {})
    return draft_of(tile, layout, bench.job.more_tiles(layout))


def _used(job: Job, surface: Surface | None, tile: Tile, draft: Draft) -> Job:
    """Return the job with what was drawn; on a surface without a layout it is laid at once."""
    if surface is not None and not any(layout.surface == surface.id for layout in job.layouts):
        job = add_layout(job, first_layout(job, surface, tile))
    return with_drawn_cell(job, tile.id, draft)
