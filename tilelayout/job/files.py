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
  points; the mosaic sheets "mosaic" with `chip_length` and `chip_width`, "hexagon-mosaic" with `across_flats`
  and "round-mosaic" with `diameter`, each with `chips_across`, `chips_up` and `chip_joint`;
- a layout's `more_tiles`: by role, the ids of the further tiles that its pattern takes ({"dot": "dot-85"});
- a layout's `border`: `tile`, `rows`, `joint`, `corners` ("mitred", "butted"), `begin` ("balanced",
  "corner"), `inset`, `left_out` (edges counted from 0);
- `show_lengths`: "mm", "cm", "m", "inch", "feet", "decimal-feet";
- a surface's, a layout's and a survey's `name`;
- a survey's `tool` ("laser", "straightedge", "level", "other"), its `resolution`, and beside or instead of
  `points` a list `straightedge` of {"from", "to", "along", "gap"};
- a survey's `preparation`: its `way` ("least-fill", "level", "plane", "grind-and-fill"), the product by its
  bag (`bag_litres`, `thinnest`, `deepest`), `most_ground`, a litre's cost (`fill_cost`, `grind_cost`), and
  `meets`, the heights that a plane has to meet: each a place `at` or a line from there `to`, its `name`, its
  `height` counted as the readings are, and where the surface falls to it from its rim `fall_percent` and
  `across`, the width of the place;
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
  `narrow` pieces one breaks, or the number of `tiles` or the `percent` of them that a person allows;
- `cuts_made`: what is ticked off the cut list, each the `layout` and `piece` with a `mark` of what was cut.
"""

from __future__ import annotations

import os
from pathlib import Path

from tilelayout.base.errors import JobFileError
from tilelayout.job.canonical import canonical_bytes
from tilelayout.job.checks import job_problems
from tilelayout.job.envelope import FileKind, keys_in, read_content, write_content
from tilelayout.job.frozen import frozen
from tilelayout.job.strict import read_as
from tilelayout.job.values import Job, Layout

JOB_FILE = FileKind("tilejob", 1, "job")


def read_job(path: str | os.PathLike[str]) -> Job:
    """Return the job in the file. JobFileError if there is none or it is not right."""
    return job_from_bytes(read_content(Path(path), JOB_FILE), os.fspath(path))


def job_from_bytes(content: bytes, file: str = "") -> Job:
    """Return the job that `content` holds; `file` is what an error calls it. JobFileError if not right."""
    job = read_as(Job, _with_settings_apart(keys_in(content, JOB_FILE, file)), file=file)
    for problem in job_problems(job):
        raise JobFileError(problem.what, problem.mend, file=file, place=problem.place)
    return job


def job_to_bytes(job: Job) -> bytes:
    """Return the file's bytes; the same job always gives the same."""
    return canonical_bytes(job, JOB_FILE)


def write_job(job: Job, path: str | os.PathLike[str]) -> None:
    """Write the job to the file, whole or not at all. JobFileError if that cannot be done."""
    write_content(Path(path), job_to_bytes(job))


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
