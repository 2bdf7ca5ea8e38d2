"""What a job file may hold, and how it comes into the job."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.job.cast import BAY, POTTING_SHED, in_bytes, job_of, with_change
from tilelayout.base.units import LengthStyle
from tilelayout.job.files import job_from_bytes, read_job
from tilelayout.job.values import (
    Circle,
    Cutout,
    Edge,
    EdgeRole,
    HexagonTile,
    Job,
    RectangleTile,
    SurfaceKind,
    TileEdge,
    Visibility,
)


def test_the_potting_shed_is_read_in_every_part() -> None:
    job = job_of(POTTING_SHED)
    floor = job.surface("floor")
    assert (job.title, job.practice, job.saw.kerf) == ("Potting shed", "us", 2.0)
    assert job.show_lengths is LengthStyle.INCH
    assert floor.outline == ((0.0, 0.0), (3657.6, 0.0), (3657.6, 2438.4), (0.0, 2438.4))
    assert floor.edges == (Edge(at=0, role=EdgeRole.DOORWAY),)
    assert floor.cutouts[0] == Cutout(
        name="drain", circle=Circle(centre=(600.0, 600.0), diameter=110.0), clearance=3.0
    )
    assert job.tile("slate-look") == RectangleTile(
        id="slate-look", name="Slate look 300 x 600", length=597.0, width=297.0, thickness=9.5,
        edge=TileEdge.RECTIFIED, per_box=8, price_per_box=32.0,
    )  # fmt: skip
    assert job.layout("A").settings == {"row_offsets": (0, 0.3333333333)}
    assert job.surveys[0].points[1] == (300.0, 0.0, 1.2)


def test_the_bay_is_read_with_its_arcs_and_hexagons() -> None:
    job = job_of(BAY)
    edge = job.surface("bay").edge(2)
    assert (edge.through, edge.role, edge.seen) == ((1500, 2700), EdgeRole.OPEN, Visibility.LOOKED_AT)
    assert job.surface("bay").edge(1).name == "bow"
    assert job.surface("bay").edge(0) == Edge(at=0)
    assert job.surface("step").kind is SurfaceKind.WALL
    assert job.tile("comb") == HexagonTile(id="comb", across_flats=228.6)
    assert job.layout("A").settings == {"up": "flat"}


def test_lengths_are_plain_floats_however_they_were_written() -> None:
    tree = with_change(POTTING_SHED, "tiles 0 length", '23-1/2"')
    tree = with_change(tree, "layouts 0 joint", '1/8"')
    tree = with_change(tree, "layouts 0 start", ["-2 in", 3])
    job = job_of(tree)
    tile = job.tile("slate-look")
    assert isinstance(tile, RectangleTile)
    lengths = [tile.length, job.layout("A").joint, *job.layout("A").start]
    assert lengths == [596.9, 3.175, -50.8, 3.0]
    assert {type(length) for length in lengths} == {float}


@pytest.mark.parametrize("style", LengthStyle)
def test_every_style_of_lengths_can_be_asked_for(style: LengthStyle) -> None:
    assert job_of(with_change(POTTING_SHED, "show_lengths", str(style))).show_lengths is style


def test_a_job_may_be_empty() -> None:
    assert job_from_bytes(b'{"format": "tilejob", "version": 1}') == Job()


def test_a_byte_order_mark_is_let_pass() -> None:
    assert job_from_bytes(b"\xef\xbb\xbf" + in_bytes(BAY)) == job_of(BAY)


def test_a_job_is_read_from_a_file_by_path_or_name(tmp_path: Path) -> None:
    path = tmp_path / "bay.tilejob"
    path.write_bytes(in_bytes(BAY))
    assert read_job(path) == read_job(str(path)) == job_of(BAY)


def test_a_cutout_may_reach_over_the_outline() -> None:
    tree = with_change(POTTING_SHED, "surfaces 0 cutouts 0 circle centre", [0, 0])
    assert job_of(tree).surface("floor").cutouts[0].circle == Circle(centre=(0.0, 0.0), diameter=110.0)


def test_an_outline_may_turn_either_way() -> None:
    tree = with_change(BAY, "surfaces 1 outline", [[0, 180], [900, 0], [0, 0]])
    assert job_of(tree).surface("step").outline[0] == (0, 180)
