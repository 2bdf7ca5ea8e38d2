"""What all cards share: the question, three large figures, labelled rows, and one next step at the foot.

A card scrolls rather than shrinks, so that at any text size nothing on it is lost; the next step stays in
sight below it.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QCheckBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from tilelayout.app.access_keys import give_keys, key_of, with_key
from tilelayout.app.bench import Bench, Stage
from tilelayout.app.look import STEP, TextSize


class Figure(QWidget):
    """One large numeral with its caption below. Read out as one thing."""

    def __init__(self, caption: str, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._words = caption
        self.numeral = QLabel(self)
        self.numeral.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom)
        self.setMinimumWidth(12 * STEP)
        self.caption = QLabel(caption, self)
        self.caption.setObjectName("caption")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.numeral)
        column.addWidget(self.caption)
        self.show_value("–")

    def rename(self, caption: str) -> None:
        """Give the number another caption, seen with the next value."""
        self._words = caption

    def show_value(self, value: str) -> None:
        """Show a value; its unit goes to the caption, a long numeral is set in smaller type."""
        numeral, unit = parted(value)
        size = TextSize.FIGURE if len(numeral) <= 4 else TextSize.TITLE
        self.numeral.setFont(self._bench.look.font(size))
        self.numeral.setText(numeral)
        self.caption.setText(f"{unit} {self._words}".strip())
        self.caption.setFont(self._bench.look.font(TextSize.SMALL))
        self.setAccessibleName(f"{self._words}: {value}")
        self.numeral.setAccessibleName(self.accessibleName())


def parted(value: str) -> tuple[str, str]:
    """Return a value's numeral and its unit, if it has one in letters.

    >>> parted("7.96 m²"), parted("95.9 sq ft"), parted("12' 3 1/2\\"")
    (('7.96', 'm²'), ('95.9', 'sq ft'), ('12\\' 3 1/2"', ''))
    """
    numeral, _, unit = value.partition(" ")
    is_unit = bool(unit) and not any(letter.isdecimal() for letter in unit)
    return (numeral, unit) if is_unit else (value, "")


class Card(QWidget):
    """One question. A subclass fills `column`, shows the state in `refresh`, and ends with `finish`.

    What is added while `group` has a name is never on screen with what is added under another, so the two may
    share access keys. What is `FOLDED` away may be on screen with all of it, and gets the keys that are left.
    """

    question = ""
    next_step = ""

    def __init__(self, bench: Bench, captions: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.bench = bench
        self.heading = QLabel(self.question, self)
        self.heading.setWordWrap(True)
        self.next_button = QPushButton(self.next_step, self)
        self.next_button.setObjectName("next")
        self.figures = [Figure(caption, bench, self) for caption in captions]
        self.group = ""
        self._labelled: dict[str, list[QLabel | QPushButton | QCheckBox]] = {"": []}
        self._row_labels: list[QLabel] = []
        self._filler = QWidget(self)
        self._filler.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self._first_stage: Stage | None = None
        self._next_text = ""
        self._place()
        for heard in (bench.job_changed, bench.place_changed):
            heard.connect(self._refresh_if_shown)

    @property
    def fields(self) -> list[QWidget]:
        """What Tab leads to in the column, from top to bottom."""
        parts = self._inner.findChildren(QWidget)
        return [each for each in parts if _takes_tab(each) and each.window() is self.window()]

    def refresh(self) -> None:
        """Show the job as it is now."""

    def sizeHint(self) -> QSize:
        """As wide as forty letters of the text in force."""
        text = QFontMetrics(self.bench.look.font(TextSize.TEXT))
        return QSize(text.averageCharWidth() * 50 + 8 * STEP, 100 * STEP)

    def showEvent(self, event: object) -> None:
        """A card that comes to the front shows the job as it is now."""
        self.refresh()

    def add(self, widget: QWidget) -> None:
        """Put a widget across the whole column; buttons get an access key."""
        if isinstance(widget, QPushButton | QCheckBox):
            self._name(widget)
        self.column.addWidget(widget)

    def add_row(self, label: str, *widgets: QWidget) -> QWidget:
        """Put widgets in a row behind a label whose access key leads to the first of them."""
        row = QWidget(self)
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(2 * STEP)
        words = QLabel(label, row)
        words.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
        words.setWordWrap(True)
        line.addWidget(words, 0, Qt.AlignmentFlag.AlignTop)
        words.setMinimumHeight(7 * STEP)
        for widget in widgets:
            line.addWidget(widget, 0 if isinstance(widget, QLabel | QPushButton) else 1)
            if isinstance(widget, QPushButton | QCheckBox):
                self._name(widget)
        if label and not isinstance(widgets[0], QPushButton | QCheckBox):
            words.setBuddy(_focused(widgets[0]))
            self._keyed(words)
        self._row_labels.append(words)
        _name_if_nameless(_focused(widgets[0]), label)
        self.column.addWidget(row)
        return row

    def add_beside(self, *widgets: QWidget) -> QWidget:
        """Put widgets side by side across the whole column; buttons get an access key."""
        row = QWidget(self)
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(2 * STEP)
        for widget in widgets:
            if isinstance(widget, QPushButton | QCheckBox):
                self._name(widget)
            line.addWidget(widget, 1)
        self.column.addWidget(row)
        return row

    def add_rule(self) -> None:
        """Draw a fine line across the column, with space around it."""
        rule = QFrame(self)
        rule.setObjectName("rule")
        self.column.addSpacing(STEP)
        self.column.addWidget(rule)
        self.column.addSpacing(STEP)

    def finish(self, *, is_filled: bool = False) -> None:
        """Close the column and give every control its access key. `is_filled`: something in it stretches."""
        self.column.addWidget(self._filler, 0 if is_filled else 1)
        self._filler.setVisible(not is_filled)
        self._labelled[""].append(self.next_button)
        QWidget.setTabOrder(self.fields[-1], self.next_button)
        always = give_keys(self._labelled.pop(""), RESERVED_KEYS)
        folded = self._labelled.pop(FOLDED, [])
        taken = always.union(*(give_keys(controls, always) for controls in self._labelled.values()))
        give_keys(folded, taken)
        self._next_text = self.next_button.text()
        self.next_button.clicked.connect(self._take_step)

    def go_on(self) -> None:
        """Take the next step."""

    def lead(self, is_ready: bool, first: str, stage: Stage, step: str = "") -> None:
        """Let the button at the foot go on if that is possible, else to the question that comes first.

        `step` is what comes next if that is not what usually does.
        """
        self._first_stage = None if is_ready else stage
        going_on = with_key(step, key_of(self._next_text)) if step else self._next_text
        self.next_button.setText(going_on if is_ready else f"&First {first}")

    def fill_up(self, is_empty: bool) -> None:
        """Keep what is there at the top of the card while what fills it is not there."""
        self._filler.setVisible(is_empty)

    def bring_into_sight(self, field: QWidget) -> None:
        """Scroll until a field of the column is seen."""
        self._scroll.ensureWidgetVisible(field)

    def _take_step(self) -> None:
        if self._first_stage is None:
            self.go_on()
        else:
            self.bench.show(stage=self._first_stage)

    def _name(self, button: QPushButton | QCheckBox) -> None:
        if not button.accessibleName():
            button.setAccessibleName(button.text().replace("&", ""))
        self._keyed(button)

    def _keyed(self, control: QLabel | QPushButton | QCheckBox) -> None:
        self._labelled.setdefault(self.group, []).append(control)

    def _refresh_if_shown(self) -> None:
        if self.isVisible():
            self.refresh()

    def dress(self) -> None:
        """Set the type in the size in force and line the labels up."""
        self.heading.setFont(self.bench.look.font(TextSize.TITLE))
        text = QFontMetrics(self.bench.look.font(TextSize.TEXT))
        for label in self._row_labels:
            label.setFixedWidth(text.averageCharWidth() * 14 + 2 * STEP)
        self.refresh()

    def _place(self) -> None:
        self._inner = inner = QWidget(self)
        inner.setObjectName("column")
        self.column = QVBoxLayout(inner)
        self.column.setContentsMargins(4 * STEP, 5 * STEP, 4 * STEP, 3 * STEP)
        self.column.setSpacing(2 * STEP)
        self.column.addWidget(self.heading)
        numbers = QHBoxLayout()
        if self.figures:
            numbers.setContentsMargins(0, STEP, 0, 3 * STEP)
        for figure in self.figures:
            numbers.addWidget(figure, 1)
        self.column.addLayout(numbers)
        self._scroll = scroll = QScrollArea(self)
        scroll.setObjectName("cardScroll")
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(inner)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addWidget(scroll, 1)
        foot = QVBoxLayout()
        foot.setContentsMargins(4 * STEP, 2 * STEP, 4 * STEP, 4 * STEP)
        foot.addWidget(self.next_button)
        whole.addLayout(foot)


FOLDED = "folded"
"""The group of what is seen only when it is unfolded."""

RESERVED_KEYS = "JEVDPH"
"""The access keys of the menus, which are always on screen beside a card."""


def _takes_tab(widget: QWidget) -> bool:
    return bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus) and widget.focusProxy() is None


def _focused(widget: QWidget) -> QWidget:
    """Return what takes the keyboard when the widget is gone to."""
    while isinstance(proxy := widget.focusProxy(), QWidget):
        widget = proxy
    return widget


def _name_if_nameless(widget: QWidget, label: str) -> None:
    if not widget.accessibleName():
        widget.setAccessibleName(label)
