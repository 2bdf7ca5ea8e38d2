"""How tiles lie on a surface, in words: one sentence for each tile to worry about, and for all of them."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.base.heights import format_height
from tilelayout.base.units import LengthStyle
from tilelayout.planning.sitting import Sitting
from tilelayout.planning.surface_words import place_words
from tilelayout.planning.worries import SHOWN, Trouble, Worry

MEANT = (
    "Tiles are taken as rigid plates laid dry on what was read; rocking is how far a corner sinks when it is "
    "pressed. A bed of mortar evens out what it is thick enough for."
)


def sits_words(found: Sitting) -> str:
    """Return whether the tiles of a layout sit: "Laid dry, 5 of 54 tiles rock or step more than ..."."""
    of, unread = len(dict.fromkeys(found.plates.ids)), len(found.unread)
    if found.worries:
        count = len(found.worries)
        how = "lies" if count == 1 else "lie"
        return f"{count} of {of} tiles {how} badly when laid dry. {_mend_words(found)}{_unread_words(unread)}"
    if found.lacks:
        return "Nothing was found, but the survey cannot show it: tiles may still rock."
    if unread:
        return f"The tiles on the readings sit. {_tiles(unread)} beyond them cannot be judged: measure there."
    return "Every tile sits when laid dry."


def _mend_words(found: Sitting) -> str:
    if found.can_be_set:
        return "The mortar takes it: set them to their neighbours in the bed, with a straightedge over them."
    return "The mortar does not take it everywhere: make the surface flat first."


def _unread_words(count: int) -> str:
    reach = "reaches" if count == 1 else "reach"
    return f" {_tiles(count)} {reach} beyond the readings and may be worse." if count else ""


def _tiles(count: int) -> str:
    return "1 tile" if count == 1 else f"{count} tiles"


def dry_words(found: Sitting) -> str:
    """Return the most that any tile does when laid dry: rocks, steps."""
    style, may = found.plan.style, min(each.step.value for each in found.by_tile.values())
    rock, step = format_height(found.rock, style), format_height(found.step, style)
    bow = "" if found.knows_bow else " (warpage not measured, so not counted)"
    return f"Laid dry: rocks {rock}, steps {step}{bow} at most; {format_height(may, style)} allowed."


def bed_words(found: Sitting) -> str:
    """Return the bed that all tiles need when they are set to one plane, beside what the mortar takes."""
    style = found.plan.style
    thin, thick = (format_height(value, style) for value in found.bed)
    most = max(each.most_bed.in_style(style) for each in found.by_tile.values())
    takes = found.bed[1] <= most + SHOWN
    so = "the mortar takes it" if takes else f"more than the {format_height(most, style)} that may be"
    return f"All set to one plane: bed from {thin} to {thick}, {so}."


def worries_words(found: Sitting) -> tuple[str, ...]:
    """Return a sentence for each tile to worry about, the worst first; a step told once is not told again."""
    return tuple(sentence for _, sentence in worries_told(found))


def worries_told(found: Sitting) -> Iterator[tuple[Worry, str]]:
    """Yield the same sentences, each with its tile."""
    told: set[frozenset[str]] = set()
    for worry in found.worries:
        joint = frozenset() if worry.step is None else frozenset((worry.id, worry.step.to))
        if worry.troubles != (Trouble.STEPS,) or joint not in told:
            yield worry, worry_words(worry, found.plan.style)
        if Trouble.STEPS in worry.troubles:
            told.add(joint)


def worry_words(worry: Worry, style: LengthStyle) -> str:
    """Return what is wrong with one tile and what to do: "C4 rocks 1.8 mm on the high spot at ..."."""
    parts = " and ".join(_trouble_words(worry, trouble, style) for trouble in worry.troubles)
    thin, thick = (format_height(value, style) for value in worry.bed)
    most = format_height(worry.most_bed, style)
    if not worry.needs_filler:
        return f"{worry.id} {parts}. In the common plane its bed is {thin} to {thick}, within {most}."
    return f"{worry.id} {parts}. Its bed would be {thin} to {thick}, {most} may be: fill there first."


def _trouble_words(worry: Worry, trouble: Trouble, style: LengthStyle) -> str:
    match trouble:
        case Trouble.ROCKS:
            where = place_words(worry.rocks_on, style)
            return f"rocks {format_height(worry.rock, style)} on the high spot at {where}"
        case Trouble.HOLLOW:
            return f"lies hollow by {format_height(worry.hollow, style)}"
        case Trouble.STEPS:
            return _step_words(worry, style)


def _step_words(worry: Worry, style: LengthStyle) -> str:
    step = worry.step
    assert step is not None
    worst, may = format_height(step.worst, style), format_height(worry.allowed.step.value, style)
    parts = ""
    if step.bow > 0.0:
        floor, bow = format_height(step.floor, style), format_height(step.bow, style)
        likely = format_height(step.likely, style)
        parts = f" ({floor} by the surface, {bow} by the bow; as likely {likely})"
    return f"steps {worst}{parts} to {step.to}, {may} allowed"
