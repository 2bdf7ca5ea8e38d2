"""The look: colours by role, three text sizes and one for figures, one spacing step.

Nothing in the window names a colour; it names a role, and the look says what that role is by day (warm paper
and ink) and by night (slate and chalk). The hues that tell states apart come from the Okabe-Ito set,
shifted until they stay apart under all three colour-vision deficiencies and hold 3:1 on every ground they
are drawn on. State is never told by hue alone. A view connects to `changed` and repaints.
"""

from __future__ import annotations

from enum import StrEnum

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication, QStyle

STEP = 4
"""Every distance in the window is a whole number of these device-independent px."""

GRAB = 24
"""The least width and height of anything a person must hit, in device-independent px."""

FIGURE_INDENT = 5 * STEP
"""From the left end of a column of figures to the figures: room for the tick of the better one."""

_COLOURS: dict[str, tuple[str, str]] = {
    # role: (light, dark)
    "paper": ("#F7F2E8", "#22282D"),
    "ink": ("#26221E", "#EFECE4"),
    "faint_ink": ("#645C52", "#B9BEC0"),
    "chalk": ("#005AAD", "#66C8FF"),
    "tile_face": ("#E8DFCF", "#5B666E"),
    "tile_joint": ("#85796A", "#0E1114"),
    "cut_tint": ("#C9E1EA", "#41697E"),
    "sliver": ("#CC5A00", "#FFA833"),
    "wall": ("#3A332B", "#D9D3C6"),
    "doorway": ("#645C52", "#C9C2B2"),
    "cutout": ("#4F565C", "#C3CBD0"),
    "selection": ("#A45189", "#E0AECA"),
    "snap": ("#138667", "#94F0C1"),
    "warn": ("#7F5200", "#F0C65A"),
    "stop": ("#A13B00", "#FF9E5E"),
    "advise": ("#005C91", "#8CCDF5"),
    "gauge": ("#6A6154", "#B9BFC1"),
    "stick": ("#E6D3A8", "#4B4637"),
    "stick_ink": ("#2A2622", "#EFECE4"),
    "panel": ("#EFE7D8", "#2B3238"),
    "panel_ink": ("#2A2622", "#EFECE4"),
    "faint_panel_ink": ("#5F574D", "#B2B8BA"),
    "line": ("#867B6A", "#8A9298"),
    "hairline": ("#D8CCB8", "#3D464D"),
    "field": ("#FBF8F1", "#1D2226"),
    "field_ink": ("#26221E", "#EFECE4"),
    "accent": ("#005C91", "#8CCDF5"),
    "accent_ink": ("#FFFDF7", "#12202A"),
}

ROLES = tuple(_COLOURS)

CLASSES = ("chalk", "sliver", "selection", "snap")
"""Roles whose hue tells things apart on the board; `tests` holds them apart under simulated vision."""


class Scheme(StrEnum):
    """What a person chose: as the system has it, or one of the two."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


class TextSize(StrEnum):
    """The three sizes of text and the one of large figures, as shares of the platform's own size."""

    SMALL = "small"
    TEXT = "text"
    TITLE = "title"
    FIGURE = "figure"


_SHARE = {TextSize.SMALL: 0.88, TextSize.TEXT: 1.0, TextSize.TITLE: 1.4, TextSize.FIGURE: 2.3}


def named_colour(role: str, dark: bool) -> str:
    """Return the colour of `role` as "#rrggbb"; KeyError if there is no such role."""
    return _COLOURS[role][dark]


class Look(QObject):
    """The look in force. It changes while the program runs: connect to `changed`."""

    changed = Signal()

    def __init__(self, dark: bool = False, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._dark = dark
        self._scheme = Scheme.DARK if dark else Scheme.LIGHT

    @property
    def dark(self) -> bool:
        """True by night: slate and chalk."""
        return self._dark

    @property
    def scheme(self) -> Scheme:
        """What the person chose."""
        return self._scheme

    def choose(self, scheme: Scheme) -> None:
        """Take the light or dark look, or follow the system from now on."""
        hints = QGuiApplication.styleHints()
        if scheme is Scheme.SYSTEM and self._scheme is not Scheme.SYSTEM:
            hints.colorSchemeChanged.connect(self._follow)
        elif scheme is not Scheme.SYSTEM and self._scheme is Scheme.SYSTEM:
            hints.colorSchemeChanged.disconnect(self._follow)
        self._scheme = scheme
        system_is_dark = hints.colorScheme() is Qt.ColorScheme.Dark
        self._turn(system_is_dark if scheme is Scheme.SYSTEM else scheme is Scheme.DARK)

    def colour(self, role: str) -> QColor:
        """Return the colour of a role; KeyError if there is no such role."""
        return QColor(named_colour(role, self._dark))

    def font(self, size: TextSize | str = TextSize.TEXT) -> QFont:
        """Return the platform's interface font in one of the four sizes, numerals of one width."""
        font = QFont(QApplication.font())
        font.setPointSizeF(font.pointSizeF() * _SHARE[TextSize(size)])
        font.setFeature(QFont.Tag("tnum"), 1)
        if TextSize(size) in (TextSize.TITLE, TextSize.FIGURE):
            font.setWeight(QFont.Weight.DemiBold)
        return font

    @property
    def motion_ms(self) -> int:
        """How long a motion may take; 0 if the system asks for less motion."""
        style = QApplication.style()
        wanted = style.styleHint(QStyle.StyleHint.SH_Widget_Animation_Duration)
        return 120 if wanted else 0

    def palette(self) -> QPalette:
        """Return the palette that brings the platform's own controls into this look."""
        palette = QPalette()
        for part, role in _PALETTE.items():
            palette.setColor(part, self.colour(role))
        for part in (QPalette.ColorRole.WindowText, QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText):
            palette.setColor(QPalette.ColorGroup.Disabled, part, self.colour("line"))
        return palette

    def _follow(self, scheme: Qt.ColorScheme) -> None:
        self._turn(scheme is Qt.ColorScheme.Dark)

    def _turn(self, dark: bool) -> None:
        if dark != self._dark:
            self._dark = dark
            self.changed.emit()


_PALETTE = {
    QPalette.ColorRole.Window: "panel",
    QPalette.ColorRole.WindowText: "panel_ink",
    QPalette.ColorRole.Base: "field",
    QPalette.ColorRole.AlternateBase: "paper",
    QPalette.ColorRole.Text: "field_ink",
    QPalette.ColorRole.PlaceholderText: "faint_panel_ink",
    QPalette.ColorRole.Button: "panel",
    QPalette.ColorRole.ButtonText: "panel_ink",
    QPalette.ColorRole.ToolTipBase: "paper",
    QPalette.ColorRole.ToolTipText: "ink",
    QPalette.ColorRole.Highlight: "accent",
    QPalette.ColorRole.HighlightedText: "accent_ink",
    QPalette.ColorRole.Accent: "accent",
    QPalette.ColorRole.Link: "accent",
    QPalette.ColorRole.Light: "paper",
    QPalette.ColorRole.Midlight: "hairline",
    QPalette.ColorRole.Mid: "line",
    QPalette.ColorRole.Dark: "line",
    QPalette.ColorRole.Shadow: "ink",
}
