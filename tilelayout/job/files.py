"""Reads and writes job files (`*.tilejob`, UTF-8 JSON).

Reading is strict and every error names the file, the place and the mend; writing gives the same bytes for
the same job, and never leaves half a file.

A layout's keys that are not fields of `Layout` belong to its pattern: they travel in `Layout.settings` and
stand flat beside the others in the file. Beyond the plain surface, tile and layout, the format knows:

- an edge's `seen` ("hidden", "ordinary", "looked-at"), its `name`, and `through`, a point that makes the
  edge an arc, from corner to corner through it;
- the tile shapes "hexagon" with `across_flats`; "octagon" with `across_flats` and `side`;
  "parallelogram" with `length`, `width`, `angle` and `left_and_right`; "rhombus" with `side` and `angle`;
  "triangle" with `side`; "picket" with `length`, `width` and `point`; "polygon" with its `outline`, a list of
  points;
- a layout's `more_tiles`: by role, the ids of the further tiles that its pattern takes ({"dot": "dot-85"});
- a layout's `border`: `tile`, `rows`, `joint`, `corners` ("mitred", "butted"), `begin` ("balanced",
  "corner"), `inset`, `left_out` (edges counted from 0);
- `show_lengths`: "mm", "cm", "m", "inch", "feet", "decimal-feet";
- a surface's, a layout's and a survey's `name`;
- a survey's `tool` ("laser", "straightedge", "level", "other"), its `resolution`, and beside or instead of
  `points` a list `straightedge` of {"from", "to", "along", "gap"};
- what the trade's rules judge by, all of which may be left out: of a surface its `background`, `wetness`
  ("dry", "wet", "immersed"), `exposure` ("inside", "sunlit", "outside"), `layers` (each a `thickness`, with a
  `name` and what it `is`: "preparation", "board", "membrane", "bed", "tile", "covering"), `adhesive` (its
  `class`, `bed` as [least, most], `notch`) and `trims` (each a `kind`: "base", "cap", "threshold", "return";
  `tile`, `height`, `edges`, `factory_edge_up`, `corners`: "butt" or "mitre"); of an edge `meets`, or `beyond`
  in layers, `door` and `bevelled`; of a cutout what it `is` ("flange", "appliance"), `meets` and `tall`;
- of a tile `weight_kg` or `weight_kg_per_m2`, `absorption_percent`, `warpage`, `spread`, `nominal`, `spare`;
- of a tile what is on hand beside `whole_on_hand`: `offcuts`, each its `length` and `width` with the
  `factory` edges it still has ("left", "right", "lower", "upper" of the tile lying face up) or its `outline`
  in tile coordinates, `lot` and `count`; the `lot` of the whole tiles, and `mixed_lots` if lots may be mixed;
- `practice`: "us", "uk", "de", "au"; and `breakage`: of how many `straight` cuts, `notch`es, `hole`s and
  `narrow` pieces one breaks, or the number of `tiles` that a person allows.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path

from tilelayout.base.errors import JobFileError
from tilelayout.base.whole_files import write_whole
from tilelayout.job.canonical import FORMAT, VERSION, canonical_bytes
from tilelayout.job.checks import job_problems
from tilelayout.job.frozen import frozen
from tilelayout.job.json_trees import tree_of
from tilelayout.job.limits import LARGEST_FILE
from tilelayout.job.strict import read_as
from tilelayout.job.values import Job, Layout


def read_job(path: str | os.PathLike[str]) -> Job:
    """Return the job in the file. JobFileError if there is none or it is not right."""
    return job_from_bytes(_content(Path(path)), os.fspath(path))


def job_from_bytes(content: bytes, file: str = "") -> Job:
    """Return the job that `content` holds; `file` is what an error calls it. JobFileError if not right."""
    if len(content) > LARGEST_FILE:
        raise _too_large(len(content), file)
    tree = _without_envelope(tree_of(content, file), file)
    job = read_as(Job, _with_settings_apart(tree), file=file)
    for problem in job_problems(job):
        raise JobFileError(problem.what, problem.mend, file=file, place=problem.place)
    return job


def job_to_bytes(job: Job) -> bytes:
    """Return the file's bytes; the same job always gives the same."""
    return canonical_bytes(job)


def write_job(job: Job, path: str | os.PathLike[str]) -> None:
    """Write the job to the file, whole or not at all. JobFileError if that cannot be done."""
    try:
        write_whole(Path(path), job_to_bytes(job))
    except OSError as error:
        mend = "The file is as it was. Make room, or save it under another name or in another folder."
        raise JobFileError(f"It could not be saved: {_reason(error)}.", mend, file=os.fspath(path)) from None


def _content(path: Path) -> bytes:
    try:
        state = path.stat()
        if stat.S_ISDIR(state.st_mode):
            raise JobFileError("This is a folder.", "Choose a job file in it.", file=str(path))
        if not stat.S_ISREG(state.st_mode):
            raise JobFileError("This is no ordinary file.", "Choose a job file.", file=str(path))
        if state.st_size > LARGEST_FILE:
            raise _too_large(state.st_size, str(path))
        return path.read_bytes()
    except FileNotFoundError:
        mend = "Check the name and the folder."
        raise JobFileError("There is no such file.", mend, file=str(path)) from None
    except (OSError, ValueError) as error:
        mend = "Check the name, and that you may read the file."
        raise JobFileError(f"It cannot be read: {_reason(error)}.", mend, file=str(path)) from None


def _too_large(size: int, file: str) -> JobFileError:
    what = f"The file has {size / 2**20:.1f} MB; a job has at most {LARGEST_FILE // 2**20} MB."
    return JobFileError(what, "Choose a job file.", file=file)


def _reason(error: Exception) -> str:
    said = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return said[:1].lower() + said[1:]


def _without_envelope(tree: object, file: str) -> dict[str, object]:
    """Return the job's own keys, once format and version say that they can be read."""
    if not isinstance(tree, dict):
        mend = 'It begins with {"format": "tilejob", "version": 1.'
        raise JobFileError("This is no job: a group of keys is wanted.", mend, file=file)
    _check_format(tree, file)
    _check_version(tree, file)
    return {key: value for key, value in tree.items() if key not in ("format", "version")}


def _check_format(tree: dict[str, object], file: str) -> None:
    if "format" not in tree:
        what, mend = "The file does not say that it is a job.", f'Begin it with "format": "{FORMAT}".'
        raise JobFileError(what, mend, file=file, place="format")
    if tree["format"] != FORMAT:
        what = f"The format is not “{FORMAT}”."
        raise JobFileError(what, "Choose a job file.", file=file, place="format")


def _check_version(tree: dict[str, object], file: str) -> None:
    version = tree.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        what = "The version is missing." if version is None else "The version is no number of a version."
        raise JobFileError(what, f'Write "version": {VERSION}.', file=file, place="version")
    if version > VERSION:
        what = f"The file is of version {version}; this program reads up to version {VERSION}."
        raise JobFileError(what, "Open it with a newer program.", file=file, place="version")


def _with_settings_apart(tree: dict[str, object]) -> dict[str, object]:
    """Return the tree with each layout's pattern keys gathered under `settings`."""
    layouts = tree.get("layouts")
    if not isinstance(layouts, list):
        return tree
    return tree | {"layouts": [_one_apart(item) if isinstance(item, dict) else item for item in layouts]}


def _one_apart(layout: dict[str, object]) -> dict[str, object]:
    own = set(Layout.__struct_fields__) - {"settings"}
    settings = {key: frozen(value) for key, value in layout.items() if key not in own}
    return {key: value for key, value in layout.items() if key in own} | {"settings": settings}
