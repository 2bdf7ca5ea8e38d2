"""`flat` says whether tiles sit: its own keys beside the fixed ones, and text."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests.cli.calls import SAMPLES, called
from tests.cli.test_flat import room

PANTRY = str(SAMPLES / "uneven_pantry.tilejob")


@cache
def pantry() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(called("flat", PANTRY, "--json").out)
    return found


def test_each_survey_says_how_its_layouts_sit() -> None:
    slabs, small = pantry()["surveys"][0]["sitting"]
    assert (slabs["layout"], slabs["ok"], small["layout"], small["ok"]) == ("A", False, "B", None)
    worst = slabs["worries"][0]
    assert worst["piece"] == "G2" and "rocks" in worst["is"]
    assert worst["on"] == [650.0, 1250.0]
    assert worst["rock"] == pytest.approx(slabs["rock"])
    assert worst["step"]["to"] == "G3"
    assert worst["step"]["worst"] == pytest.approx(worst["step"]["by_surface"] + worst["step"]["by_bow"])
    assert worst["step_allowed"] == pytest.approx(25.4 / 32)
    assert worst["bed"][0] >= worst["bed_allowed"][0] - 1e-6
    assert any("A108.02" in source for source in slabs["sources"])
    assert "measure every 152 mm" in small["why"]


def test_every_tile_stands_beside_every_surveyed_surface() -> None:
    slabs, small = pantry()["tiles_on_surfaces"]
    assert (slabs["tile"], slabs["fits"]) == ("slab-grey", "fits after preparation")
    assert slabs["fill"]["volume"] == pytest.approx(pantry()["surveys"][0]["least_fill"]["volume"])
    assert (small["tile"], small["fits"], small["fill"]) == ("plain-150", "cannot be judged", None)


def test_the_text_names_the_tiles_and_the_table() -> None:
    text = " ".join(called("flat", PANTRY).out.split())
    assert "Will the tiles of A sit on Pantry floor?" in text
    assert "G2 rocks" in text and "on the high spot at (650 mm, 1250 mm)" in text
    assert "Slab grey 200 x 400 on Laser and tape, every 300 mm: fits after preparation" in text


def test_a_layout_that_cannot_be_laid_is_said_and_stops_nothing(tmp_path: Path) -> None:
    layout = {"id": "A", "surface": "floor", "tile": "slab", "pattern": "hexagon"}
    (survey,) = json.loads(called("flat", room(tmp_path, layouts=[layout]), "--json").out)["surveys"]
    (told,) = survey["sitting"]
    assert told["ok"] is None and "hexagon" in told["why"].lower()
