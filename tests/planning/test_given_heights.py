"""Places whose height a fill meets: what a surface offers, what is met, missed, ground off, judged again."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from tests.planning.test_preparing import floor, made
from tilelayout.base.units import LengthStyle
from tilelayout.job.edits.surfaces import move_surface
from tilelayout.job.preparation import GivenHeight, Preparation, PreparationWay
from tilelayout.job.values import Circle, Cutout, Edge, EdgeRole, Job, Surface
from tilelayout.planning.given_heights import offered_places
from tilelayout.planning.preparing import Prepared
from tilelayout.planning.surface_words import checked_words, given_words, mend_words

DOOR = GivenHeight(name="hall door", at=(2000.0, 0.0), to=(2000.0, 1000.0), height=12.0)
DRAIN = GivenHeight(name="drain", at=(500.0, 500.0), across=100.0, height=0.0, fall_percent=2.0)


def planed(job: Job, *meets: GivenHeight, **figures: float) -> Prepared:
    return made(job, PreparationWay.PLANE, meets, **figures)


def said(found: Prepared, style: LengthStyle = LengthStyle.MM) -> str:
    return " ".join((*mend_words(found, style), *checked_words(found, style)))


def test_openings_and_cutouts_are_offered_by_name_as_lines_and_middles() -> None:
    surface = Surface(
        id="floor",
        outline=((0, 0), (2000, 0), (2000, 1000), (0, 1000)),
        edges=(Edge(at=1, role=EdgeRole.DOORWAY, name="hall door"),),
        cutouts=(
            Cutout(name="drain", circle=Circle(centre=(500, 500), diameter=100)),
            Cutout(polygon=((100, 100), (900, 100), (900, 180), (100, 180))),
        ),
    )
    door, drain, channel = offered_places(surface)
    assert (door.name, door.at, door.to) == ("hall door", (2000, 0), (2000, 1000))
    assert (drain.at, drain.to, drain.across) == ((500, 500), None, 100)
    assert channel.name == "cutout 2" and channel.across == pytest.approx(80.0)
    assert channel.to is not None
    ends = sorted([channel.at, channel.to])
    assert np.array(ends) == pytest.approx(np.array([(140.0, 140.0), (860.0, 140.0)]))


def test_the_plane_through_a_doorway_is_level_along_it_and_judged_flat() -> None:
    """The floor rises 10 mm over 2 m to the door; 2 mm above it there: a wedge of that."""
    found = planed(floor(slope=0.005), DOOR)
    assert found.missed == () and found.fill.most_removed == pytest.approx(0.0, abs=1e-6)
    assert found.litres == pytest.approx(2000 * 1000 * 2 / 2 / 1e6)
    assert [each.ok for each in found.verdicts] == [True, True]
    assert "Judged again as filled, for slab: Flat enough" in said(found)
    assert "makes no slope" in said(found)


def test_a_floor_above_the_door_is_said_with_where_and_how_much() -> None:
    low = GivenHeight(name="hall door", at=(2000.0, 0.0), to=(2000.0, 1000.0), height=7.0)
    found = planed(floor(slope=0.005), low)
    assert found.fill.most_removed == pytest.approx(3.0, abs=1e-5)
    assert "stands above this plane, by 3 mm at most, at (2000 mm," in said(found)
    assert "raise the heights given by 3 mm" in said(found)
    assert not found.grinds_too_deep
    strict = planed(floor(slope=0.005), low, most_ground=2.0)
    assert strict.grinds_too_deep and "deeper than the 2 mm" in said(strict)


def test_where_grinding_a_lump_saves_most_of_the_filler_that_is_said() -> None:
    """A lump of 6 mm in the middle: any plane over it takes 6 mm all round, without it next to nothing."""
    found = planed(floor(bump=6.0))
    other = found.with_grinding
    assert other is not None and other.litres < found.litres / 2.0
    assert other.fill.most_removed == pytest.approx(6.0, abs=1e-3)
    assert "may be ground off at (1000 mm, 500 mm)" in said(found)
    allowed = planed(floor(bump=6.0), most_ground=6.0)
    assert allowed.litres == pytest.approx(other.litres, abs=1e-3)
    assert allowed.with_grinding is None


def test_a_fall_to_a_drain_rises_from_its_rim_and_large_tile_is_told_off() -> None:
    found = planed(floor(), DRAIN)
    corner = np.array([(2000.0, 1000.0)])
    assert found.fill.depths_at(corner) == pytest.approx([0.02 * (np.hypot(1500, 500) - 50)], rel=1e-3)
    assert found.has_falls and any(each.ok is False for each in found.verdicts)
    assert "small tile follows it" in said(found)


def test_a_door_that_the_fall_does_not_come_out_at_is_named() -> None:
    found = planed(floor(), DRAIN, DOOR)
    (missed,) = found.missed
    assert missed.given.name == "hall door"
    assert missed.above == pytest.approx(0.02 * (np.hypot(1500, 500) - 50) - 12.0, rel=1e-3)
    assert "At hall door it comes to" in said(found) and "change the fall, or a height" in said(found)


def test_four_corners_in_no_plane_are_said_to_be() -> None:
    corners = [((0, 0), 5), ((2000, 0), 5), ((2000, 1000), 9), ((0, 1000), 5)]
    found = planed(floor(), *(GivenHeight(at=at, height=height) for at, height in corners))
    assert [abs(each.above) for each in found.missed] == pytest.approx([1.0] * 4)
    assert "these heights lie in no one plane" in said(found)


def test_costs_move_the_mix_of_grinding_and_filling() -> None:
    job = floor(bump=4.0)
    dear = made(job, PreparationWay.GRIND_AND_FILL, fill_cost=1.0, grind_cost=1000.0, most_ground=4.0)
    cheap = made(job, PreparationWay.GRIND_AND_FILL, fill_cost=1.0, grind_cost=1.0, most_ground=4.0)
    assert dear.fill.volume_removed < cheap.fill.volume_removed
    assert cheap.litres < dear.litres
    assert dear.cost == pytest.approx(dear.litres + 1000.0 * dear.litres_removed)
    assert "together cost" in said(cheap)
    assert all(each.ok for each in cheap.verdicts)
    assert made(job, PreparationWay.GRIND_AND_FILL).cost is None


def test_given_heights_are_said_in_the_lengths_of_the_job() -> None:
    assert given_words(DRAIN, LengthStyle.MM) == "drain: 0 mm, 2 % to it"
    eighth = GivenHeight(name="sill", at=(0, 0), height=3.175)
    assert given_words(eighth, LengthStyle.FEET) == 'sill: 1/8"'


def test_moving_a_surface_moves_the_places_to_meet() -> None:
    job = floor(slope=0.005)
    survey = job.surveys[0]
    job = replace(job, surveys=(replace(survey, preparation=Preparation(meets=(DOOR,))),))
    moved = move_surface(job, "floor", (100.0, 50.0)).surveys[0].preparation
    assert moved is not None
    assert (moved.meets[0].at, moved.meets[0].to) == ((2100.0, 50.0), (2100.0, 1050.0))
