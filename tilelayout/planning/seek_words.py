"""Says in one sentence why a layout was found: what it leaves, what a usual start would, what cannot be had.

The usual starts are those a tiler would try first: a tile or a joint in the middle of the surface, or whole
tiles from the left and the bottom.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from msgspec.structs import replace

from tilelayout.base.units import format_length
from tilelayout.job.values import Job, Layout
from tilelayout.layout import patterns
from tilelayout.layout.borders import BorderCut
from tilelayout.layout.cuts import cuts_of
from tilelayout.layout.faces import tile_width
from tilelayout.layout.seeking.aims import Aim
from tilelayout.layout.seeking.balance import Pair
from tilelayout.layout.seeking.certificate import NEAR
from tilelayout.layout.seeking.trials import Start, Trials
from tilelayout.layout.values import Points
from tilelayout.planning.plan import Plan, plan
from tilelayout.planning.wall_names import edge_name
from tilelayout.planning.words import walls_met

_ALONG = 0.98
_SHOWN = 0.5
"""Sizes that differ by less, in mm, are one on a tape."""


@dataclass(frozen=True, eq=False)
class Told:
    """What is told of: a planned layout, what was sought, and whether nothing better can be had.

    `at_most` is a proved bound on the narrowest cut of every start laid this way; None if there is none.
    """

    plan: Plan
    aim: Aim
    pairs: tuple[Pair, ...]
    trials: Trials
    is_proved: bool
    at_most: float | None = None

    def size(self, length: float) -> str:
        """Return a length as the job shows it."""
        return format_length(length, self.plan.style)


def why(told: Told, job: Job) -> str:
    """Return the sentence, without a full stop."""
    head = {
        Aim.BALANCED: _borders,
        Aim.WIDEST_CUT: _narrowest,
        Aim.FEWEST_TILES: _tiles,
        Aim.FEWEST_CUTS: _cuts,
    }[told.aim](told)
    parts = (head, _rival(told, job), _out_of_reach(told), _how_certain(told), _left_bare(told))
    return "; ".join(part for part in parts if part)


def _borders(told: Told) -> str:
    """Say the border cuts at the walls that face each other."""
    found = [words for pair in told.pairs for words in _opposite(told, pair)]
    if not found:
        return f"balanced: {_narrowest(told)}"
    return f"balanced: {', '.join(found)}"


def _opposite(told: Told, pair: Pair) -> Iterator[str]:
    sides = [_longest(told.plan, pair.normal * side) for side in (1.0, -1.0)]
    one, other = sides
    if one is None or other is None:
        return
    names = [edge_name(told.plan.surface, cut.edge) for cut in (one, other)]
    sizes = [_border_size(told, cut) for cut in (one, other)]
    if sizes[0] == sizes[1]:
        yield f"{sizes[0]} at both the {names[0]} and the {names[1]}"
    else:
        yield " and ".join(f"{size} at the {name}" for size, name in zip(sizes, names, strict=True))


def _border_size(told: Told, cut: BorderCut) -> str:
    """Say what stands along a wall: whole tiles, cuts of one size, or cuts from the least to the greatest."""
    if cut.greatest - cut.least > _SHOWN:
        return f"{told.size(cut.least)} to {told.size(cut.greatest)}"
    return "whole tiles" if cut.is_whole else told.size(cut.usual)


def _longest(planned: Plan, inward: Points) -> BorderCut | None:
    """The border cut at the longest wall that faces this way."""
    outline = np.array(planned.surface.outline, dtype=float)
    along = np.roll(outline, -1, axis=0) - outline
    lengths = np.hypot(along[:, 0], along[:, 1])
    turn = np.sign(
        np.sum(outline[:, 0] * np.roll(outline[:, 1], -1) - np.roll(outline[:, 0], -1) * outline[:, 1])
    )
    normals = turn * np.column_stack([-along[:, 1], along[:, 0]]) / lengths[:, None]
    facing = [cut for cut in planned.borders if normals[cut.edge] @ inward > _ALONG]
    return max(facing, key=lambda cut: round(float(lengths[cut.edge]), 3), default=None)


def _narrowest(told: Told) -> str:
    if not told.plan.cut:
        return "nothing has to be cut"
    width, place = told.size(told.plan.narrowest or 0.0), place_of_narrowest(told.plan)
    return f"the narrowest cut is {width}{place}"


def _tiles(told: Told) -> str:
    return f"{told.plan.tiles_needed} tiles to open, {told.plan.cut} pieces cut"


def _cuts(told: Told) -> str:
    return f"{told.plan.cut} pieces to cut, {told.plan.whole} tiles whole"


def place_of_narrowest(planned: Plan) -> str:
    """Say at which wall the narrowest cut piece stands; "" if at none."""
    if not planned.laid.cut:
        return ""
    piece = min(planned.laid.cut, key=lambda piece: (round(piece.narrowest, 3), piece.id))
    walls = walls_met(cuts_of(piece, planned.laid), planned.surface)
    return f" at the {walls[0]}" if walls else ""


def _rival(told: Told, job: Job) -> str:
    """Say what the usual start that does worst for the aim would give; "" if none does worse."""
    starts = list(_usual_starts(told))
    tried = told.trials.of([start for _, start in starts])
    named = [(name, trial) for (name, _), trial in zip(starts, tried, strict=True)]
    if told.plan.chips is not None and told.aim in (Aim.FEWEST_TILES, Aim.FEWEST_CUTS):
        return ""  # the trials count chips
    if told.aim is Aim.FEWEST_TILES:
        name, trial = max(named, key=lambda pair: pair[1].tiles)
        worse = trial.tiles > told.plan.whole + told.plan.cut
        return f"{name} would take {trial.tiles - told.plan.whole - told.plan.cut} more" if worse else ""
    if told.aim is Aim.FEWEST_CUTS:
        name, trial = max(named, key=lambda pair: pair[1].cuts)
        return f"{name} would make {trial.cuts}" if trial.cuts > told.plan.cut else ""
    name, trial = min(named, key=lambda pair: round(pair[1].narrowest, 3))
    if trial.narrowest > (told.plan.narrowest or 0.0) - _SHOWN:
        return ""
    layout = replace(told.plan.layout, start=trial.start)
    place = place_of_narrowest(plan(replace(job, layouts=(layout,)), layout.id))
    return f"{name} would leave {told.size(trial.narrowest)}{place}"


def _usual_starts(told: Told) -> Iterator[tuple[str, Start]]:
    """The starts a tiler would try first, by name."""
    trials, layout = told.trials, told.plan.layout
    low_x, low_y, high_x, high_y = told.plan.region.shape.bounds
    face = trials.placed.corners[0]
    middle, low = (face.min(axis=0) + face.max(axis=0)) / 2.0, face.min(axis=0)
    centre = np.array([(low_x + high_x) / 2.0, (low_y + high_y) / 2.0])
    for name, place, own in (
        ("the centred-tile start", centre, middle),
        ("the centred-joint start", centre, low - layout.joint / 2.0),
        ("the start with whole tiles from the left and the bottom", np.array([low_x, low_y]), low),
    ):
        x, y = place - own
        yield name, (float(x), float(y))


def _out_of_reach(told: Told) -> str:
    """Say that half a tile cannot be had in the field, if that is so."""
    if told.aim is not Aim.WIDEST_CUT or not told.plan.cut or len(told.plan.tiles) > 1:
        return ""
    best = told.plan.laid.components[0].narrowest_cut
    if best is None or best >= tile_width(told.plan.tile) / 2.0 - _SHOWN:
        return ""
    if told.is_proved:
        width, place = told.size(best), place_of_narrowest(told.plan)
        return f"no start leaves half a tile in {laid_as(told.plan.layout)} here, the best is {width}{place}"
    return f"no start that leaves half a tile in {laid_as(told.plan.layout)} was found"


def _how_certain(told: Told) -> str:
    """Say of a widest cut that is not proved how far it was looked for something better."""
    if told.aim is not Aim.WIDEST_CUT or told.is_proved or not told.plan.cut:
        return ""
    near = "no start a quarter of a millimetre from it is better"
    best = told.plan.narrowest or 0.0
    if told.at_most is None or told.at_most >= tile_width(told.plan.tile) - _SHOWN:
        return near
    if told.at_most <= best + NEAR:
        return f"{near}, and none anywhere by more than {told.size(NEAR)}, which is proved"
    return f"{near}, and it is proved that none leaves more than {told.size(told.at_most)}"


def _left_bare(told: Told) -> str:
    count = len(told.plan.bare_patches)
    return (
        f"leaves {count} place{'s'[: count != 1]} bare where a tile would be too thin to cut" if count else ""
    )


def laid_as(layout: Layout) -> str:
    """Return what the pattern is called after "in"."""
    offsets = sorted({round(float(each) % 1.0, 3) for each in layout.settings.get("row_offsets", (0.0,))})
    if layout.pattern != "rows":
        return patterns.pattern(layout.pattern).NAME.lower()
    if offsets in ([0.0], [0.0, 0.5]):
        return "a plain grid" if len(offsets) == 1 else "half bond"
    if set(offsets) <= {0.0, 0.333, 0.667}:
        return "a third offset"
    return "these row offsets"
