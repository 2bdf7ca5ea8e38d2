"""What the trade's rules judge by, in the job: read, written, checked, edited."""

from __future__ import annotations

from typing import Any

import pytest

from tests.job.cast import POTTING_SHED, job_of, with_change
from tilelayout.base.errors import EditError, JobFileError
from tilelayout.job.adhesive_class import AdhesiveKind, adhesive_class
from tilelayout.job.edits import grounds, jobs, tiles
from tilelayout.job.files import job_from_bytes, job_to_bytes
from tilelayout.job.ground import Adhesive, Breakage, Layer, Trim
from tilelayout.job.kinds import Background, Exposure, LayerRole, Practice, Wetness
from tilelayout.job.values import Job

SHED = job_of(POTTING_SHED)
FLOOR: dict[str, Any] = POTTING_SHED["surfaces"][0] | {
    "background": "cement-board",
    "wetness": "wet",
    "exposure": "sunlit",
    "layers": [{"name": "sheet", "thickness": '1/16"', "is": "membrane"}],
    "adhesive": {"class": "C2TE S1", "bed": ['1/8"', 6], "notch": 10},
    "trims": [{"kind": "base", "tile": "slate-look", "height": "75 mm", "corners": "mitre"}],
    "edges": [{"at": 0, "is": "doorway", "meets": 18, "door": 30, "bevelled": True}],
}
FULL = with_change(POTTING_SHED, "surfaces 0", FLOOR) | {"practice": "de", "breakage": {"notch": 5}}


def test_all_of_it_is_read_and_written_again() -> None:
    job = job_of(FULL)
    floor = job.surfaces[0]
    assert (floor.background, floor.wetness) == (Background.CEMENT_BOARD, Wetness.WET)
    assert floor.layers == (Layer(name="sheet", thickness=25.4 / 16, role=LayerRole.MEMBRANE),)
    assert floor.adhesive == Adhesive(grade="C2TE S1", bed=(25.4 / 8, 6.0), notch=10.0)
    assert (job.practice, job.breakage) == (Practice.DE, Breakage(notch=5))
    assert job_from_bytes(job_to_bytes(job)) == job


def test_what_is_not_known_is_not_written() -> None:
    content = job_to_bytes(SHED)
    for key in (b"background", b"adhesive", b"trims", b"breakage", b"spare", b"meets", b"warpage"):
        assert key not in content


WRONG = [
    ("practice", "nowhere", "practice", "us, uk, de, au"),
    ("breakage", {"notch": -1}, "breakage.notch", "0 to 100000"),
    ("surfaces 0 background", "cheese", "surfaces[0].background", "not known"),
    ("surfaces 0 wetness", "damp", "surfaces[0].wetness", "dry, wet, immersed"),
    ("surfaces 0 layers", [{"thickness": -1}], "surfaces[0].layers[0].thickness", "0 to 1000"),
    ("surfaces 0 layers", [{"name": "x"}], "surfaces[0].layers[0]", "thickness is missing"),
    ("surfaces 0 adhesive", {"class": "Z9"}, "surfaces[0].adhesive.class", "no class of an adhesive"),
    ("surfaces 0 adhesive", {"bed": [6, 3]}, "surfaces[0].adhesive.bed", "from 6 mm down to 3 mm"),
    ("surfaces 0 adhesive", {"bed": [6]}, "surfaces[0].adhesive.bed", "1 of the 2"),
    ("surfaces 0 trims", [{"tile": "slate-look", "height": 1}], "surfaces[0].trims[0].height", "5 to 2000"),
    ("surfaces 0 trims", [{"tile": "gold", "height": 75}], "surfaces[0].trims[0].tile", "no tile “gold”"),
    (
        "surfaces 0 trims",
        [{"tile": "slate-look", "height": 75, "edges": [9]}],
        "surfaces[0].trims[0].edges[0]",
        "0 to 3",
    ),
    ("surfaces 0 edges 0 meets", 99999, "surfaces[0].edges[0].meets", "-1000 to 5000"),
    ("surfaces 0 cutouts 0 meets", 12, "surfaces[0].cutouts[0].is", "nothing in particular"),
    ("tiles 0 weight_kg", 0, "tiles[0].weight_kg", "It can be"),
    ("tiles 0 absorption_percent", 101, "tiles[0].absorption_percent", "0 to 60 %"),
    ("tiles 0 spread", -1, "tiles[0].spread", "0 to 200"),
    ("tiles 0 spare", -1, "tiles[0].spare", "0 to 100000"),
]


