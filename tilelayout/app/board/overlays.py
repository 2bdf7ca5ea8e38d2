"""What other parts of the window lay over the room on the board."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from tilelayout.app.surface.sight import Sight
from tilelayout.job.values import Layout


class Overlays(QObject):
    """The layout that is only offered, the heights read, the pieces that are sawn. `changed` after each."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.ghost: Layout | None = None
        self.survey: Sight | None = None
        self.sawn: frozenset[str] = frozenset()

    def show_ghost(self, layout: Layout | None) -> None:
        """Show where a layout that is only offered would start; None shows nothing."""
        self.ghost = layout
        self.changed.emit()

    def show_survey(self, sight: Sight | None) -> None:
        """Show the heights read on the surface, where they are the question; None shows none."""
        self.survey = sight
        self.changed.emit()

    def show_sawn(self, ids: Iterable[str]) -> None:
        """Mark the pieces with these ids as sawn, while the cut list is the question."""
        self.sawn = frozenset(ids)
        self.changed.emit()
