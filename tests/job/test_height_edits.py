"""Edits of heights and beds, and what becomes of trims and borders when corners come and go."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.job.cast import POTTING_SHED, job_of
from tilelayout.base.errors import EditError
from tilelayout.job.edits import heights, surfaces
from tilelayout.job.edits.borders import give_border
from tilelayout.job.edits.grounds import set_trims
from tilelayout.job.ground import Adhesive, Layer, Trim
from tilelayout.job.kinds import CutoutKind
from tilelayout.job.values import Job

SHED = job_of(POTTING_SHED)
ID = SHED.surfaces[0].id
TILE = SHED.tiles[0].id
BOARDS = (Layer(name="boards", thickness=18.0),)


def test_the_height_and_the_layers_of_a_floor_beyond_take_each_other_s_place() -> None:
    told = heights.set_next_floor(SHED, ID, 0, 18.0)
    assert (told.surfaces[0].edge(0).meets, told.surfaces[0].edge(0).beyond) == (18.0, ())
    layered = heights.set_floor_beyond(told, ID, 0, BOARDS)
    assert (layered.surfaces[0].edge(0).meets, layered.surfaces[0].edge(0).beyond) == (None, BOARDS)
    assert heights.set_next_floor(layered, ID, 0, 20.0).surfaces[0].edge(0).beyond == ()
    assert heights.set_next_floor(told, ID, 0, None) == SHED


def test_doors_and_bevels_are_said_and_forgotten() -> None:
    made = heights.set_bevelled(heights.set_door(SHED, ID, 0, 30.0), ID, 0, is_bevelled=True)
    assert (made.surfaces[0].edge(0).door, made.surfaces[0].edge(0).bevelled) == (30.0, True)
    assert heights.set_bevelled(heights.set_door(made, ID, 0, None), ID, 0, is_bevelled=False) == SHED
    with pytest.raises(EditError, match="no edge 9"):
        heights.set_door(SHED, ID, 9, 30.0)


def test_a_cutout_that_becomes_something_else_forgets_its_heights() -> None:
    flange = heights.set_cutout_kind(SHED, ID, 0, CutoutKind.FLANGE)
    flange = heights.set_cutout_heights(flange, ID, 0, meets=25.0, tall=None)
    assert flange.surfaces[0].cutouts[0].meets == 25.0
    appliance = heights.set_cutout_kind(flange, ID, 0, CutoutKind.APPLIANCE)
    assert appliance.surfaces[0].cutouts[0].meets is None
    assert heights.set_cutout_kind(appliance, ID, 0, None) == SHED
    with pytest.raises(EditError, match="nothing in particular"):
        heights.set_cutout_heights(SHED, ID, 0, meets=25.0, tall=None)


def test_one_end_of_the_bed_takes_the_other_along() -> None:
    def bed(job: Job) -> tuple[float, float] | None:
        adhesive = job.surfaces[0].adhesive
        return None if adhesive is None else adhesive.bed

    first = heights.set_bed_end(SHED, ID, 4.0, is_least=True)
    assert bed(first) == (4.0, 4.0)
    wide = heights.set_bed_end(first, ID, 6.0, is_least=False)
    assert bed(wide) == (4.0, 6.0)
    assert bed(heights.set_bed_end(wide, ID, 8.0, is_least=True)) == (8.0, 8.0)
    assert bed(heights.set_bed_end(wide, ID, 2.0, is_least=False)) == (2.0, 2.0)
    assert heights.set_bed_end(wide, ID, None, is_least=True).surfaces[0].adhesive is None
    classed = replace(wide.surfaces[0], adhesive=Adhesive(grade="C2", bed=(3.0, 4.0)))
    kept = heights.set_bed_end(replace(wide, surfaces=(classed,)), ID, None, is_least=False)
    assert kept.surfaces[0].adhesive == Adhesive(grade="C2")


def trimmed(*edges: int) -> Job:
    """Return the shed without its cutouts, so that any corner may go, and with a trim along some edges."""
    bare = surfaces.remove_cutout(surfaces.remove_cutout(SHED, ID, 1), ID, 0)
    return set_trims(bare, ID, (Trim(tile=TILE, height=75.0, edges=edges),))


def trim_edges(job: Job) -> list[tuple[int, ...]]:
    return [trim.edges for trim in job.surfaces[0].trims]


def test_a_trim_stays_along_both_parts_of_an_edge_that_is_parted() -> None:
    (x0, y0), (x1, y1) = SHED.surfaces[0].outline[1:3]
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    assert trim_edges(surfaces.insert_corner(trimmed(1, 3), ID, 1, middle)) == [(1, 2, 4)]
    assert trim_edges(surfaces.insert_corner(trimmed(3), ID, 1, middle)) == [(4,)]
    assert trim_edges(surfaces.insert_corner(trimmed(), ID, 1, middle)) == [()]


def test_a_trim_goes_with_the_last_of_its_edges_and_never_spreads_to_every_wall() -> None:
    assert trim_edges(surfaces.delete_corner(trimmed(1), ID, 1)) == []
    assert trim_edges(surfaces.delete_corner(trimmed(1, 3), ID, 1)) == [(2,)]
    assert trim_edges(surfaces.delete_corner(trimmed(0, 3), ID, 1)) == [(0, 2)]


def test_moving_a_corner_leaves_trims_where_they_are() -> None:
    assert trim_edges(surfaces.move_corner(trimmed(1, 3), ID, 0, (-10.0, -10.0))) == [(1, 3)]


def test_a_border_goes_on_leaving_out_the_edge_it_left_out() -> None:
    job = give_border(SHED, SHED.layouts[0].id, TILE)
    border = job.layouts[0].border
    assert border is not None
    job = replace(job, layouts=(replace(job.layouts[0], border=replace(border, left_out=(3,))),))
    (x0, y0), (x1, y1) = SHED.surfaces[0].outline[0:2]
    parted = surfaces.insert_corner(job, ID, 0, ((x0 + x1) / 2, (y0 + y1) / 2)).layouts[0].border
    assert parted is not None
    assert parted.left_out == (4,)
