"""The best start is sought, cancelled, taken, kept, compared and laid, with a real mouse and real keys."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QScrollArea
from pytestqt.qtbot import QtBot

from tests.app.boards import job_with
from tests.app.compared import front, ids, wait
from tests.app.opened import bare_window, click, close, settle, type_in
from tests.rooms import rectangle
from tilelayout.app.bench import Stage
from tilelayout.app.board.layers.ghost import ghost_lines
from tilelayout.app.seeking import seeker
from tilelayout.app.seeking.seeker import DROPPED, STOPPED, Answer
from tilelayout.app.seeking.wanted import Varied, Wanted, is_alike
from tilelayout.app.window import Window
from tilelayout.job.edits.layouts import move_start, replace_layout
from tilelayout.job.values import Job, Layout
from tilelayout.layout.seeking.aims import Aim
from tilelayout.planning.alternatives import Step, alternatives
from tilelayout.planning.seek_ways import Wish

PATIENCE_MS = 120_000
NO_KEY, CTRL = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ControlModifier


def small_room() -> Job:
    """A room so small that a search takes no time, its layout badly started."""
    return job_with(rectangle(2000, 1400), start=(40, 30))


@lru_cache(maxsize=1)
def steps_of_small_room() -> tuple[Step, ...]:
    """What the search in the small room says, worked out once."""
    return tuple(alternatives(small_room(), "floor", "slate", Wish(Aim.BALANCED)))


@pytest.fixture
def known(shown: Window, monkeypatch: pytest.MonkeyPatch) -> Window:
    """The same, its search gone through before, so that it takes no time."""
    monkeypatch.setattr(seeker, "alternatives", lambda *_asked: iter(steps_of_small_room()))
    return shown


@pytest.fixture
def shown(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    """A window where the start of the small room is the question."""
    window = bare_window(tmp_path / "settings", small_room())
    window.bench.show(stage=Stage.SET_OUT)
    settle()
    yield window
    close(window)


def find(window: Window, qtbot: QtBot) -> Answer:
    """Seek by the button of the card and wait for the answer."""
    click(window.set_out.seek.find)
    return answered(window, qtbot)


def answered(window: Window, qtbot: QtBot) -> Answer:
    """Wait for the answer."""
    qtbot.waitUntil(lambda: not window.bench.seeker.is_working, timeout=PATIENCE_MS)
    settle()
    answer = window.bench.seeker.answer
    assert answer is not None
    return answer


def is_seeking(window: Window) -> bool:
    """Whether a search is under way."""
    return window.bench.seeker.is_working


def laid(window: Window) -> Layout:
    """The layout in front."""
    layout = window.bench.layout
    assert layout is not None
    return layout


def count_of_steps(window: Window) -> int:
    """How many steps undo could take back."""
    return len(window.bench.session._history.past)


def test_the_best_start_is_found_by_a_key_and_taken_in_one_step(shown: Window, qtbot: QtBot) -> None:
    shown.bench.show(stage=Stage.MEASURE)
    before, seek = laid(shown), shown.set_out.seek
    QTest.keyClick(shown, Qt.Key.Key_F, CTRL)
    settle()
    assert shown.bench.stage is Stage.SET_OUT and seek.bar.isVisible() and seek.stop.isVisible()
    answer = answered(shown, qtbot)
    wanted = steps_of_small_room()[-1].found
    assert [offer.layout.start for offer in answer.offers] == [found.layout.start for found in wanted]
    assert answer.offers[0].why in seek.state.text() and not seek.bar.isVisible()
    assert laid(shown) is before and count_of_steps(shown) == 0, "nothing is changed by what is found"
    click(seek.take)
    assert laid(shown).start == wanted[0].layout.start and count_of_steps(shown) == 1
    assert not seek.take.isVisible() and "layout a" in seek.state.text()
    QTest.keyClick(shown, Qt.Key.Key_Z, CTRL)
    assert laid(shown) == before
    assert seek.take.isVisible(), "what was found is offered again"


@pytest.mark.parametrize("by", ["Esc", "button"])
def test_a_search_is_stopped_at_once_and_nothing_has_changed(shown: Window, qtbot: QtBot, by: str) -> None:
    seek, asked, before = shown.set_out.seek, shown.bench.seeker, shown.bench.job
    click(seek.find)
    assert is_seeking(shown)
    if by == "Esc":
        QTest.keyClick(shown.board, Qt.Key.Key_Escape)
    else:
        click(seek.stop)
    assert not is_seeking(shown) and seek.state.text() == STOPPED
    assert shown.bench.job is before and count_of_steps(shown) == 0
    assert not shown.actions_.by_id["stop-search"].isEnabled()
    qtbot.waitUntil(lambda: not asked._work.is_working, timeout=PATIENCE_MS)
    settle()
    assert asked.answer is None, "a late answer is dropped"
    assert seek.find.isEnabled(), "and the search can be begun again"


def test_the_best_so_far_is_said_and_drawn_while_the_search_goes_on(known: Window, qtbot: QtBot) -> None:
    seek, asked = known.set_out.seek, known.bench.seeker
    seen: list[tuple[str, bool]] = []
    asked.changed.connect(lambda: seen.append((seek.state.text(), asked.ghost is not None)))
    find(known, qtbot)
    assert any(words.startswith("Best so far") and is_drawn for words, is_drawn in seen)
    ghost = known.board.over.ghost
    assert ghost is not None and is_alike(ghost, known.bench.seeker.offers[0].layout)
    for (ax, ay), (bx, by) in ghost_lines(ghost, small_room().surfaces[0]):
        across, up = abs(bx - ax), abs(by - ay)
        assert (across, up) == pytest.approx((2000, 0)) or (across, up) == pytest.approx((0, 1400))
    known.bench.show(stage=Stage.CUT)
    assert known.board.over.ghost is None


def test_a_search_whose_layout_is_changed_is_dropped_and_a_moved_start_changes_nothing(
    shown: Window, qtbot: QtBot
) -> None:
    seek, asked = shown.set_out.seek, shown.bench.seeker
    click(seek.find)
    shown.bench.apply("Move start", lambda job: move_start(job, "A", (100.0, 90.0)))
    assert is_seeking(shown)
    shown.bench.apply("Joint", lambda job: replace_layout(job, "A", joint=5.0))
    assert not is_seeking(shown) and seek.state.text() == DROPPED
    qtbot.waitUntil(lambda: not asked._work.is_working, timeout=PATIENCE_MS)
    assert asked.answer is None


def test_what_was_found_for_another_room_is_not_offered_and_comes_back_with_it(
    known: Window, qtbot: QtBot
) -> None:
    answer = find(known, qtbot)
    wider = rectangle(2100, 1400)
    known.bench.apply("Widen", lambda job: replace(job, surfaces=(wider,)))
    assert known.bench.seeker.answer is None and not known.set_out.seek.take.isVisible()
    known.bench.session.undo()
    assert known.bench.seeker.answer is answer


def test_it_is_kept_beside_the_layout_there_is(known: Window, qtbot: QtBot) -> None:
    before, answer = laid(known), find(known, qtbot)
    click(known.set_out.seek.keep)
    assert [layout.id for layout in known.bench.job.layouts] == ["A", "B"]
    assert known.bench.job.layouts[0] is before
    assert is_alike(laid(known), answer.offers[0].layout) and laid(known).name == ""
    assert len(known.bench.seeker.offers) == len(answer.offers) - 1
    assert count_of_steps(known) == 1
    known.bench.session.undo()
    assert len(known.bench.seeker.offers) == len(answer.offers)


def test_what_is_put_away_is_offered_no_longer(known: Window, qtbot: QtBot) -> None:
    find(known, qtbot)
    click(known.set_out.seek.put_away)
    assert known.bench.seeker.offers == () and known.bench.seeker.ghost is None
    assert not known.set_out.seek.state.isVisible()


def test_the_button_at_the_foot_says_what_comes_next(known: Window, qtbot: QtBot) -> None:
    button = known.set_out.next_button
    assert button.text().replace("&", "") == "Next: see the cuts"
    count = 1 + len(find(known, qtbot).offers)
    assert button.text().replace("&", "") == f"Next: compare {count} layouts"
    click(button)
    assert known.bench.stage is Stage.COMPARE


def test_three_are_compared_one_is_laid_and_that_is_undone(known: Window, qtbot: QtBot) -> None:
    """A whole task: found, seen side by side, picked, laid, undone."""
    answer = find(known, qtbot)
    click(known.set_out.seek.compare)
    wait(known, qtbot)
    card = known.choice
    assert card.found.isVisible() and card.found.count() == len(answer.offers) >= 3
    assert ids(known)[0] == "A" and set(ids(known)) > {"A", "1"}, "the best stands beside what is laid"
    for row, offer in enumerate(answer.offers):
        spoken = card.found.item(row).data(Qt.ItemDataRole.AccessibleTextRole)
        assert offer.why.startswith(offer.reason.rstrip("."))
        assert offer.why in spoken and "narrowest" in spoken and "tiles" in spoken
    for id in ids(known)[3:]:
        click(card.letters.buttons[id])
    wait(known, qtbot)
    assert len(ids(known)) == len(known.compare.panes) == 3
    assert card.table.rows.ids == tuple(ids(known))
    second = card.found.visualItemRect(card.found.item(1)).center()
    click(card.found.viewport(), second)
    wait(known, qtbot)
    assert known.beside.front is answer.offers[1].layout
    assert [pane.accessibleName() for pane in known.compare.panes if pane.is_in_front] == [
        "2, found, in front"
    ]
    before = known.bench.job
    click(card.next_button)
    assert known.bench.stage is Stage.CUT and is_alike(laid(known), answer.offers[1].layout)
    assert [layout.id for layout in known.bench.job.layouts] == ["B", "A"] and count_of_steps(known) == 1
    known.bench.show(stage=Stage.COMPARE)
    wait(known, qtbot)
    assert card.found.count() == len(answer.offers) - 1, "what is laid is no longer only found"
    QTest.keyClick(known, Qt.Key.Key_Z, CTRL)
    wait(known, qtbot)
    assert known.bench.job == before and card.found.count() == len(answer.offers)


def test_a_name_keeps_what_was_found(known: Window, qtbot: QtBot) -> None:
    answer = find(known, qtbot)
    known.bench.show(stage=Stage.COMPARE)
    known.beside.bring("1")
    wait(known, qtbot)
    assert known.choice.keep.isVisible() and not known.choice.copy.isVisible()
    type_in(known.choice.name, "Even all round")
    wait(known, qtbot)
    assert known.bench.job.layout("B").name == "Even all round" and front(known) == "B"
    assert is_alike(known.bench.job.layout("B"), answer.offers[0].layout)
    assert known.choice.copy.isVisible() and "1" not in ids(known)
    assert count_of_steps(known) == 1


def test_the_list_is_gone_through_by_keys(known: Window, qtbot: QtBot) -> None:
    find(known, qtbot)
    known.bench.show(stage=Stage.COMPARE)
    wait(known, qtbot)
    known.choice.found.setFocus()
    QTest.keyClick(known.choice.found, Qt.Key.Key_Down)
    QTest.keyClick(QApplication.focusWidget() or known, Qt.Key.Key_Down)
    settle()
    assert known.beside.offer_in_front is known.bench.seeker.offers[1]


def test_what_cannot_be_had_is_said_on_both_cards(known: Window, qtbot: QtBot) -> None:
    answer = find(known, qtbot)
    known.bench.show(stage=Stage.COMPARE)
    wait(known, qtbot)
    assert known.choice.cannot.isVisible() == bool(answer.cannot)
    for sentence in answer.cannot:
        assert sentence.endswith(".") and sentence in known.choice.cannot.text()
        assert sentence in known.set_out.seek.state.text()


def test_nothing_is_cut_off_on_a_small_screen_with_everything_shown(known: Window, qtbot: QtBot) -> None:
    find(known, qtbot)
    known.bench.show(stage=Stage.COMPARE)
    wait(known, qtbot)
    table = known.choice.table
    assert not table.horizontalScrollBar().isVisible()
    assert known.compare.width() > known.deck.width()
    assert known.choice.found.height() >= known.choice.found.sizeHintForRow(0)
    card = known.choice.findChild(QScrollArea, "cardScroll")
    assert isinstance(card, QScrollArea) and card.verticalScrollBar().maximum() == 0
    assert known.choice.name.isVisible() and known.choice.paper.isVisible()


def test_what_may_vary_is_chosen_in_words_and_becomes_the_wish(shown: Window) -> None:
    seek = shown.set_out.seek
    assert not seek.least.isVisible()
    seek.vary.choose(frozenset((Varied.ANGLE, Varied.ROWS, Varied.JOINT)))
    settle()
    assert seek.least.isVisible()
    type_in(seek.most, "6")
    wish = seek.wanted.wish(laid(shown))
    assert wish.joints == (2.0, 6.0)
    assert wish.angles[0] == 0.0 and 45.0 in wish.angles
    assert (0.0, 0.5) in wish.row_offsets and wish.row_offsets[0] == (0.0,)
    seek.vary.choose(frozenset())
    assert seek.wanted == Wanted() and not seek.least.isVisible()


def test_closing_the_window_ends_a_search(qtbot: QtBot, tmp_path: Path) -> None:
    window = bare_window(tmp_path / "settings", small_room())
    window.find_start()
    assert window.bench.seeker.is_working
    close(window)
