"""Errors, the drop-in loader and the finder of resources."""

from __future__ import annotations

from pathlib import Path

import pytest

import tilelayout.job.edits
from tilelayout.base import resources
from tilelayout.base.dropin import modules_in
from tilelayout.base.errors import JobFileError, LengthError, TileLayoutError


def test_an_error_says_what_happened_and_what_to_do() -> None:
    assert str(TileLayoutError("It is full.", "Empty it.")) == "It is full. Empty it."
    assert str(TileLayoutError("It is full.")) == "It is full."


def test_an_error_of_a_job_file_names_file_and_place() -> None:
    error = JobFileError("It is missing.", "Add it.", file="a.tilejob", place="tiles[0].id")
    assert str(error) == "a.tilejob: tiles[0].id: It is missing. Add it."
    assert str(JobFileError("It is missing.", place="tiles")) == "tiles: It is missing."


def test_a_long_text_is_shortened_in_its_error() -> None:
    assert len(str(LengthError("7" * 10_000, "it is far too long", ("1 m", "2 m")))) < 120


def test_a_drop_in_folder_lists_its_public_modules_in_order() -> None:
    names = list(modules_in(tilelayout.job.edits))
    assert names == sorted(names)
    assert {"surfaces", "tiles", "layouts", "jobs", "ids"} <= set(names)


def test_a_resource_is_found_in_the_wheel_first_then_beside_the_package(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(resources, "_PACKAGE", tmp_path / "package")
    (tmp_path / "resources").mkdir(parents=True)
    (tmp_path / "resources" / "icon").write_text("beside")
    assert resources.resource("icon").read_text() == "beside"
    (tmp_path / "package" / "_resources").mkdir(parents=True)
    (tmp_path / "package" / "_resources" / "icon").write_text("inside")
    assert resources.resource("icon").read_text() == "inside"
    with pytest.raises(FileNotFoundError):
        resources.resource("nothing")
