"""The parts of the window that an action may reach."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tilelayout.app.bench import Stage

if TYPE_CHECKING:
    from tilelayout.app.bench import Bench
    from tilelayout.app.board.board import Board
    from tilelayout.app.compare.place import ComparePlace
    from tilelayout.app.documents import Documents
    from tilelayout.app.printing import Printing
    from tilelayout.app.window import Window


@dataclass(frozen=True)
class Workplace:
    """One window's parts."""

    bench: Bench
    board: Board
    documents: Documents
    printing: Printing
    window: Window

    @property
    def sight(self) -> Board | ComparePlace:
        """What shows the surface: the board, or the linked views where layouts are compared."""
        return self.window.compare if self.bench.stage is Stage.COMPARE else self.board
