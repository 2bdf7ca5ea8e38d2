"""The cut list in the order of the saw, and what sharing offcuts saves, in words."""

from __future__ import annotations

import itertools

import numpy as np

from tilelayout.base.units import LengthStyle, cut_size, format_length
from tilelayout.geometry.rings import following
from tilelayout.job.values import MosaicSheet, Tile
from tilelayout.layout.faces import tile_outline
from tilelayout.layout.values import Points
from tilelayout.planning.saw_list import MARKED_LINE, SawList, SawStep, Setting
from tilelayout.planning.saw_sizes import at_least, saw_style
from tilelayout.planning.straight_sawing import LEAST_AT_FENCE
from tilelayout.planning.tile_sides import corner_word, crossings, side_word
from tilelayout.planning.to_saw import ToSaw


def setting_words(setting: Setting, style: LengthStyle) -> str:
    """Return what to set: "Fence at 243 mm"."""
    if setting.distance == MARKED_LINE:
        return "No fence: along a marked line"
    return f"Fence at {format_length(setting.distance, saw_style(style))}"


def tiles_words(setting: Setting) -> str:
    """Return the tiles sawn at a setting: "tiles 3, 7, 8"."""
    numbers = ", ".join(map(str, setting.tiles))
    return f"{'tile' if len(setting.tiles) == 1 else 'tiles'} {numbers}"


def lying_words(step: SawStep, style: LengthStyle) -> str:
    """Return how the tile lies at a cut: which side is at the fence, else where the line is marked."""
    if step.rest is None:
        return _marked_words(step, style)
    side = f"{_side_word(step)} at the fence"
    return side if step.rest.is_kept else f"{side}, where the waste is"


def _side_word(step: SawStep) -> str:
    assert step.rest is not None
    if not step.rest.is_factory:
        return "the side sawn before"
    start, end = step.rest.side
    outward = np.array([end[1] - start[1], start[0] - end[0]])
    return side_word(step.tile.tile, (start + end) / 2 + outward * 1e3)


def by_lying(setting: Setting, style: LengthStyle) -> list[tuple[str, list[SawStep]]]:
    """Return the cuts of a setting by how the tile lies, in the order in which these first come.

    A tile's first cut stands before its second.
    """
    said = [(lying_words(step, style), step) for step in setting.steps]
    order = list(dict.fromkeys(words for words, _ in said))
    ordered = sorted(said, key=lambda each: (each[1].number, order.index(each[0])))
    return [
        (words, [step for _, step in group])
        for (_, words), group in itertools.groupby(ordered, key=lambda each: (each[1].number, each[0]))
    ]


def short_step_words(step: SawStep, found: SawList) -> str:
    """Return one cut in few words, beside a drawing: what to set, what comes off and for which wall."""
    style = saw_style(found.of.style)
    if step.rest is None:
        said = f"marked line, {' and '.join(f'{size} {side}' for size, side, _ in _marks(step, style))}"
    else:
        said = f"{format_length(step.rest.distance, style)}, {lying_words(step, style)}"
    done = ", ".join(f"{piece}{_wall_words(piece, found)}" for piece in step.done)
    kept = f"keep {', '.join(step.kept)}" if step.kept else ""
    return "; ".join(filter(None, (said, done and f"gives {done}", kept)))


def _wall_words(piece: str, found: SawList) -> str:
    walls = found.of.pieces[piece].walls
    return f" ({', '.join(walls)})" if walls else ""


def _marked_words(step: SawStep, style: LengthStyle) -> str:
    """Return the two distances along the sides of the whole tile, from the corners on the kept side."""
    said = [f"{size} of the {side} from the {corner}" for size, side, corner in _marks(step, style)]
    return f"mark {said[0]} and {said[1]}"


def _marks(step: SawStep, style: LengthStyle) -> list[tuple[str, str, str]]:
    """Return for both ends of a marked line: how far along which side, from which corner."""
    line, kept = _kept_line(step)
    tile = step.tile.tile
    return [_mark(tile, end, kept, style) for end in crossings(tile, line)]


def _kept_line(step: SawStep) -> tuple[Points, Points]:
    """Return the edge of the blade's run at the piece it makes (2, 2), and the way from it to the piece."""
    start, end = step.cut.line
    along = (end - start) / np.hypot(*(end - start))
    way = np.array([-along[1], along[0]])
    names = step.cut.makes or step.cut.pieces[:1]
    outline = next(each.outline for each in step.tile.pieces if each.piece == names[0])
    way = way if float((outline - start).mean(axis=0) @ way) > 0 else -way
    shift = way * step.tile.blank.saw.kerf / 2 if step.cut.makes else np.zeros(2)
    return step.cut.line + shift, way


