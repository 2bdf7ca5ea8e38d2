"""A tool is driven from outside: its edits are applied or refused, and it never answers itself."""

from __future__ import annotations

from tests.drawing.play import Play, room
from tilelayout.base.errors import EditError
from tilelayout.drawing.context import Change, Context, Tool
from tilelayout.drawing.events import Entered, Refreshed, Refused
from tilelayout.drawing.preview import Preview
from tilelayout.job.edits.jobs import set_title
from tilelayout.job.values import Job


def titling(_context: Context) -> Tool:
    """Set a title at every event but one, and show what came of it."""
    shown = "ready"
    while True:
        yield Preview(hint=shown)
        answer = yield Change("Set title", lambda job: set_title(job, f"{job.title}x"))
        shown = answer.words if isinstance(answer, Refused) else "done"


def failing(_context: Context) -> Tool:
    def impossible(_job: Job) -> Job:
        raise EditError("This cannot be.", "Do that.")

    yield Preview(hint="ready")
    answer = yield Change("Fail", impossible)
    yield Preview(trouble=answer.words if isinstance(answer, Refused) else "accepted")


def test_an_edit_that_is_offered_is_applied_before_the_next_preview() -> None:
    play = Play(titling, room())
    assert play.preview.hint == "ready"
    assert play.send(Entered()).hint == "done"
    assert play.session.job.title == "x"


def test_a_refused_edit_comes_back_as_words_and_changes_nothing() -> None:
    play = Play(failing, room())
    before = play.session.job
    assert play.send(Entered()).trouble == "This cannot be. Do that."
    assert play.session.job is before


def test_news_of_the_tool_s_own_edit_is_not_sent_back_to_it() -> None:
    play = Play(titling, room())

    def echo(_before: Job, after: Job, _label: str) -> None:
        if len(after.title) < 5:
            play.send(Refreshed())

    play.session.watch(echo)
    play.send(Entered())
    assert play.session.job.title == "x"


def test_a_tool_that_is_over_shows_nothing_and_takes_nothing() -> None:
    play = Play(failing, room())
    play.send(Entered(), Entered())
    assert play.run.is_over
    assert play.send(Entered()) == Preview()
