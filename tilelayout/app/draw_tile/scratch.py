"""The cell that is drawn, as a job of its own: every outline is a surface, the vectors stand in a layout.

So the tools that draw a room draw a tile, with their snaps, typed sizes, gestures and undo. Nothing of this
job reaches the person's own but the draft that is read from it.
"""

from __future__ import annotations

from msgspec import structs

from tilelayout.base.errors import EditError
from tilelayout.base.units import LengthStyle
from tilelayout.geometry.turns import turning
from tilelayout.job.edits.ids import free_id
from tilelayout.job.edits.surfaces import add_surface, move_surface, set_outline
from tilelayout.job.values import Job, Layout, Point, Surface
from tilelayout.layout.drafts import Draft

_BASE = "tile"


def scratch_of(draft: Draft, style: LengthStyle) -> Job:
    """Return the job to draw on, its lengths shown in this style."""
    held = Layout(
        id="cell", surface="", tile="", joint=draft.joint, settings={"vectors": draft.vectors}, gap=0.0
    )
    job = Job(show_lengths=style, layouts=(held,))
    for outline in draft.outlines:
        job = with_outline(job, outline)
    return job


def draft_in(job: Job) -> Draft:
    """Return what is drawn so far."""
    (held,) = job.layouts
    return Draft(tuple(each.outline for each in job.surfaces), held.settings["vectors"], held.joint)


def with_draft(job: Job, draft: Draft) -> Job:
    """Return the job with outlines added that a draft has beyond those there are, and its vectors."""
    for outline in draft.outlines[len(job.surfaces) :]:
        job = with_outline(job, outline)
    return with_vectors(job, draft.vectors)


def number_of(job: Job, id: str) -> int:
    """Return the number of an outline, from 0; 0 if there is none of this id."""
    return next((at for at, each in enumerate(job.surfaces) if each.id == id), 0)


def with_outline(job: Job, outline: tuple[Point, ...]) -> Job:
    """Return the job with one more outline."""
    return add_surface(job, Surface(id=free_id([each.id for each in job.surfaces], _BASE), outline=outline))


def with_vector(job: Job, number: int, vector: Point) -> Job:
    """Return the job with another vector in place of the first (0) or second (1)."""
    vectors = list(draft_in(job).vectors)
    vectors[number] = vector
    return with_vectors(job, (vectors[0], vectors[1]))


def with_vectors(job: Job, vectors: tuple[Point, Point]) -> Job:
    """Return the job with two other vectors."""
    return _held(job, settings={"vectors": vectors})


def with_joint(job: Job, joint: float) -> Job:
    """Return the job with another joint; the vectors, which include it, grow or shrink as much each."""
    by = joint - draft_in(job).joint
    first, second = (_longer(vector, by) for vector in draft_in(job).vectors)
    return with_vectors(_held(job, joint=joint), (first, second))


def with_copy(job: Job, id: str, turn: float) -> Job:
    """Return the job with a copy of an outline, turned by `turn` degrees, set down on its right."""
    outline = job.surface(id).outline
    copied = _turned(outline, turn)
    right = max(x for x, _ in outline) + draft_in(job).joint - min(x for x, _ in copied)
    return with_outline(job, tuple((x + right, y) for x, y in copied))


def turned(job: Job, id: str, turn: float) -> Job:
    """Return the job with an outline turned by `turn` degrees, the lower left of its box where it was."""
    outline = job.surface(id).outline
    after = _turned(outline, turn)
    (left, low), (left_now, low_now) = corner_of(outline), corner_of(after)
    moved = tuple((x + left - left_now, y + low - low_now) for x, y in after)
    return set_outline(job, id, moved)


def moved_to(job: Job, id: str, corner: Point) -> Job:
    """Return the job with the lower left of an outline's box at `corner`."""
    left, low = corner_of(job.surface(id).outline)
    return move_surface(job, id, (corner[0] - left, corner[1] - low))


def without_outline(job: Job, id: str) -> Job:
    """Return the job without an outline. EditError if it is the last."""
    if len(job.surfaces) < 2:
        raise EditError("A cell has at least one tile.", "Draw another first, or change this one.")
    return structs.replace(job, surfaces=tuple(each for each in job.surfaces if each.id != id))


def corner_of(outline: tuple[Point, ...]) -> Point:
    """Return the lower left of an outline's box."""
    return min(x for x, _ in outline), min(y for _, y in outline)


def _held(job: Job, **changes: object) -> Job:
    return structs.replace(job, layouts=(structs.replace(job.layouts[0], **changes),))


def _turned(outline: tuple[Point, ...], turn: float) -> tuple[Point, ...]:
    cosine, sine = turning(turn)[0].tolist()
    return tuple((x * cosine - y * sine + 0.0, x * sine + y * cosine + 0.0) for x, y in outline)


def _longer(vector: Point, by: float) -> Point:
    """Return a vector that leads `by` further, across if it leads across and up if it leads up."""
    across, up = ((value > 0.0) - (value < 0.0) for value in vector)
    return vector[0] + across * by, vector[1] + up * by
