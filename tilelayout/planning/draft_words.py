"""What is wrong with a cell that a person draws, in words and in the job's own lengths, and what would do."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from tilelayout.base.said_lengths import format_exact
from tilelayout.base.units import LengthStyle, format_area
from tilelayout.geometry.rings import area
from tilelayout.job.values import Point
from tilelayout.layout.drafts import Draft, Fit, Pair

_STRAIGHT = 1e-6


def fit_words(draft: Draft, fit: Fit, style: LengthStyle) -> str:
    """Return in a sentence or two whether the tiles fill the plane, what is wrong, and what would do."""
    if fit.fills:
        return f"The tiles fill the plane with a joint of {length_words(draft.joint, style)} everywhere."
    return " ".join((_wrong_words(draft, fit, style), *mended_words(draft, fit, style)))


def mended_words(draft: Draft, fit: Fit, style: LengthStyle) -> Iterator[str]:
    """Yield for each vector that is off what it would have to be; a sentence if nothing is found to do."""
    if fit.mended is None:
        yield "No vectors are found with which these tiles do: change an outline, or add a tile or a copy."
        return
    for number, (drawn, mended) in enumerate(zip(draft.vectors, fit.mended, strict=True), start=1):
        if drawn != mended:
            yield f"Vector {number} would have to be {_vector_words(drawn, mended, style)}."


def length_words(mm: float, style: LengthStyle) -> str:
    """Return a length of a drawn cell as finely as it matters there, with its sign.

    >>> length_words(1.984375, LengthStyle.INCH), length_words(-304.25, LengthStyle.MM)
    ('5/64"', '-304.25 mm')
    """
    return format_exact(mm, style)


def _wrong_words(draft: Draft, fit: Fit, style: LengthStyle) -> str:
    if fit.is_too_tight:
        return _too_tight_words(draft, style)
    if fit.worst is not None:
        return _pair_words(fit.worst, draft.joint, style)
    free = sum(area(ring) for ring in fit.gaps) / 9.0
    return f"{format_area(free, style)} of every cell stay empty."


def _too_tight_words(draft: Draft, style: LengthStyle) -> str:
    (a, b), (c, d) = draft.vectors
    longest = max(hypot(a, b), hypot(c, d))
    if abs(a * d - b * c) < _STRAIGHT * longest**2 or longest == 0.0:
        return "The two vectors lead in one direction."
    size = max(max(values) - min(values) for ring in draft.outlines for values in zip(*ring, strict=True))
    if min(hypot(a, b), hypot(c, d)) < size / 8:
        return "The vectors are so short that many tiles lie on each other."
    return f"A joint of {length_words(draft.joint, style)} closes a notch of a tile, or an outline crosses."


def _pair_words(pair: Pair, joint: float, style: LengthStyle) -> str:
    both = f"{_tile_words(pair.first)} and {_beside_words(pair)}"
    both = both[:1].upper() + both[1:]
    if pair.apart < 0.0:
        return f"{both} overlap by {length_words(-pair.apart, style)}."
    between = "only " if pair.apart < joint else ""
    return (
        f"{both} are {between}{length_words(pair.apart, style)} apart, "
        f"and the joint is {length_words(joint, style)}."
    )


def _tile_words(number: int) -> str:
    return f"tile {number + 1}"


def _beside_words(pair: Pair) -> str:
    """Return what to call the second tile of a pair: "the next one along vector 2"."""
    other = _tile_words(pair.second)
    if pair.steps == (0, 0):
        return other
    if pair.steps in ((1, 0), (0, 1)):
        next_one = "the next one" if pair.first == pair.second else f"{other} of the next cell"
        return f"{next_one} along vector {1 + pair.steps.index(1)}"
    steps = " and ".join(_step_words(count, at) for at, count in enumerate(pair.steps, start=1) if count)
    return f"{other} of the cell {steps}"


def _step_words(count: int, number: int) -> str:
    many = "one step" if abs(count) == 1 else f"{abs(count)} steps"
    return f"{many} {'back' if count < 0 else 'on'} along vector {number}"


def _vector_words(drawn: Point, mended: Point, style: LengthStyle) -> str:
    """Return the length if only that differs, else how far across and up."""
    turn = drawn[0] * mended[1] - drawn[1] * mended[0]
    ahead = drawn[0] * mended[0] + drawn[1] * mended[1]
    if ahead > 0.0 and abs(turn) < _STRAIGHT * ahead:
        return f"{length_words(hypot(*mended), style)} long"
    across, up = (length_words(value, style) for value in mended)
    return f"{across} across and {up} up"
