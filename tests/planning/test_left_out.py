from __future__ import annotations

import pytest

from tests.rooms import floor_of, round_cutout
from tilelayout.job.values import Job, Layout, RectangleTile
from tilelayout.planning.left_out import bare_words, strip_words
from tilelayout.planning.plan import Plan, plan

TILE = RectangleTile(id="t", length=297, width=297)


def laid(drain_at: float, width: float = 1200) -> Plan:
    """A floor of four by three tiles and joints with a drain in the lower left tile, 94 mm wide."""
    floor = floor_of((0, 0), (width, 0), (width, 900), (0, 900), cutouts=(round_cutout(drain_at, 150, 94),))
    layout = Layout(id="A", surface=floor.id, tile="t", joint=3, gap=0, start=(0, 0))
    return plan(Job(surfaces=(floor,), tiles=(TILE,), layouts=(layout,)), "A")


@pytest.mark.parametrize(("neck", "is_bare"), [(4.0, True), (6.0, False)])
def test_a_tile_with_a_neck_too_thin_to_cut_leaves_a_bare_patch_and_says_so(
    neck: float, is_bare: bool
) -> None:
    made = laid(neck + 47)
    assert made.left_to_joint == len(made.bare_patches) == int(is_bare)
    assert bare_words(made) == (
        "1 tile would have a neck under 5 mm; its place is left bare." if is_bare else ""
    )
    assert strip_words(made) == ""


def test_a_strip_is_swallowed_by_the_gap_and_is_no_bare_patch() -> None:
    made = laid(150, width=1204)
    assert (made.left_to_joint, made.bare_patches) == (3, ())
    assert strip_words(made) == "3 strips under 5 mm left to the joint or gap."
