"""`tilelayout seek`: looks for the starts that suit an aim best and ranks them."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Protocol, TypeVar

import msgspec

from tilelayout.base.errors import JobFileError, LayoutError
from tilelayout.base.units import format_length
from tilelayout.cli.alternatives_told import alternatives_json, alternatives_text
from tilelayout.cli.stopping import tell_progress
from tilelayout.cli.trouble import DONE, CallError
from tilelayout.job.canonical import tree_of_value
from tilelayout.job.limits import JOINT
from tilelayout.job.values import Job
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.alternatives import alternatives
from tilelayout.planning.open_job import open_job
from tilelayout.planning.seek import Found, Wish, seek

_DECIMALS = 6
_ALL = "all"


def seek_call(call: Namespace) -> int:
    """Carry out a call of `seek`."""
    is_all = call.alternatives or call.aim == _ALL
    wish = Wish(
        aim=Aim.BALANCED if call.aim == _ALL else Aim(call.aim),
        most=call.most,
        angles=tuple(call.angle or ()),
        row_offsets=tuple(call.row_offsets or ()),
        joints=_joints(call),
    )
    if is_all:
        return seek_alternatives(call.job, call.surface, call.tile, wish, call.json)
    return seek_layouts(call.job, call.surface, call.tile, wish, call.json)


def _joints(call: Namespace) -> tuple[float, float] | None:
    """Return the joints allowed, least and greatest. CallError if the range is none."""
    if call.joint_from is None and call.joint_to is None:
        return None
    if call.joint_from is None or call.joint_to is None:
        raise CallError("A range of joints has two ends.", "Give both --joint-from and --joint-to.")
    for length in (call.joint_from, call.joint_to):
        for problem in JOINT.problems(length, "joint"):
            raise CallError(problem.what, problem.mend)
    if call.joint_from > call.joint_to:
        raise CallError("--joint-from is more than --joint-to.", "Exchange the two.")
    return call.joint_from, call.joint_to


def seek_layouts(path: Path, surface_id: str, tile_id: str | None, wish: Wish, wants_json: bool) -> int:
    """Print what was found, return the exit status. JobFileError if the job cannot be read or sought in."""
    job = open_job(path)
    last = _run(path, job, seek(job, surface_id, tile_id, wish))
    sys.stdout.write(as_json(last.found) if wants_json else as_text(job, last.found))
    sys.stdout.flush()
    return DONE


def seek_alternatives(path: Path, surface_id: str, tile_id: str | None, wish: Wish, wants_json: bool) -> int:
    """Print the layouts that nothing else beats, as `seek_layouts` does."""
    job = open_job(path)
    last = _run(path, job, alternatives(job, surface_id, tile_id, wish))
    sys.stdout.write(alternatives_json(last) if wants_json else alternatives_text(job, last))
    sys.stdout.flush()
    return DONE


class _Told(Protocol):
    """What every step of a search tells."""

    @property
    def done(self) -> float: ...
    @property
    def narrowest(self) -> float: ...
    @property
    def slivers(self) -> int: ...


S = TypeVar("S", bound=_Told)


def _run(path: Path, job: Job, steps: Iterator[S]) -> S:
    """Go through all steps, telling on standard error whenever there is something new to tell."""
    told = ""
    try:
        for step in steps:
            slivers = f"{step.slivers} sliver{'s'[: step.slivers != 1]}"
            best = f"narrowest cut {format_length(step.narrowest, job.show_lengths)}, {slivers}"
            tenths = int(step.done * 10.0)
            if f"{tenths} {best}" != told:
                told = f"{tenths} {best}"
                tell_progress(f"seeking {tenths * 10} %: best so far {best}")
    except LayoutError as error:
        raise JobFileError(error.what, error.mend, file=str(path)) from error
    return step


def as_json(found: tuple[Found, ...]) -> str:
    """Return the document, ending in a line feed."""
    is_proved = bool(found) and found[0].is_proved
    return msgspec.json.encode({"found": [_tree(one) for one in found], "proved": is_proved}).decode() + "\n"


def _tree(found: Found) -> dict[str, Any]:
    return {
        "layout": tree_of_value(found.layout),
        "slivers": found.slivers,
        "narrowest": None if found.narrowest is None else round(found.narrowest, _DECIMALS),
        "tiles_needed": found.tiles_needed,
        "cuts": found.cuts,
        "why": found.why,
        "proved": found.is_proved,
        "narrowest_at_most": None
        if found.narrowest_at_most is None
        else round(found.narrowest_at_most, _DECIMALS),
    }


def as_text(job: Job, found: tuple[Found, ...]) -> str:
    """Return what was found for a person at a terminal, best first."""
    first = found[0].layout
    lines = [
        f"Layouts of {job.surface(first.surface).title} with {job.tile(first.tile).title}, best first",
        "",
    ]
    for number, one in enumerate(found, start=1):
        lines += _lines(job, number, one)
    lines.append(_certainty(found[0]))
    return "\n".join(lines) + "\n"


def _lines(job: Job, number: int, found: Found) -> list[str]:
    style, layout = job.show_lengths, found.layout
    x, y = (format_length(at, style) for at in layout.start)
    narrowest = "-" if found.narrowest is None else format_length(found.narrowest, style)
    return [
        f"  {number}.  start at {x} to the right and {y} up, turned {layout.angle:g} degrees, "
        f"joint {format_length(layout.joint, style)}",
        f"      narrowest cut {narrowest}, slivers {found.slivers}, cut pieces {found.cuts}, "
        f"tiles to open {found.tiles_needed}",
        f"      {found.why}",
        "",
    ]


def _certainty(found: Found) -> str:
    if found.is_proved:
        return "The first is the best there is: no start leaves a wider narrowest cut."
    return "No start a quarter of a millimetre from the first is better; one further off may be."
