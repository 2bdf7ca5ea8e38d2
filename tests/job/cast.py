"""The rooms that the tests of the job speak of, and how to make small jobs of them."""

from __future__ import annotations

import copy
import json
from typing import Any

from tilelayout.job.files import job_from_bytes
from tilelayout.job.values import Job

POTTING_SHED: dict[str, Any] = {
    "format": "tilejob",
    "version": 1,
    "title": "Potting shed",
    "show_lengths": "inch",
    "practice": "us",
    "saw": {"kerf": 2.0},
    "surfaces": [
        {
            "id": "floor",
            "kind": "floor",
            "outline": [[0, 0], ["12 ft", 0], ["12 ft", "8 ft"], [0, "8 ft"]],
            "edges": [{"at": 0, "is": "doorway"}],
            "cutouts": [
                {"name": "drain", "circle": {"centre": [600, 600], "diameter": 110}, "clearance": 3},
                {"name": "post", "polygon": [[2000, 900], [2100, 900], [2100, 1000], [2000, 1000]]},
            ],
        }
    ],
    "tiles": [
        {
            "id": "slate-look",
            "name": "Slate look 300 x 600",
            "shape": "rectangle",
            "length": 597,
            "width": 297,
            "thickness": 9.5,
            "edge": "rectified",
            "directional": False,
            "per_box": 8,
            "price_per_box": 32.0,
            "whole_on_hand": 0,
        }
    ],
    "layouts": [
        {
            "id": "A",
            "surface": "floor",
            "tile": "slate-look",
            "pattern": "rows",
            "row_offsets": [0, 0.3333333333],
            "joint": 3,
            "angle": 0,
            "start": [0, 0],
            "gap": 6,
            "least_piece": 5,
        }
    ],
    "surveys": [{"surface": "floor", "points": [[0, 0, 0.0], [300, 0, 1.2], [600, 0, 0.4]]}],
}
"""A plain floor with a doorway, a drain and a post."""

BAY: dict[str, Any] = {
    "format": "tilejob",
    "version": 1,
    "title": "Bay window",
    "surfaces": [
        {
            "id": "bay",
            "outline": [[0, 0], [3000, 0], [3000, 2000], [0, 2000]],
            "edges": [
                {"at": 1, "through": [3000.1, 1000.3], "name": "bow"},
                {"at": 2, "is": "open", "through": [1500, 2700], "seen": "looked-at"},
            ],
        },
        {"id": "step", "kind": "wall", "outline": [[0, 0], [900, 0], [0, 180]]},
    ],
    "tiles": [{"id": "comb", "shape": "hexagon", "across_flats": 228.6}],
    "layouts": [
        {"id": "A", "surface": "bay", "tile": "comb", "pattern": "hexagon", "up": "flat"},
        {"id": "B", "surface": "step", "tile": "comb", "pattern": "hexagon"},
    ],
    "surveys": [{"surface": "bay", "points": [[0, 0, 0], [500, 0, 2.5]]}],
}
"""A floor with two bowed edges and the riser before it, both in hexagons."""


def in_bytes(tree: object) -> bytes:
    """Return a tree as the bytes of a file."""
    return json.dumps(tree).encode()


def job_of(tree: object) -> Job:
    """Return the job of a tree."""
    return job_from_bytes(in_bytes(tree))


def with_change(tree: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    """Return a copy of the tree with another value at a path such as "tiles 0 length"; ... takes it away."""
    changed: Any = copy.deepcopy(tree)
    *steps, last = (int(step) if step.lstrip("-").isdigit() else step for step in path.split())
    target = changed
    for step in steps:
        target = target[step]
    if value is ...:
        del target[last]
    elif isinstance(target, list) and last == len(target):
        target.append(value)
    else:
        target[last] = value
    return dict(changed)
