"""Edits of what a surface is built of: background, wetness, layers, adhesive, and trims along its edges."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tilelayout.job.checks import known_ids, tile_of_trim_problems
from tilelayout.job.edits.parts import allowed, changed
from tilelayout.job.ground import Adhesive, Layer, Trim
from tilelayout.job.kinds import Background, Exposure, Wetness
from tilelayout.job.surface_checks import surface_problems
from tilelayout.job.values import Job, Surface


def set_background(job: Job, id: str, background: Background | None) -> Job:
    """Return the job with what the tile of a surface is stuck to; None if it is not known."""
    return _with(job, id, background=background)


def set_wetness(job: Job, id: str, wetness: Wetness | None) -> Job:
    """Return the job with how wet a surface gets; None if it is not known."""
    return _with(job, id, wetness=wetness)


def set_exposure(job: Job, id: str, exposure: Exposure | None) -> Job:
    """Return the job with a surface inside, in the sun or outside; None if it is not known."""
    return _with(job, id, exposure=exposure)


def set_layers(job: Job, id: str, layers: Iterable[Layer]) -> Job:
    """Return the job with the layers of a surface, lowest first. EditError if one cannot be."""
    return _with(job, id, layers=tuple(layers))


def set_adhesive(job: Job, id: str, adhesive: Adhesive | None) -> Job:
    """Return the job with the adhesive of a surface. EditError if its class is not known or its bed wrong."""
    return _with(job, id, adhesive=adhesive)


def set_trims(job: Job, id: str, trims: Iterable[Trim]) -> Job:
    """Return the job with the trims along a surface. EditError if a tile or an edge is not there."""
    new = _with(job, id, trims=tuple(trims))
    allowed(new, tile_of_trim_problems(new.surface(id), known_ids(new)))
    return new


def _with(job: Job, id: str, **changes: object) -> Job:
    def checked(old: Surface) -> Surface:
        new = replace(old, **changes)
        return allowed(new, surface_problems(new))

    return replace(job, surfaces=changed(job.surfaces, id, "surface", checked))