@pytest.mark.parametrize(("path", "value", "place", "words"), WRONG)
def test_what_cannot_be_is_said_with_its_place(path: str, value: Any, place: str, words: str) -> None:
    with pytest.raises(JobFileError) as caught:
        job_of(with_change(POTTING_SHED, path, value))
    assert caught.value.place == place
    assert words in str(caught.value)


def test_two_weights_and_two_heights_beyond_a_doorway_contradict_each_other() -> None:
    tile = POTTING_SHED["tiles"][0] | {"weight_kg": 3, "weight_kg_per_m2": 20}
    with pytest.raises(JobFileError, match="given twice"):
        job_of(with_change(POTTING_SHED, "tiles 0", tile))
    edge = {"at": 0, "meets": 18, "beyond": [{"thickness": 18}]}
    with pytest.raises(JobFileError, match="given twice"):
        job_of(with_change(POTTING_SHED, "surfaces 0 edges 0", edge))


@pytest.mark.parametrize(
    ("text", "kind", "is_improved", "letters"),
    [
        ("C1", AdhesiveKind.CEMENT, False, ""),
        ("c2 te-s1", AdhesiveKind.CEMENT, True, "ET"),
        ("C2S2", AdhesiveKind.CEMENT, True, ""),
        ("D2TE", AdhesiveKind.DISPERSION, True, "ET"),
        ("R2T", AdhesiveKind.RESIN, True, "T"),
        ("ANSI A118.15 HTE", AdhesiveKind.CEMENT, True, "EHT"),
        ("A118.1", AdhesiveKind.CEMENT, False, ""),
        ("A118.3", AdhesiveKind.RESIN, True, ""),
        ("A136.1 Type I", AdhesiveKind.DISPERSION, True, ""),
        ("A136.1 Type II", AdhesiveKind.DISPERSION, False, ""),
    ],
)
def test_classes_are_read_as_they_stand_on_the_bag(
    text: str, kind: AdhesiveKind, is_improved: bool, letters: str
) -> None:
    """EN 12004 and ANSI A118, A136.1 as quoted on makers' sheets (trade-figures, section 7)."""
    found = adhesive_class(text)
    assert found is not None
    assert (found.kind, found.is_improved, found.letters) == (kind, is_improved, letters)


@pytest.mark.parametrize("text", ["", "C3", "A118.2", "S1", "C2 extra", "glue"])
def test_other_texts_are_no_class(text: str) -> None:
    assert adhesive_class(text) is None


def test_edits_set_and_forget() -> None:
    job = grounds.set_background(SHED, "floor", Background.SCREED)
    job = grounds.set_wetness(job, "floor", Wetness.DRY)
    job = grounds.set_exposure(job, "floor", Exposure.OUTSIDE)
    job = grounds.set_layers(job, "floor", [Layer(thickness=6.0)])
    job = grounds.set_adhesive(job, "floor", Adhesive(grade="C2"))
    floor = job.surface("floor")
    assert (floor.background, floor.exposure, len(floor.layers)) == (Background.SCREED, Exposure.OUTSIDE, 1)
    assert job.tiles is SHED.tiles
    for forget in (grounds.set_background, grounds.set_wetness, grounds.set_exposure, grounds.set_adhesive):
        job = forget(job, "floor", None)
    assert grounds.set_layers(job, "floor", []) == SHED


def test_edits_refuse_what_cannot_be() -> None:
    with pytest.raises(EditError, match="no class"):
        grounds.set_adhesive(SHED, "floor", Adhesive(grade="Z9"))
    with pytest.raises(EditError, match="no tile “gold”"):
        grounds.set_trims(SHED, "floor", [Trim(tile="gold", height=75.0)])
    with pytest.raises(EditError, match="no surface"):
        grounds.set_background(SHED, "attic", None)
    with pytest.raises(EditError, match="one breaks"):
        jobs.set_breakage(SHED, Breakage(hole=-1))


def test_a_tile_that_a_trim_is_cut_from_stays() -> None:
    tile = POTTING_SHED["tiles"][0] | {"id": "strip"}
    two = with_change(POTTING_SHED, "tiles 1", tile)
    job = grounds.set_trims(job_of(two), "floor", [Trim(tile="strip", height=75.0)])
    with pytest.raises(EditError, match="trim of floor"):
        tiles.remove_tile(job, "strip")
    assert len(tiles.remove_tile(grounds.set_trims(job, "floor", []), "strip").tiles) == 1


def test_rules_and_breakage_are_set() -> None:
    assert jobs.set_practice(SHED, Practice.AU) == Job(**_fields(SHED) | {"practice": Practice.AU})
    assert jobs.set_breakage(jobs.set_breakage(SHED, Breakage(tiles=4)), None) == SHED


def _fields(job: Job) -> dict[str, Any]:
    return {name: getattr(job, name) for name in Job.__struct_fields__}