def _mark(tile: Tile, end: Points, kept: Points, style: LengthStyle) -> tuple[str, str, str]:
    outline = tile_outline(tile)
    ends = following(outline)
    along = ends - outline
    share = np.clip(((end - outline) * along).sum(axis=1) / (along**2).sum(axis=1), 0.0, 1.0)
    side = int(np.argmin(np.hypot(*(end - outline - share[:, None] * along).T)))
    corner = outline[side] if along[side] @ kept < 0 else ends[side]
    size = format_length(cut_size(float(np.hypot(*(end - corner))), saw_style(style)), saw_style(style))
    middle = (outline[side] + ends[side]) / 2
    return size, side_word(tile, middle), corner_word(tile, corner)


def reading_words(found: SawList) -> tuple[str, ...]:
    """Return how to read the list on paper: totals, what sharing saves, what a line says, how sizes are set.

    One sentence each.
    """
    head = f"{_total_words(found)}. {_sharing_words(found)}."
    surfaces = surfaces_words(found.of)
    if not found.settings:
        return (head, *surfaces, "All of it is done by hand: no setting of the saw is needed.")
    step = "1 mm" if found.of.style.is_metric else '1/16"'
    arrow = " The arrow in the tile is the tile's own." if any(t.directional for t in found.of.tiles) else ""
    return (
        head,
        *surfaces,
        "T3.2 is the second cut of tile 3, drawn on the pages that follow; after it stands the piece that "
        f"comes off, and an offcut to keep with the name to write on it. Tiles lie face up.{arrow}",
        f"The fence is set from the factory edge named, rounded down to {step}, so that a row of pieces and "
        "joints never comes out longer than its space. The blade runs on the waste side.",
        _caution_words(found),
    )


def _caution_words(found: SawList) -> str:
    """Return why some cuts are set by the waste, or marked, though a narrow strip lies nearer."""
    least = format_length(at_least(LEAST_AT_FENCE, found.of.style), saw_style(found.of.style))
    return (
        f"A strip narrower than {least} would jam between fence and blade: the wide side goes to the "
        "fence, or the line is marked (common practice; the saw's own manual comes first)."
    )


def _total_words(found: SawList) -> str:
    pieces, opened = len(found.of.pieces), len(found.opened)
    what = "sheet" if _are_sheets(found) else "sawn tile"
    words = f"{pieces} {'piece' if pieces == 1 else 'pieces'} from {opened} {what}{'s'[: opened != 1]}"
    return f"{words}, {settings_words(found)}" if found.settings else words


def _are_sheets(found: SawList) -> bool:
    return all(isinstance(tile.tile, MosaicSheet) for tile in found.opened)


def surfaces_words(what: ToSaw) -> tuple[str, ...]:
    """Say what the number of a surface before that of a piece means, or why the list is of one alone."""
    if what.trouble:
        return (f"{what.trouble} This list is for {what.plans[0].surface.title} alone.",)
    if len(what.plans) == 1:
        return ()
    named = ", ".join(f"{at} {made.surface.title}" for at, made in enumerate(what.plans, start=1))
    return (f"One list for all that share tiles: the number before a piece is its surface's, {named}.",)


def settings_words(found: SawList) -> str:
    """Return how many settings the list takes, and whether that is proved to be the fewest."""
    count = len(found.settings)
    words = f"{count} {'setting' if count == 1 else 'settings'} of the saw"
    if count == found.settings_at_least:
        return f"{words}: no order of these cuts takes fewer" if count > 1 else words
    return f"{words}; no order of these cuts takes fewer than {found.settings_at_least}"


def _sharing_words(found: SawList) -> str:
    """Return what sharing offcuts saves, and what is proved of it."""
    sharing = found.of.sharing
    words = f"{sharing.tiles_needed} {'sheets' if _are_sheets(found) else 'tiles'}"
    if sharing.is_saving:
        words += f"; without sharing {sharing.without_sharing}"
    least = f"no plan can need fewer than {sharing.tiles_needed_at_least}"
    return f"{words}; {least}{': fewest possible' if sharing.is_fewest else ''}"
