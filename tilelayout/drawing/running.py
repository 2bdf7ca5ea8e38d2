"""Drives a tool: hands it events, applies the edits it offers, keeps its newest preview.

The window needs only this: `send` an event, paint `preview`, stop when `is_over`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from tilelayout.base.errors import EditError
from tilelayout.drawing.context import Answer, Change, Context, Tool
from tilelayout.drawing.events import Accepted, Escaped, Event, Refused
from tilelayout.drawing.preview import Preview
from tilelayout.job.values import Job


class Bench(Protocol):
    """Where edits are applied: the session, or whatever stands for it in a test."""

    def apply(self, label: str, edit: Callable[[Job], Job], gesture: object | None = None) -> object:
        """Apply an edit; EditError if it is impossible, and then nothing has changed."""


class ToolRun:
    """One tool at work. `preview` is what to paint; once `is_over` it takes no more events."""

    def __init__(self, tool: Callable[[Context], Tool], context: Context, bench: Bench) -> None:
        self._tool = tool(context)
        self._bench = bench
        self.preview = Preview()
        self.is_over = False
        self._is_busy = False
        self._advance(lambda: next(self._tool))

    def send(self, event: Event) -> Preview:
        """Hand an event to the tool and return the preview that follows from it.

        What arrives while the tool's own edit is being applied is news of that edit, and is dropped.
        """
        if not self.is_over and not self._is_busy:
            self._advance(lambda: self._tool.send(event))
        return self.preview

    def end(self) -> None:
        """Leave the tool as so many Esc would: what it was in the middle of is taken back."""
        while not self.is_over:
            self.send(Escaped())

    def _advance(self, first: Callable[[], Answer]) -> None:
        self._is_busy = True
        try:
            answer = first()
            while not isinstance(answer, Preview):
                answer = self._tool.send(self._settle(answer))
        except StopIteration:
            self.is_over = True
            self.preview = Preview()
        else:
            self.preview = answer
        finally:
            self._is_busy = False

    def _settle(self, answer: Change) -> Event:
        try:
            self._bench.apply(answer.label, answer.edit, answer.gesture)
        except EditError as error:
            return Refused(str(error))
        return Accepted()
