"""The one style sheet of the window, made from the look's roles.

Lines before boxes, space before lines: a field is a line to write on, a button is a word with a line under
it, and only the next step is a filled block. The focus is always a thick outline in the accent colour.
"""

from __future__ import annotations

from string import Template

from tilelayout.app.look import FIGURE_INDENT, GRAB, ROLES, STEP, Look

_SHEET = Template("""
QMainWindow, QWidget#ground { background: $paper; }
QWidget#card, QWidget#card QWidget#column, QScrollArea#cardScroll, QScrollArea#cardScroll > QWidget > QWidget
    { background: $panel; border: none; }
QWidget#foot { background: $panel; border-top: 1px solid $hairline; }
QLabel { color: $panel_ink; background: transparent; }
QLabel#faint, QLabel#caption { color: $faint_panel_ink; }
QLabel#wrong { color: $stop; }
QFrame#rule { background: $hairline; border: none; max-height: 1px; min-height: 1px; }

QLineEdit, QComboBox, QPlainTextEdit {
    background: $field; color: $field_ink; border: none; border-bottom: 2px solid $line;
    padding: 2px ${step}px; min-height: ${grab}px; selection-background-color: $accent;
    selection-color: $accent_ink;
}
QLineEdit:focus, QComboBox:focus, QPlainTextEdit:focus { border: 2px solid $accent; padding: 0 2px; }
QLineEdit[isWrong="true"] { border-bottom: 2px dashed $stop; }
QLineEdit:disabled, QComboBox:disabled { color: $line; border-bottom-color: $hairline; }
QComboBox::drop-down { border: none; width: ${grab}px; }
QComboBox QAbstractItemView { background: $field; color: $field_ink; border: 1px solid $line;
    selection-background-color: $accent; selection-color: $accent_ink; outline: none; }

QPushButton, QToolButton {
    background: transparent; color: $panel_ink; border: none; border-bottom: 1px solid $line;
    padding: ${step}px ${two}px; min-height: ${grab}px;
}
QWidget#card QPushButton { padding: ${step}px; }
QWidget#card QPushButton#next { padding: ${two}px ${three}px; }
QPushButton:hover, QToolButton:hover { border-bottom: 2px solid $accent; padding-bottom: 3px; }
QPushButton:focus, QToolButton:focus { border: 2px solid $accent; padding: 3px 6px; }
QPushButton:disabled, QToolButton:disabled { color: $line; border-bottom-color: $hairline; }
QPushButton:checked, QToolButton:checked { border-bottom: 3px solid $accent; font-weight: 600; }
QPushButton#next { background: $accent; color: $accent_ink; border: none; padding: ${two}px ${three}px;
    min-height: ${grab}px; text-align: left; font-weight: 600; }
QPushButton#next:focus { border: 3px double $accent_ink; padding: 5px 9px; }
QPushButton#next:hover { text-decoration: underline; }
QPushButton#next:disabled { background: $hairline; color: $faint_panel_ink; }
QPushButton#finding, QPushButton#zoom { border: none; text-align: left; }
QPushButton#finding:hover, QPushButton#zoom:hover { text-decoration: underline; padding: ${step}px ${two}px; }
QPushButton#finding:focus, QPushButton#zoom:focus { border: 2px solid $accent; padding: 2px 6px; }

QCheckBox, QRadioButton { spacing: ${two}px; min-height: ${grab}px; color: $panel_ink; }
QCheckBox:focus, QRadioButton:focus { outline: none; text-decoration: underline; }
QCheckBox::indicator { width: 14px; height: 14px; border: 2px solid $line; background: $field; }
QCheckBox::indicator:checked { background: $accent; border: 2px solid $accent; }
QCheckBox::indicator:focus { border: 3px solid $accent; }

QListWidget, QListView, QTableView { background: transparent; color: $panel_ink; border: none;
    outline: none; }
QListWidget::item, QListView::item { min-height: ${grab}px; padding: ${step}px;
    border-bottom: 1px solid $hairline; }
QListWidget::item:selected, QListView::item:selected { background: $field; color: $field_ink;
    border-left: 4px solid $accent; }
QListWidget:focus, QListView:focus { border: 2px solid $accent; }

QTableView#compareTable QHeaderView { background: transparent; border: none; }
QTableView#compareTable QHeaderView::section { background: transparent; color: $panel_ink; border: none;
    border-bottom: 1px solid $line; padding: 2px 0 2px ${table}px; font-weight: 600; }
QTableView#compareTable:focus { border: none; }
QAbstractScrollArea::corner { background: transparent; border: none; }

QMenuBar { background: $panel; color: $panel_ink; border-bottom: 1px solid $hairline; }
QMenuBar::item { padding: ${step}px ${two}px; background: transparent; min-height: 16px; }
QMenuBar::item:selected { background: $paper; color: $ink; }
QMenu { background: $paper; color: $ink; border: 1px solid $line; padding: ${step}px 0; }
QMenu::item { padding: 5px ${six}px 5px ${six}px; }
QMenu::item:selected { background: $accent; color: $accent_ink; }
QMenu::item:disabled { color: $line; }
QMenu::separator { height: 1px; background: $hairline; margin: ${step}px ${two}px; }

QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle { background: $line; min-height: ${grab}px; min-width: ${grab}px;
    border-radius: 3px; margin: 2px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QProgressBar { background: $hairline; border: none; max-height: 6px; }
QProgressBar::chunk { background: $accent; }
QToolTip { background: $paper; color: $ink; border: 1px solid $line; padding: ${step}px; }

QDialog { background: $panel; border: 1px solid $line; border-top: 4px solid $accent; }
QWidget#invitation, QScrollArea#paperScroll, QScrollArea#paperScroll > QWidget > QWidget
    { background: $paper; border: none; }
QWidget#mapPanel, QWidget#mapColumn { background: $paper; border: none; }
QWidget#mapPanel { border-left: 1px solid $hairline; }
QWidget#mapPanel QLabel { color: $ink; }
QWidget#mapPanel QLabel#faint { color: $faint_ink; }
QWidget#invitation QLabel { color: $ink; }
QWidget#invitation QLabel#faint { color: $faint_ink; }
QLabel#hint { background: $paper; color: $faint_ink; padding: 2px ${four}px ${step}px ${four}px; }
QWidget#strip { background: $paper; }
QWidget#strip QToolButton { color: $ink; border-bottom: 2px solid transparent; }
QWidget#strip QToolButton:hover { border-bottom: 2px solid $line; padding-bottom: ${step}px; }
QWidget#strip QToolButton:checked { border-bottom: 3px solid $chalk; }
QWidget#strip QToolButton:disabled { color: $line; }
""")


def style_sheet(look: Look) -> str:
    """Return the style sheet for the look in force."""
    colours = {role: look.colour(role).name() for role in ROLES}
    spaces = {
        "step": STEP,
        "two": 2 * STEP,
        "three": 3 * STEP,
        "four": 4 * STEP,
        "six": 6 * STEP,
        "grab": GRAB,
        "table": FIGURE_INDENT,
    }
    return _SHEET.substitute(colours, **{name: str(size) for name, size in spaces.items()})
