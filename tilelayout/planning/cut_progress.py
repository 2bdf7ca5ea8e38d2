"""How far the sawing is, and which ticks no longer fit, in words."""

from __future__ import annotations

from tilelayout.job.cuts_made import CutMade
from tilelayout.planning.saw_words import surfaces_words
from tilelayout.planning.ticks import Made, Ticks
from tilelayout.planning.to_saw import ToSaw

_MOST_NAMES = 6


def progress_words(ticks: Ticks, made: Made) -> str:
    """Return how many cuts are made and how many pieces are finished."""
    cuts, done = len(ticks.says), ticks.count(ticks.says, made)
    pieces, finished = len(ticks.found.of.pieces), len(ticks.pieces_made(made))
    if done == cuts:
        return f"All {cuts} cuts are made." if cuts > 1 else "The cut is made."
    return f"{done} of {cuts} cuts made, {finished} of {pieces} pieces finished"


def left_over_words(cuts: tuple[CutMade, ...], what: ToSaw) -> str:
    """Return whose ticks no longer fit and what to do; "" if there are none."""
    pieces = tuple(dict.fromkeys(_name(cut, what) for cut in cuts))
    if not pieces:
        return ""
    named = ", ".join(pieces[:_MOST_NAMES])
    more = f" and {len(pieces) - _MOST_NAMES} more" if len(pieces) > _MOST_NAMES else ""
    one = len(pieces) == 1
    return (
        f"{named}{more} {'was' if one else 'were'} ticked for an earlier plan and {'is' if one else 'are'} "
        "not cut like that now. Undo what changed the pieces, or forget these ticks."
    )


def _name(cut: CutMade, what: ToSaw) -> str:
    """Return what the piece of a tick is called on the list; its id if its layout is not on it."""
    made = next((made for made in what.plans if made.layout.id == cut.layout), None)
    return cut.piece if made is None else what.name_of(cut.piece, made)


def about_words(ticks: Ticks, *, is_final: bool) -> str:
    """Return what the list holds if that is not plain: a layout by itself, several surfaces, not final."""
    what = ticks.found.of
    said = []
    if not is_final:
        said.append(f"Looking for a plan with fewer tiles; {what.sharing.tiles_needed} so far.")
    said += surfaces_words(what)
    if not what.is_whole_job and not what.trouble:
        title = what.plans[0].layout.title
        said.append(f"{title} is not the one to be laid: this is what it would take by itself.")
    return " ".join(said)
