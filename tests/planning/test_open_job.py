"""Opening a job checks and settles the settings of every pattern."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tilelayout.base.errors import JobFileError
from tilelayout.planning.open_job import check_job, open_job


def job_file(folder: Path, **layout: Any) -> Path:
    tree = {
        "format": "tilejob",
        "version": 1,
        "surfaces": [{"id": "floor", "outline": [[0, 0], ["12 ft", 0], ["12 ft", "8 ft"], [0, "8 ft"]]}],
        "tiles": [{"id": "square", "shape": "rectangle", "length": 297, "width": 297}],
        "layouts": [
            {"id": "first", "surface": "floor", "tile": "square"},
            {"id": "second", "surface": "floor", "tile": "square", **layout},
        ],
    }
    path = folder / "room.tilejob"
    path.write_text(json.dumps(tree), encoding="utf-8")
    return path


def test_settings_come_in_one_form_and_a_settled_job_stays_the_same_object(tmp_path: Path) -> None:
    job = open_job(job_file(tmp_path, pattern="rows", row_offsets=[0, 1]))
    assert [layout.settings for layout in job.layouts] == [{}, {"row_offsets": (0.0, 1.0)}]
    assert check_job(job) is job


@pytest.mark.parametrize(
    ("layout", "place"),
    [
        ({"pattern": "rows", "row_ofsets": [0]}, "layouts[1].row_ofsets"),
        ({"pattern": "rows", "row_offsets": ["half"]}, "layouts[1].row_offsets[0]"),
        ({"pattern": "scales"}, "layouts[1].pattern"),
    ],
)
def test_a_wrong_setting_is_named_with_file_and_place(
    tmp_path: Path, layout: dict[str, Any], place: str
) -> None:
    path = job_file(tmp_path, **layout)
    with pytest.raises(JobFileError) as caught:
        open_job(path)
    assert (caught.value.file, caught.value.place) == (str(path), place)
