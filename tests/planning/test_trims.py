"""Trims as they are told: strips wall by wall, where their joints lie, why a tile gives so many."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from tests.practice.cases import job_of
from tilelayout.base.units import LengthStyle
from tilelayout.job.ground import Trim
from tilelayout.job.kinds import TrimCorners, TrimKind
from tilelayout.job.values import Edge, EdgeRole, Job, Saw
from tilelayout.planning.trims import TrimPlan, possible_trims, trim_plan, trim_trouble, trims_of

MM = LengthStyle.MM
DOOR = Edge(at=0, role=EdgeRole.DOORWAY)


def job(*trims: Trim, edges: tuple[Edge, ...] = (DOOR,)) -> Job:
    """Return a job of a 298 mm tile, 10 mm thick, on 3000 x 2400 with a doorway all along the bottom."""
    made = job_of(298.0, 298.0, style=MM, joint=2.0, tile={"thickness": 10.0}, surface={"edges": edges})
    surface = replace(made.surfaces[0], trims=trims)
    return replace(made, surfaces=(surface,), saw=Saw(kerf=2.5))


def base(height: float = 75.0, **keys: Any) -> Trim:
    return Trim(tile="t", height=height, **keys)


def planned(trim: Trim) -> TrimPlan:
    (made,) = trims_of(job(trim), "A")
    return made


def test_the_published_case_says_two_and_why() -> None:
    """published-checks A2: 298 mm, 75 mm, kerf 2.5 give 3; needs table: 2 when each shows a factory edge."""
    assert planned(base()).why == (
        "2 to a tile, for each shows one of its 2 factory edges; 3 if sawn edges may show"
    )
    assert planned(base(factory_edge_up=False)).why == "3 to a tile"


def test_each_wall_says_its_length_and_its_strips_and_the_doorway_has_none() -> None:
    """By hand: 3000 less a butt of 10 + 2 is 2988, nine of 298 with joints of 2 and 288 left.

    Eight of 298 and their joints leave nothing of 2400, so the two ends are evened out to half a tile.
    """
    assert [run.words(MM) for run in planned(base()).runs] == [
        "right wall: 2400 mm; 2 of 149 mm and 7 of 298 mm",
        "top wall: 3000 mm; 9 of 298 mm and 1 of 288 mm",
        "left wall: 2400 mm; 7 of 298 mm and 1 of 288 mm",
    ]


def test_the_joints_lie_between_the_strips() -> None:
    """The second run gives way to the first by its depth and a joint, then a joint follows every 300 mm."""
    right, top, _ = planned(base()).runs
    assert right.begins == 0.0
    assert right.joints[:2] == pytest.approx([150.0, 450.0])
    assert top.begins == pytest.approx(12.0)
    assert top.joints[0] == pytest.approx(12.0 + 299.0)
    assert len(top.joints) == len(top.strips) - 1
    last = top.begins + sum(strip.length for strip in top.strips) + 2.0 * len(top.joints)
    assert last == pytest.approx(3000.0)


def test_flat_strips_are_wide_and_standing_ones_high() -> None:
    words = planned(base(100.0, kind=TrimKind.THRESHOLD, edges=(0,), corners=TrimCorners.MITRE)).words(MM)
    assert words.startswith("threshold 100 mm wide: 11 strips, 2980 mm in all")
    assert planned(base()).words(MM).startswith("base 75 mm high: 27 strips, 7728 mm in all")


def test_what_a_tile_cannot_give_is_left_out_where_the_rest_is_shown() -> None:
    mixed = job(base(400.0), base())
    assert [made.trim.height for made in possible_trims(mixed, mixed.surfaces[0], 2.0)] == [75.0]
    assert "No strip of 400 mm can be sawn" in trim_trouble(mixed, mixed.surfaces[0], 2.0)
    alone = job(base())
    assert trim_trouble(alone, alone.surfaces[0], 2.0) == ""


def test_a_wall_parted_by_a_doorway_names_its_parts() -> None:
    made = job(base())
    outline = ((0.0, 0.0), (1000.0, 0.0), (1800.0, 0.0), (3000.0, 0.0), (3000.0, 2400.0), (0.0, 2400.0))
    parted = replace(made.surfaces[0], outline=outline, edges=(Edge(at=1, role=EdgeRole.DOORWAY),))
    runs = trim_plan(replace(made, surfaces=(parted,)), parted, base(), 2.0).runs
    assert [run.title for run in runs][:2] == ["bottom wall, left part", "bottom wall, right part"]
