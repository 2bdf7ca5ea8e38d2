"""Sections through a floor: which there are, what they say, the limit with its source."""

from __future__ import annotations

from msgspec.structs import replace

from tests.planning.test_heights import doorway, flange, floor
from tests.practice.cases import job_of, wall
from tilelayout.base.units import LengthStyle
from tilelayout.job.ground import Adhesive, Layer
from tilelayout.job.kinds import CutoutKind, LayerRole
from tilelayout.job.values import Cutout, Edge, EdgeRole, Job
from tilelayout.materials.stacks import Range
from tilelayout.planning.floor_sections import Section, sections_of
from tilelayout.planning.heights import small_words


def sections(job: Job, *, is_laid: bool = True) -> dict[str, Section]:
    layout = job.layouts[0] if is_laid else None
    return {each.place: each for each in sections_of(job, job.surfaces[0], layout)}


def test_the_stack_and_every_place_where_a_height_counts() -> None:
    """Doorways and open edges always; a wall or a hole only if a height of it was said."""
    edges = (doorway(), Edge(at=1, role=EdgeRole.OPEN), Edge(at=2), Edge(at=3, name="bath", meets=30.0))
    drain = flange(20.0)
    plain = replace(drain, kind=None, meets=None)
    found = sections(floor(*edges, cutouts=(plain, drain)))
    assert list(found) == ["", "edge 0", "edge 1", "edge 3", "cutout 1"]
    assert [each.title for each in found.values()] == ["Layers", "Doorway", "Open edge", "Bath", "Toilet"]


def test_a_section_says_the_step_and_what_holds_there() -> None:
    found = sections(floor(doorway(meets=10.0, door=24.0)))["edge 0"]
    assert found.near.height == Range(19.0, 19.0)
    assert (found.next_top, found.door) == (10.0, 24.0)
    assert found.says == ("doorway: 9 mm above the floor beyond", "doorway: 5 mm free under the door")
    assert found.limits[0].startswith("An upright step may be 6 mm: ADA Standards, 303")
    assert found.limits[1] == "A door wants 6 mm free under it: common practice, no source."
    assert [each.code for each in found.findings] == ["trip-edge", "door"]
    assert all(each.place == "edge 0" for each in found.findings)


def test_a_bevelled_step_has_its_own_limit() -> None:
    found = sections(floor(doorway(meets=10.0, bevelled=True)))["edge 0"]
    assert found.limits == (
        "Bevelled 1:2, a step may be 13 mm: ADA Standards, 303, changes in level "
        "(as trade bodies, makers or officials quote it).",
    )
    assert found.findings == ()


def test_layers_beyond_keep_their_names() -> None:
    boards = (
        Layer(name="underlay", thickness=3.0),
        Layer(name="boards", thickness=18.0, role=LayerRole.COVERING),
    )
    found = sections(floor(doorway(beyond=boards)))["edge 0"]
    assert found.beyond is not None
    assert [layer.name for layer in found.beyond.layers] == ["underlay", "boards"]
    assert found.next_top == 21.0
    assert found.says == ("doorway: 2 mm below the floor beyond",)


def test_what_is_not_known_is_asked_for() -> None:
    bare = sections(floor(doorway(), Edge(at=2, role=EdgeRole.DOORWAY, meets=12.0), adhesive=None))
    assert not bare["edge 0"].is_known
    assert "Say how high the floor beyond stands" in bare["edge 0"].says[0]
    assert bare["edge 2"].says == ("To tell the step, say how thick the bed of the adhesive is.",)
    nothing_laid = sections(floor(doorway(meets=12.0)), is_laid=False)
    assert nothing_laid["edge 0"].says == ("To tell the step, choose the tile.",)
    assert nothing_laid[""].limits == nothing_laid["edge 0"].limits == ()


def test_an_appliance_says_what_is_left_or_lacking() -> None:
    corners = ((0.0, 0.0), (600.0, 0.0), (600.0, 600.0), (0.0, 600.0))

    def under(worktop: float | None, tall: float | None) -> Section:
        kind = CutoutKind.APPLIANCE
        cutout = Cutout(name="dishwasher", polygon=corners, kind=kind, meets=worktop, tall=tall)
        return sections(floor(cutouts=(cutout,)))["cutout 0"]

    assert under(870.0, 846.0).says == ("dishwasher: 5 mm to spare under the worktop",)
    assert under(870.0, 853.0).says == ("dishwasher: 2 mm too little under the worktop",)
    assert "how tall the appliance is" in under(870.0, None).says[0]
    assert "worktop's underside" in under(None, None).says[0]


def test_a_flange_below_the_floor_is_said_without_a_sign() -> None:
    assert sections(floor(cutouts=(flange(16.0),)))["cutout 0"].says == (
        "toilet: 3 mm below the finished floor",
    )
    assert sections(floor(cutouts=(flange(19.0),)))["cutout 0"].says == (
        "toilet: its top level with the finished floor",
    )
    bed = Adhesive(bed=(2.0, 6.0))
    assert sections(floor(cutouts=(flange(19.0),), adhesive=bed))["cutout 0"].says == (
        "toilet: from 3 mm below to 1 mm above the finished floor",
    )


def test_a_flange_whose_height_is_known_asks_for_what_is_still_missing() -> None:
    assert sections(floor(cutouts=(flange(19.0),), adhesive=None))["cutout 0"].says == (
        "To tell what is left, say how thick the bed of the adhesive is.",
    )
    assert (
        "its top stands" in sections(floor(cutouts=(replace(flange(0.0), meets=None),)))["cutout 0"].says[0]
    )


def test_a_wall_has_its_layers_and_no_heights() -> None:
    layers = (Layer(thickness=1.0, role=LayerRole.MEMBRANE),)
    job = job_of(surface=wall(layers=layers, edges=(doorway(meets=2.0),), adhesive=Adhesive(bed=(3.0, 3.0))))
    (only,) = sections(job).values()
    assert only.is_wall
    assert [layer.role for layer in only.near.layers] == [LayerRole.MEMBRANE, LayerRole.BED, LayerRole.TILE]


def test_small_lengths_are_said_finely_in_every_style() -> None:
    """A step of 3/32 in would be 1/8 in to the nearest sixteenth, and 19 mm 0.019 m in metres."""
    assert small_words(19.0, LengthStyle.M) == "19 mm"
    assert small_words(25.4 * 3 / 32, LengthStyle.FEET) == '3/32"'
    assert small_words(25.4 * 34.25, LengthStyle.FEET) == '34 1/4"'
