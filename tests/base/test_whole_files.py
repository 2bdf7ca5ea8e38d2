"""A file is written whole or not at all."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from tilelayout.base.whole_files import write_whole


def test_a_new_file_gets_the_permissions_new_files_get(tmp_path: Path) -> None:
    plain = tmp_path / "plain"
    plain.write_bytes(b"")
    write_whole(tmp_path / "new", b"content")
    assert (tmp_path / "new").read_bytes() == b"content"
    assert (tmp_path / "new").stat().st_mode == plain.stat().st_mode


def test_an_old_file_keeps_its_permissions(tmp_path: Path) -> None:
    path = tmp_path / "old"
    path.write_bytes(b"old")
    path.chmod(0o640)
    write_whole(path, b"new")
    assert path.read_bytes() == b"new"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").write_bytes(b"old")
    (tmp_path / "link").symlink_to("real")
    write_whole(tmp_path / "link", b"new")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real").read_bytes() == b"new"


def test_a_read_only_file_is_not_replaced(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "old"
    path.write_bytes(b"old")
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(PermissionError, match="read-only"):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"


def test_a_folder_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    with pytest.raises(IsADirectoryError):
        write_whole(tmp_path / "folder", b"new")
    assert (tmp_path / "folder").is_dir()


@pytest.mark.parametrize("step", ["os.fsync", "os.fdopen", "pathlib.Path.chmod", "pathlib.Path.replace"])
def test_trouble_at_any_step_leaves_the_old_file_alone(
    step: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "old"
    path.write_bytes(b"old")

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(step, full)
        with pytest.raises(OSError, match="No space"):
            write_whole(path, b"new")
    assert [entry.name for entry in tmp_path.iterdir()] == ["old"]
    assert path.read_bytes() == b"old"


def test_being_interrupted_leaves_the_old_file_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "old"
    path.write_bytes(b"old")

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_whole(path, b"new")
    assert [entry.name for entry in tmp_path.iterdir()] == ["old"]
