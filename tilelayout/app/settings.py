"""What the program remembers between two runs, written when it changes, never only at the end: Qt writes a
changed value as soon as the window next waits for the person.

The file is an ini file of our own in the folder the system keeps for settings.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings, QStandardPaths

from tilelayout.app.bench import Stage
from tilelayout.app.look import Scheme

MOST_RECENT = 10


class Settings:
    """The settings in `folder`; the system's own place for them if none is given."""

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder or _usual_folder()
        self._file = QSettings(str(self.folder / "tilelayout.ini"), QSettings.Format.IniFormat)

    @property
    def scheme(self) -> Scheme:
        """Light, dark or as the system has it."""
        text = str(self._file.value("look/scheme", Scheme.SYSTEM))
        return Scheme(text) if text in set(Scheme) else Scheme.SYSTEM

    @scheme.setter
    def scheme(self, scheme: Scheme) -> None:
        self._write("look/scheme", str(scheme))

    @property
    def recent(self) -> tuple[Path, ...]:
        """The files opened or saved last, newest first, missing ones too."""
        paths = self._file.value("files/recent", []) or []
        paths = [paths] if isinstance(paths, str) else paths
        return tuple(Path(str(path)) for path in _as_list(paths))

    def remember(self, path: Path) -> None:
        """Put a file at the top of the recent ones."""
        kept = [path, *(each for each in self.recent if each != path)]
        self._write("files/recent", [str(each) for each in kept[:MOST_RECENT]])
        self._write("files/last", str(path))

    def forget_recent(self) -> None:
        """Clear the list of recent files."""
        self._write("files/recent", [])

    @property
    def last(self) -> Path | None:
        """The file that was open last; None if none was, or it was left for a new job."""
        text = str(self._file.value("files/last", ""))
        return Path(text) if text else None

    def forget_last(self) -> None:
        """Begin with an empty job next time."""
        self._write("files/last", "")

    @property
    def stage(self) -> Stage:
        """The question that was in front last."""
        text = str(self._file.value("window/stage", Stage.MEASURE))
        return Stage(text) if text in set(Stage) else Stage.MEASURE

    @stage.setter
    def stage(self, stage: Stage) -> None:
        self._write("window/stage", str(stage))

    @property
    def geometry(self) -> QByteArray:
        """Place and size of the window; empty before the first run."""
        value = self._file.value("window/geometry", QByteArray())
        return value if isinstance(value, QByteArray) else QByteArray()

    @geometry.setter
    def geometry(self, geometry: QByteArray) -> None:
        self._write("window/geometry", geometry)

    @property
    def paper(self) -> str:
        """The paper of the last print, "letter" or "a4"."""
        text = str(self._file.value("print/paper", ""))
        return text if text in ("letter", "a4") else ""

    @paper.setter
    def paper(self, paper: str) -> None:
        self._write("print/paper", paper)

    def _write(self, key: str, value: object) -> None:
        self._file.setValue(key, value)


def _as_list(value: object) -> Iterable[object]:
    return value if isinstance(value, list | tuple) else []


def _usual_folder() -> Path:
    place = QStandardPaths.StandardLocation.GenericConfigLocation
    return Path(QStandardPaths.writableLocation(place)) / "tilelayout"
