"""Works out whether tiles sit, step by step: the layout in front first, then every tile on every surface."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from tilelayout.job.values import Job
from tilelayout.planning.sitting import Sitting, sitting_steps
from tilelayout.planning.tiles_on_surfaces import TileOnSurface, tiles_on_surfaces_steps


@dataclass(frozen=True, eq=False)
class SitAnswer:
    """What is known so far. `done` of `of` plates lie on the surface; `is_laid` claims that all do.

    `sitting` stays None where no layout is in front or only lines are known. `is_tried` claims that `tried`
    holds all there is.
    """

    done: int = 0
    of: int = 0
    sitting: Sitting | None = None
    is_laid: bool = False
    tried: tuple[TileOnSurface, ...] = ()
    is_tried: bool = False


def sit_answering(job: Job, layout_id: str | None, at: int) -> Iterator[SitAnswer]:
    """Yield the answer as it grows. TileLayoutError if the layout or the readings cannot be laid."""
    answer = SitAnswer()
    if layout_id is not None:
        for step in sitting_steps(job, layout_id, at):
            answer = replace(answer, done=step.done, of=step.of, sitting=step.sitting)
            yield answer
    answer = replace(answer, is_laid=True)
    yield answer
    for tried in tiles_on_surfaces_steps(job):
        answer = replace(answer, tried=tried)
        yield answer
    yield replace(answer, is_tried=True)
