"""`lay --json` against a second laying by plain shapely, worked out from the job file alone."""

from __future__ import annotations

import itertools
import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from shapely import LineString, Polygon

from tests.cli import recomputed
from tests.cli.calls import called
from tests.cli.recomputed import Json

ROOMS = Path(__file__).resolve().parents[2] / "sample_rooms"
FILES = sorted(ROOMS.glob("*.tilejob"))
LAYINGS = [
    (path, layout)
    for path in FILES
    for layout in json.loads(path.read_bytes())["layouts"]
    if layout["pattern"] in recomputed.PATTERNS and "border" not in layout
]
KEYS = {
    "id", "surface", "tile", "region_area", "covered_area", "whole", "cut", "left_to_joint", "slivers",
    "narrowest", "pieces", "tiles_needed", "tiles_needed_at_least", "cut_from",
}  # fmt: skip


@pytest.fixture(scope="module")
def documents() -> dict[Path, Json]:
    """What `lay --json` prints for each sample room."""
    return {path: json.loads(called("lay", str(path), "--json").out) for path in FILES}


class Case:
    """One layout of a job file, what was printed of it, and the second laying."""

    def __init__(self, path: Path, layout: Json, document: Json) -> None:
        job = json.loads(path.read_bytes())
        self.layout = {"joint": 3.0, **layout}
        self.kerf = job.get("saw", {}).get("kerf", 2.0)
        self.tile = next(tile for tile in job["tiles"] if tile["id"] == layout["tile"])
        surface = next(surface for surface in job["surfaces"] if surface["id"] == layout["surface"])
        self.region = recomputed.region(surface, layout.get("gap", 6.0))
        self.printed = next(found for found in document["layouts"] if found["id"] == layout["id"])
        self.pieces = {piece["id"]: piece for piece in self.printed["pieces"]}


@pytest.fixture(params=LAYINGS, ids=[f"{path.stem} {layout['id']}" for path, layout in LAYINGS])
def case(request: pytest.FixtureRequest, documents: dict[Path, Json]) -> Case:
    path, layout = request.param
    return Case(path, layout, documents[path])


def polygon(piece: Json) -> Polygon:
    return Polygon(piece["outline"], piece["holes"])


def test_the_document_has_the_keys_of_the_format_and_no_others(case: Case) -> None:
    assert set(case.printed) == KEYS
    for piece in case.printed["pieces"]:
        assert set(piece) == {"id", "whole", "outline", "holes", "face", "narrowest"}
    for tile in case.printed["cut_from"]:
        assert set(tile) == {"tile", "pieces"}
        assert all(set(piece) == {"piece", "outline", "turned"} for piece in tile["pieces"])


def test_counts_and_areas_are_those_of_a_plain_laying(case: Case) -> None:
    parts = recomputed.pieces(case.tile, case.layout, case.region)
    least = case.layout.get("least_piece", 5.0)
    whole = [part for part, face in parts if part.area > face.area - 1e-3]
    rest = [part for part, face in parts if part.area <= face.area - 1e-3]
    cut = [part for part in rest if recomputed.narrowest(part, lost=5.0) >= least]
    printed = case.printed
    assert (printed["whole"], printed["cut"]) == (len(whole), len(cut))
    assert printed["left_to_joint"] == len(rest) - len(cut)
    assert printed["region_area"] == pytest.approx(case.region.area, rel=1e-5)
    assert printed["covered_area"] == pytest.approx(sum(part.area for part in whole + cut), rel=1e-5)
    areas = sorted(polygon(piece).area for piece in case.pieces.values() if not piece["whole"])
    assert areas == pytest.approx(sorted(part.area for part in cut), rel=1e-4)


def test_every_piece_lies_in_the_region_and_in_its_face_and_none_on_another(case: Case) -> None:
    region = case.region.buffer(0.05)
    for piece in case.pieces.values():
        shape, face = polygon(piece), Polygon(piece["face"])
        assert region.covers(shape)
        assert face.buffer(1e-3).covers(shape)
        assert piece["whole"] == (abs(shape.area - face.area) < 1e-3)
    shapes = [polygon(piece) for piece in case.pieces.values()]
    tree = shapely.STRtree(shapes)
    first, second = tree.query(shapes, predicate="intersects")
    assert all(
        shapes[i].intersection(shapes[j]).area < 1e-3 for i, j in zip(first, second, strict=True) if i != j
    )


