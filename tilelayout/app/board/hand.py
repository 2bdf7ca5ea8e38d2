"""The tool in the person's hand: hands it events, tells the board what it shows, says what it refuses.

The tools themselves know no window (`tilelayout.drawing`). This is the side of them that faces Qt.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from tilelayout.drawing.context import Context, Tool
from tilelayout.drawing.events import Event, Refreshed
from tilelayout.drawing.preview import Preview
from tilelayout.drawing.running import ToolRun
from tilelayout.drawing.stage import PASSING
from tilelayout.job.session import Session


class Hand(QObject):
    """Holds one tool at a time. `changed` follows every event; `refused("")` takes back what was refused."""

    changed = Signal()
    ended = Signal()
    refused = Signal(str)

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._run: ToolRun | None = None
        self._is_busy = False
        self._trouble = ""
        self._is_said = False

    @property
    def preview(self) -> Preview:
        """What the tool shows."""
        return self._run.preview if self._run else Preview()

    @property
    def is_empty(self) -> bool:
        """Whether no tool is held."""
        return self._run is None or self._run.is_over

    @property
    def is_busy(self) -> bool:
        """Whether the tool is changing the job at this very moment."""
        return self._is_busy

    def take(self, tool: Callable[[Context], Tool], context: Context) -> None:
        """Put the tool down that is held, undoing what it was in the middle of, and take another."""
        self.put_down()
        self._run = ToolRun(tool, context, self._session)
        self._tell()

    def put_down(self) -> None:
        """Leave the tool that is held."""
        if self._run is not None and not self._run.is_over:
            self._busily(self._run.end)
        self._run = None

    def send(self, event: Event) -> None:
        """Hand an event to the tool."""
        run = self._run
        if run is None or self.is_empty or self._is_busy:
            return
        self._busily(lambda: run.send(event))
        self._tell(is_meant=not isinstance(event, PASSING))
        self._end_if_over()

    def refresh(self) -> None:
        """Tell the tool that the job was changed by someone else."""
        self.send(Refreshed())

    def _end_if_over(self) -> None:
        if self.is_empty:
            self.ended.emit()

    def _busily(self, step: Callable[[], object]) -> None:
        self._is_busy = True
        try:
            step()
        finally:
            self._is_busy = False

    def _tell(self, *, is_meant: bool = True) -> None:
        """Say what was refused; once something else that was meant has gone well, say "" instead."""
        trouble = self.preview.trouble
        if (trouble and trouble != self._trouble) or (self._is_said and not trouble and is_meant):
            self.refused.emit(trouble)
            self._is_said = bool(trouble)
        self._trouble = trouble
        self.changed.emit()
