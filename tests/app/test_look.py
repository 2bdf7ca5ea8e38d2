"""The look holds WCAG 2.2 contrast by day and night, and its classes stay apart for every colour vision."""

from __future__ import annotations

from itertools import combinations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from tests.app.colour_vision import DEFICIENCIES, contrast, difference
from tilelayout.app.look import CLASSES, ROLES, Look, Scheme, TextSize, named_colour

THEMES = pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])

TEXT_ON_GROUND = [
    ("ink", "paper"), ("ink", "tile_face"), ("ink", "cut_tint"), ("faint_ink", "paper"),
    ("panel_ink", "panel"), ("faint_panel_ink", "panel"), ("field_ink", "field"),
    ("faint_panel_ink", "field"), ("accent_ink", "accent"), ("stick_ink", "stick"),
    ("warn", "panel"), ("stop", "panel"), ("advise", "panel"),
    ("warn", "paper"), ("stop", "paper"),
    ("advise", "paper"), ("chalk", "paper"), ("accent", "panel"),
]  # fmt: skip

LINE_ON_GROUND = [
    *((role, ground) for role in CLASSES for ground in ("paper", "tile_face", "cut_tint", "panel")),
    ("tile_joint", "tile_face"), ("wall", "paper"), ("wall", "tile_face"), ("doorway", "paper"),
    ("cutout", "paper"), ("cutout", "tile_face"), ("gauge", "paper"), ("line", "panel"), ("line", "field"),
    ("accent", "field"), ("accent", "panel"),
]  # fmt: skip

OKABE_ITO = ("000000", "E69F00", "56B4E9", "009E73", "F0E442", "0072B2", "D55E00", "CC79A7")


@THEMES
@pytest.mark.parametrize(("text", "ground"), TEXT_ON_GROUND)
def test_text_holds_four_and_a_half_to_one(text: str, ground: str, dark: bool) -> None:
    assert contrast(named_colour(text, dark), named_colour(ground, dark)) >= 4.5


@THEMES
@pytest.mark.parametrize(("line", "ground"), LINE_ON_GROUND)
def test_lines_hold_three_to_one(line: str, ground: str, dark: bool) -> None:
    assert contrast(named_colour(line, dark), named_colour(ground, dark)) >= 3.0


@THEMES
@pytest.mark.parametrize("deficiency", ["", *DEFICIENCIES])
def test_classes_stay_apart(deficiency: str, dark: bool) -> None:
    for one, other in combinations(CLASSES, 2):
        assert difference(named_colour(one, dark), named_colour(other, dark), deficiency) >= 10.0, (
            one,
            other,
        )


@pytest.mark.parametrize(
    ("deficiency", "least", "pair"),
    [
        ("", 20.8, {"E69F00", "F0E442"}),
        ("deuteranopia", 14.8, {"009E73", "CC79A7"}),
        ("protanopia", 14.0, {"0072B2", "CC79A7"}),
        ("tritanopia", 11.0, {"E69F00", "CC79A7"}),
    ],
)
def test_the_measure_gives_the_figures_known_for_the_okabe_ito_set(
    deficiency: str, least: float, pair: set[str]
) -> None:
    """Figures measured apart from this code with a colour library, for the eight Okabe-Ito colours."""
    worst = min(combinations(OKABE_ITO, 2), key=lambda two: difference(two[0], two[1], deficiency))
    assert set(worst) == pair
    assert difference(worst[0], worst[1], deficiency) == pytest.approx(least, abs=0.06)


def test_contrast_of_known_pairs() -> None:
    """Black on white is 21:1 by WCAG's definition; the others are its ratio for two Okabe-Ito colours."""
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#0072B2", "#FFFFFF") == pytest.approx(5.2, abs=0.05)
    assert contrast("#E69F00", "#FFFFFF") == pytest.approx(2.3, abs=0.06)


def test_every_role_has_a_colour_in_both_looks(qtbot: QtBot) -> None:
    for dark in (False, True):
        look = Look(dark)
        assert all(look.colour(role).isValid() for role in ROLES)
        assert look.palette().window().color() == look.colour("panel")


def test_it_follows_the_system_while_running(qtbot: QtBot) -> None:
    look = Look()
    look.choose(Scheme.SYSTEM)
    with qtbot.waitSignal(look.changed):
        QGuiApplication.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    seen = [look.dark]
    look.choose(Scheme.LIGHT)
    seen.append(look.dark)
    QGuiApplication.styleHints().colorSchemeChanged.emit(Qt.ColorScheme.Dark)
    seen.append(look.dark)
    assert seen == [True, False, False], "a choice outlives what the system says"


def test_four_sizes_of_type_grow_with_the_platforms_own(qtbot: QtBot) -> None:
    look = Look()
    sizes = [look.font(size).pointSizeF() for size in TextSize]
    assert sizes == sorted(sizes)
    assert len(set(sizes)) == 4
