"""The drawn section: heights are to scale, steps are dimensioned, nothing leaves the room it was given."""

from __future__ import annotations

import numpy as np
import pytest

from tests.planning.test_floor_sections import sections
from tests.planning.test_heights import doorway, flange, floor
from tilelayout.base.units import LengthStyle
from tilelayout.job.ground import Adhesive, Layer
from tilelayout.job.kinds import CutoutKind, LayerRole
from tilelayout.job.values import Cutout, Job
from tilelayout.planning.floor_sections import Section
from tilelayout.reports.figure import Figure, Path, Role, Text
from tilelayout.reports.figures.section_figure import section_figure
from tilelayout.reports.marks import bounds_of

ROOM = (186.0, 50.0)


def drawn(section: Section, style: LengthStyle = LengthStyle.MM) -> Figure:
    return section_figure(section, ROOM, style)


def words(figure: Figure) -> list[str]:
    return [mark.words for mark in figure.marks if isinstance(mark, Text)]


def boxes(figure: Figure, fill: Role) -> list[tuple[float, float]]:
    """Return the lower and upper ends of the filled boxes, in mm of paper."""
    found = [mark.lines[0] for mark in figure.marks if isinstance(mark, Path) and mark.fill is fill]
    return [(float(ring[:, 1].min()), float(ring[:, 1].max())) for ring in found]


def shaft(figure: Figure) -> float:
    """Return how high the dimension of the step is drawn."""
    lines = [
        mark.lines[0]
        for mark in figure.marks
        if isinstance(mark, Path) and mark.pen is not None and mark.pen.role is Role.CHALK
        if len(mark.lines) == 1 and np.ptp(mark.lines[0][:, 0]) < 1e-9
    ]
    assert len(lines) == 1
    return float(np.ptp(lines[0][:, 1]))


@pytest.mark.parametrize("style", [LengthStyle.MM, LengthStyle.FEET])
def test_layers_and_step_are_drawn_to_the_scale_it_says(style: LengthStyle) -> None:
    figure = drawn(sections(floor(doorway(meets=10.0)))["edge 0"], style)
    assert figure.one_to == 1.0
    (tile,) = boxes(figure, Role.TILE_FACE)
    assert tile[1] - tile[0] == pytest.approx(10.0)
    assert shaft(figure) == pytest.approx(9.0)


def test_a_floor_that_is_too_high_for_the_room_is_drawn_at_a_smaller_scale() -> None:
    thick = (Layer(name="screed", thickness=60.0, role=LayerRole.BED),)
    figure = drawn(sections(floor(doorway(meets=30.0), layers=thick))["edge 0"])
    assert figure.one_to == 2.0
    assert shaft(figure) == pytest.approx((70.0 - 30.0) / 2.0)
    assert figure.height <= ROOM[1]


def test_every_layer_has_its_name_and_thickness_and_none_stands_on_another() -> None:
    layers = (Layer(name="sheet", thickness=0.3, role=LayerRole.MEMBRANE),) * 4
    figure = drawn(sections(floor(layers=layers))[""])
    named = [mark for mark in figure.marks if isinstance(mark, Text)]
    assert [mark.words for mark in named if "sheet" in mark.words] == ["sheet 0.3 mm"] * 4
    heights = sorted(mark.at[1] for mark in named)
    assert min(np.diff(heights)) > max(mark.height for mark in named)


def test_the_step_is_said_beside_its_dimension() -> None:
    assert "9 mm" in words(drawn(sections(floor(doorway(meets=10.0)))["edge 0"]))
    assert "flush" in words(drawn(sections(floor(doorway(meets=19.0)))["edge 0"]))
    bed = Adhesive(bed=(3.0, 6.0))
    ranged = drawn(sections(floor(doorway(meets=10.0), adhesive=bed))["edge 0"])
    assert "9 mm to 12 mm" in words(ranged)


def test_a_door_stands_above_with_what_is_free_or_lacks() -> None:
    assert "5 mm free" in words(drawn(sections(floor(doorway(door=24.0)))["edge 0"]))
    assert "2 mm too low" in words(drawn(sections(floor(doorway(door=17.0)))["edge 0"]))


def appliance(worktop: float, tall: float) -> Job:
    corners = ((0.0, 0.0), (600.0, 0.0), (600.0, 600.0), (0.0, 600.0))
    return floor(cutouts=(Cutout(polygon=corners, kind=CutoutKind.APPLIANCE, meets=worktop, tall=tall),))


def test_a_tall_appliance_is_broken_so_that_what_is_left_above_stays_to_scale() -> None:
    figure = drawn(sections(appliance(880.0, 850.0))["cutout 0"])
    assert figure.one_to == 2.0
    assert shaft(figure) == pytest.approx(11.0 / 2.0)
    assert "850 mm tall" in words(figure)
    assert "worktop 880 mm" in words(figure)


@pytest.mark.parametrize(
    "section",
    [
        sections(floor(doorway(meets=-30.0, door=60.0)))["edge 0"],
        sections(floor(doorway(meets=200.0)))["edge 0"],
        sections(floor(cutouts=(flange(-20.0),)))["cutout 0"],
        sections(floor(cutouts=(flange(60.0),)))["cutout 0"],
        sections(appliance(600.0, 850.0))["cutout 0"],
        sections(floor(layers=(Layer(name="a name that is far too long to stand here", thickness=0.0),)))[""],
    ],
    ids=["pit", "step up", "low flange", "high flange", "shut in", "thin layer"],
)
def test_nothing_leaves_the_figure(section: Section) -> None:
    figure = drawn(section)
    left, bottom, right, top = bounds_of(figure.marks)
    assert left >= -0.5
    assert bottom >= -1.5
    assert right <= figure.width + 0.5
    assert top <= figure.height + 1.5
    assert figure.height <= ROOM[1] + 1e-6


def test_a_section_whose_height_is_not_known_cannot_be_drawn() -> None:
    with pytest.raises(ValueError, match="not known"):
        drawn(sections(floor(doorway(), adhesive=None))["edge 0"])