def test_the_narrowest_places_are_inscribed_circles_and_thinnest_arms(case: Case) -> None:
    """A convex piece is as wide as its largest inscribed circle, which shapely finds to a hair.

    Of others the opening loses a part at that width; the buffers are true to a hundredth of it.
    """
    straight = {
        id: polygon(piece) for id, piece in case.pieces.items() if recomputed.is_straight(polygon(piece))
    }
    assert len(straight) > len(case.pieces) / 2
    for id, shape in straight.items():
        if shape.area > shape.convex_hull.area - 1e-3:
            width = 2 * shapely.maximum_inscribed_circle(shape, 0.01).length
            assert width == pytest.approx(case.pieces[id]["narrowest"], abs=0.05)
        else:
            assert recomputed.narrowest(shape) == pytest.approx(case.pieces[id]["narrowest"], rel=0.02)
    assert case.printed["narrowest"] == min(piece["narrowest"] for piece in case.pieces.values())


def outline_of(tile: Json) -> Polygon:
    """Return the tile with its lower left corner at 0, 0 and its length along x."""
    if tile["shape"] == "rectangle":
        return shapely.box(0, 0, tile["length"], tile["width"])
    across, side = tile["across_flats"], tile["across_flats"] / math.sqrt(3)
    corners = [(0.5, 0), (1, 0.5), (1, 1.5), (0.5, 2), (0, 1.5), (0, 0.5)]
    return Polygon([(x * across, y * side) for x, y in corners])


def rigid(source: NDArray[np.float64], target: NDArray[np.float64]) -> tuple[NDArray[np.float64], float]:
    """Return the best turn (2, 2) of `source` onto `target` without mirroring, and largest error (Kabsch)."""
    a, b = source - source.mean(axis=0), target - target.mean(axis=0)
    u, _, v = np.linalg.svd(a.T @ b)
    turn = u @ np.diag([1.0, np.sign(np.linalg.det(u @ v))]) @ v
    return turn, float(np.abs(a @ turn - b).max())


def test_every_cut_piece_is_sawn_once_from_inside_a_tile_and_never_mirrored(case: Case) -> None:
    tile = outline_of(case.tile)
    sawn = [piece for opened in case.printed["cut_from"] for piece in opened["pieces"]]
    assert sorted(piece["piece"] for piece in sawn) == sorted(
        id for id, p in case.pieces.items() if not p["whole"]
    )
    numbers = [opened["tile"] for opened in case.printed["cut_from"]]
    assert numbers == list(range(1, len(numbers) + 1))
    for piece in sawn:
        laid = np.array(case.pieces[piece["piece"]]["outline"])
        outline = np.array(piece["outline"])
        assert tile.buffer(1e-5).covers(Polygon(outline))
        turn, error = rigid(outline, laid)
        assert error < 1e-4
        assert np.linalg.det(turn) == pytest.approx(1)


def test_the_edges_that_face_a_joint_are_factory_edges(case: Case) -> None:
    """A side of a laid piece that is not on the region's boundary must lie on the outline of the tile."""
    border, tile = case.region.boundary.buffer(0.05), outline_of(case.tile).boundary.buffer(1e-4)
    for opened in case.printed["cut_from"]:
        for piece in opened["pieces"]:
            laid = case.pieces[piece["piece"]]["outline"]
            for side, in_tile in zip(sides(laid), sides(piece["outline"]), strict=True):
                assert border.covers(side) or tile.covers(in_tile)


def sides(ring: list[Any]) -> list[LineString]:
    return [LineString(pair) for pair in zip(ring, ring[1:] + ring[:1], strict=True)]


def test_the_counts_of_tiles_follow_from_the_pieces(case: Case) -> None:
    printed = case.printed
    assert printed["tiles_needed"] == printed["whole"] + len(printed["cut_from"])
    by_area = printed["covered_area"] / outline_of(case.tile).area
    assert by_area - 1e-6 <= printed["tiles_needed_at_least"] <= printed["tiles_needed"]


def test_the_bound_is_no_lower_than_the_area_of_the_cut_pieces_asks(case: Case) -> None:
    tile_area = outline_of(case.tile).area
    cut_area = sum(polygon(piece).area for piece in case.pieces.values() if not piece["whole"])
    by_area = case.printed["whole"] + math.ceil(cut_area / tile_area - 1e-6)
    assert by_area <= case.printed["tiles_needed_at_least"]


def test_pieces_of_one_tile_are_a_kerf_apart(case: Case) -> None:
    for opened in case.printed["cut_from"]:
        shapes = [Polygon(piece["outline"]) for piece in opened["pieces"]]
        for one, other in itertools.combinations(shapes, 2):
            assert one.distance(other) >= case.kerf - 1e-5
