"""Gives every labelled control of a window an access key of its own.

Letters are handed out in reading order: the first letter of a word if it is free, else any letter, else a
digit. What is asked for by hand (a "&" already in the text) is kept. Two controls that are never on
screen together may share a letter; `taken` holds those that are always there.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol


class Labelled(Protocol):
    """A label, a button, an action: anything with a text that may carry an access key."""

    def text(self) -> str:
        """The text, "&" before its access key."""

    def setText(self, text: str) -> None:
        """Show another text."""


def key_of(text: str) -> str:
    """Return the access key in a text, upper case; "" if there is none.

    >>> key_of("Save &as")
    'A'
    >>> key_of("Nuts && bolts")
    ''
    """
    rest = text.replace("&&", "")
    at = rest.find("&")
    return rest[at + 1].upper() if 0 <= at < len(rest) - 1 else ""


def give_keys(controls: Iterable[Labelled], taken: Iterable[str] = ()) -> set[str]:
    """Give each control a key that none of the others has; return all keys now in use."""
    controls = list(controls)
    used = {key.upper() for key in taken} | {key_of(each.text()) for each in controls} - {""}
    for each in controls:
        if not key_of(each.text()):
            at = _free_letter(each.text(), used)
            if at is not None:
                text = each.text()
                used.add(text[at].upper())
                each.setText(f"{text[:at]}&{text[at:]}")
    return used


def _free_letter(text: str, used: set[str]) -> int | None:
    starts = [at for at in range(len(text)) if at == 0 or text[at - 1] == " "]
    return next((at for at in (*starts, *range(len(text))) if _is_free(text[at], used)), None)


def _is_free(letter: str, used: set[str]) -> bool:
    return letter.isascii() and letter.isalnum() and letter.upper() not in used
