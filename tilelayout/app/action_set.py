"""Makes Qt's actions from the table: the menus, the strip above the board, and the list of keys."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QHBoxLayout, QLayout, QMenu, QMenuBar, QToolButton, QWidget

from tilelayout.app.access_keys import give_keys
from tilelayout.app.actions import ACTIONS, Action, Menu, key_sequences
from tilelayout.app.bench import Stage
from tilelayout.app.flow import Flow
from tilelayout.app.look import STEP
from tilelayout.app.samples import samples
from tilelayout.app.settings import Settings
from tilelayout.app.workplace import Workplace


class ActionSet(QObject):
    """All actions of one window, kept in step with the bench."""

    def __init__(self, place: Workplace) -> None:
        super().__init__(place.window)
        self._place = place
        self.by_id: dict[str, QAction] = {}
        for action in ACTIONS:
            self.by_id[action.id] = self._made(action)
        bench = place.bench
        follows = (bench.job_changed, bench.place_changed, bench.seeker.changed)
        for heard in (*follows, bench.look.changed, place.board.tool_ended):
            heard.connect(self.refresh)
        self.refresh()

    def refresh(self, *_said: object) -> None:
        """Show which actions can be asked for and which are in force."""
        session = self._place.bench.session
        for action in ACTIONS:
            made = self.by_id[action.id]
            made.setEnabled(action.when(self._place.bench))
            if action.is_on is not None:
                made.setChecked(action.is_on(self._place))
        self.by_id["undo"].setToolTip(f"Undo: {session.undo_label}" if session.undo_label else "Undo")
        self.by_id["redo"].setToolTip(f"Redo: {session.redo_label}" if session.redo_label else "Redo")

    def _made(self, action: Action) -> QAction:
        made = QAction(action.text, self._place.window)
        made.setIconText(action.strip_text)
        made.setObjectName(action.id)
        made.setCheckable(action.is_on is not None)
        keys = key_sequences(action)
        made.setShortcuts(keys)
        made.triggered.connect(lambda: self._do(action))
        if action.on_board:
            made.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
            self._place.board.addAction(made)
        else:
            self._place.window.addAction(made)
        words = keys[0].toString(QKeySequence.SequenceFormat.NativeText) if keys else ""
        made.setToolTip(f"{action.text} ({words})" if words else action.text)
        return made

    def _do(self, action: Action) -> None:
        action.does(self._place)
        self.refresh()


def fill_menus(bar: QMenuBar, actions: ActionSet, place: Workplace, settings: Settings) -> dict[Menu, QMenu]:
    """Put every action into its menu; return the menus."""
    menus = {menu: bar.addMenu(str(menu)) for menu in Menu}
    for action in ACTIONS:
        if action.begins_group:
            menus[action.menu].addSeparator()
        menus[action.menu].addAction(actions.by_id[action.id])
        if action.id == "open":
            _add_files(menus[Menu.JOB], place, settings)
    for menu in menus.values():
        give_keys(menu.actions())
    return menus


def _add_files(menu: QMenu, place: Workplace, settings: Settings) -> None:
    recent = menu.addMenu("Recent jobs")
    recent.aboutToShow.connect(lambda: fill_recent(recent, place, settings))
    rooms = menu.addMenu("Sample rooms")
    rooms.aboutToShow.connect(lambda: _fill_samples(rooms, place))


def fill_recent(menu: QMenu, place: Workplace, settings: Settings) -> None:
    """List the recent files; one that is gone is shown as missing."""
    menu.clear()
    for path in settings.recent:
        is_there = path.exists()
        entry = menu.addAction(f"{path.name}  –  {_short(path.parent)}" + ("" if is_there else "  (missing)"))
        entry.setEnabled(is_there)
        entry.triggered.connect(lambda _on=False, path=path: place.documents.open_path(path))
    if not settings.recent:
        menu.addAction("None yet").setEnabled(False)
    else:
        menu.addSeparator()
        menu.addAction("Clear the list").triggered.connect(settings.forget_recent)
    give_keys(menu.actions())


def _fill_samples(menu: QMenu, place: Workplace) -> None:
    if menu.isEmpty():
        for path, job in samples():
            entry = menu.addAction(job.title or path.stem)
            entry.triggered.connect(lambda _on=False, job=job: place.documents.open_sample(job))
        give_keys(menu.actions())


def _short(folder: Path) -> str:
    home = Path.home()
    return f"~/{folder.relative_to(home)}" if folder.is_relative_to(home) else str(folder)


class Strip(QWidget):
    """The words above the board: the tools that belong to the question in front, and undo."""

    def __init__(self, actions: ActionSet, place: Workplace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("strip")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName("Tools")
        self._tools, self._steps = QWidget(self), QWidget(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(2 * STEP, STEP, 2 * STEP, 0)
        row.addWidget(self._tools, 1)
        row.addWidget(self._steps, 0, Qt.AlignmentFlag.AlignTop)
        self._flow = Flow(self._tools, STEP)
        steps = QHBoxLayout(self._steps)
        steps.setContentsMargins(0, 0, 0, 0)
        self._buttons: list[tuple[Action, QToolButton]] = []
        for action in ACTIONS:
            if action.stages:
                is_tool = action.menu is Menu.DRAW or action.stages == {Stage.COMPARE}
                layout = self._flow if is_tool else steps
                self._add(action, actions.by_id[action.id], layout)
        self.show_stage(place.bench.stage)

    @property
    def last_button(self) -> QToolButton:
        """The button after which the board follows."""
        return self._buttons[-1][1]

    def show_stage(self, stage: Stage) -> None:
        """Show the tools of a question."""
        for action, button in self._buttons:
            button.setVisible(stage in action.stages)
        self._flow.invalidate()
        self.updateGeometry()

    def _add(self, action: Action, made: QAction, layout: QLayout) -> None:
        button = QToolButton(self)
        button.setDefaultAction(made)
        button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setAccessibleName(action.text)
        layout.addWidget(button)
        self._buttons.append((action, button))
