"""`lay` of a room with octagons and dots, against faces drawn by plain shapely from the job file alone."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator

import numpy as np
import pytest
import shapely
from shapely import Polygon, affinity

from tests.cli import recomputed
from tests.cli.calls import SAMPLES, called
from tests.cli.recomputed import Json

ROOM = SAMPLES / "garden_passage.tilejob"


@pytest.fixture(scope="module")
def job() -> Json:
    found: Json = json.loads(ROOM.read_bytes())
    return found


@pytest.fixture(scope="module")
def layouts() -> list[Json]:
    found: list[Json] = json.loads(called("lay", str(ROOM), "--json").out)["layouts"]
    return found


def faces_of(job: Json, layout: Json) -> Iterator[tuple[str, Polygon]]:
    """Each octagon is a square less four corners; each dot a square on its point, half a pitch away."""
    tiles = {tile["id"]: tile for tile in job["tiles"]}
    octagon, dot = tiles[layout["tile"]], tiles[layout["more_tiles"]["dot"]]
    across, cut = octagon["across_flats"], (octagon["across_flats"] - octagon["side"]) / 2
    corners = [(cut, 0), (across - cut, 0), (across, cut), (across, across - cut)]
    corners += [(across - x, across - y) for x, y in corners]
    eight = affinity.translate(Polygon(corners), -across / 2, -across / 2)
    four = affinity.rotate(shapely.box(0, 0, dot["length"], dot["width"]), 45)
    pitch, (x0, y0) = across + layout["joint"], layout["start"]
    for i in range(-6, 9):
        for j in range(-9, 17):
            x, y = x0 + i * pitch, y0 + j * pitch
            yield layout["tile"], affinity.translate(eight, x, y)
            middle = four.centroid
            yield dot["id"], affinity.translate(four, x + pitch / 2 - middle.x, y + pitch / 2 - middle.y)


def counted(job: Json, layout: Json) -> tuple[Counter[str], Counter[str], dict[str, float]]:
    """Whole tiles, cut pieces and covered area of each tile."""
    region = recomputed.region(job["surfaces"][0], layout["gap"])
    whole, cut, areas = Counter[str](), Counter[str](), dict.fromkeys(("octagon-200", "dot-81"), 0.0)
    for id, face in faces_of(job, layout):
        for part in shapely.get_parts(face & region):
            if part.area > face.area - 1e-3:
                whole[id] += 1
                areas[id] += part.area
            elif part.area > 1e-3 and recomputed.narrowest(part, lost=5.0) >= layout["least_piece"]:
                cut[id] += 1
                areas[id] += part.area
    return whole, cut, areas


@pytest.mark.parametrize("at", [0, 1])
def test_each_tile_is_counted_and_measured_by_itself(job: Json, layouts: list[Json], at: int) -> None:
    layout, printed = job["layouts"][at], layouts[at]
    whole, cut, areas = counted(job, layout)
    assert [count["tile"] for count in printed["by_tile"]] == ["octagon-200", "dot-81"]
    for count in printed["by_tile"]:
        id = count["tile"]
        assert (count["whole"], count["cut"]) == (whole[id], cut[id])
        pieces = [piece for piece in printed["pieces"] if piece["tile"] == id]
        assert sum(Polygon(p["outline"], p["holes"]).area for p in pieces) == pytest.approx(
            areas[id], rel=1e-5
        )
    assert printed["covered_area"] == pytest.approx(sum(areas.values()), rel=1e-5)


def test_what_is_needed_of_each_tile_adds_up(job: Json, layouts: list[Json]) -> None:
    tiles = {tile["id"]: tile for tile in job["tiles"]}
    for printed in layouts:
        for key in ("whole", "cut", "tiles_needed", "tiles_needed_at_least"):
            assert printed[key] == sum(count[key] for count in printed["by_tile"])
        for count in printed["by_tile"]:
            assert count["boxes"] == -(-count["tiles_needed"] // tiles[count["tile"]]["per_box"])
            assert (
                count["whole"] + (count["cut"] > 0) <= count["tiles_needed_at_least"] <= count["tiles_needed"]
            )


def test_no_tile_gives_a_piece_of_another(job: Json, layouts: list[Json]) -> None:
    for printed in layouts:
        tile_of = {piece["id"]: piece["tile"] for piece in printed["pieces"]}
        for opened in printed["cut_from"]:
            assert len({tile_of[piece["piece"]] for piece in opened["pieces"]}) == 1
            for piece in opened["pieces"]:
                most = 200.0 if tile_of[piece["piece"]] == "octagon-200" else 81.0
                corners = np.array(piece["outline"])
                assert corners.min() > -1e-5 and corners.max() < most + 1e-5


def test_the_text_says_each_tile() -> None:
    told = called("lay", str(ROOM), "--layout", "A").out
    assert "Ash octagon 200, Ink dot 81, octagon and dot" in told
    assert told.count("Ink dot 81: ") > 1
    assert " without breakage and spare (" in told
