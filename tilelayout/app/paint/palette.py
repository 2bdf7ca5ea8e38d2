"""Colours by role. Painters ask for what a thing is ("wall"), never for a colour of their own."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtGui import QColor


class Colours(Protocol):
    """Whatever knows the colour of a role in the theme of the moment."""

    def colour(self, role: str) -> QColor:
        """Return the colour of a role such as "paper", "ink", "wall"."""
        ...


def mixed(first: QColor, second: QColor, share: float) -> QColor:
    """Return `first` with `share` (0 to 1) of `second` in it."""
    keep = 1.0 - share
    return QColor.fromRgbF(
        first.redF() * keep + second.redF() * share,
        first.greenF() * keep + second.greenF() * share,
        first.blueF() * keep + second.blueF() * share,
        first.alphaF() * keep + second.alphaF() * share,
    )


def faded(colour: QColor, alpha: float) -> QColor:
    """Return the colour seen through: `alpha` 1 is solid, 0 is gone."""
    thin = QColor(colour)
    thin.setAlphaF(alpha)
    return thin
