"""The parts of the window that an action may reach."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tilelayout.app.bench import Bench
    from tilelayout.app.board.board import Board
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
