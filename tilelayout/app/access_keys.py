"""Gives every labelled control of a window an access key of its own.

Letters are handed out in reading order: the first letter of a word if it is free, else any letter or digit of
it. Where all are taken, one that can do with another letter gives its own away. What is asked for by hand (a
"&" already in the text) is kept. Two controls that are never on screen together may share a letter; `taken`
holds those that are always there.
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


def with_key(text: str, key: str) -> str:
    """Return a text with its access key before the first place where the letter stands.

    >>> with_key("Next: compare", "C"), with_key("Next", "")
    ('Next: &compare', 'Next')
    """
    at = text.upper().find(key) if key else -1
    return f"{text[:at]}&{text[at:]}" if at >= 0 else text


def give_keys(controls: Iterable[Labelled], taken: Iterable[str] = ()) -> set[str]:
    """Give each control a key that none of the others has; return all keys now in use."""
    controls = list(controls)
    used = {key.upper() for key in taken} | {key_of(each.text()) for each in controls} - {""}
    keyless = [each for each in controls if not key_of(each.text())]
    choices = [_letters(each.text(), used) for each in keyless]
    owners: dict[str, int] = {}
    for number in range(len(keyless)):
        _claim(number, choices, owners, set())
    for letter, number in owners.items():
        text, at = keyless[number].text(), choices[number][letter]
        keyless[number].setText(f"{text[:at]}&{text[at:]}")
    return used | owners.keys()


def _letters(text: str, used: set[str]) -> dict[str, int]:
    """Return the letters that may be the key of a text and where they stand, first letters of words first."""
    starts = [at for at in range(len(text)) if at == 0 or text[at - 1] == " "]
    found: dict[str, int] = {}
    for at in (*starts, *range(len(text))):
        letter = text[at].upper()
        if text[at].isascii() and letter.isalnum() and letter not in used:
            found.setdefault(letter, at)
    return found


def _claim(number: int, choices: list[dict[str, int]], owners: dict[str, int], tried: set[str]) -> bool:
    """Give a control a free letter, or else one whose owner can take another; False if there is none."""
    free = next((letter for letter in choices[number] if letter not in owners), None)
    if free is not None:
        owners[free] = number
        return True
    for letter in choices[number]:
        if letter not in tried:
            tried.add(letter)
            if _claim(owners[letter], choices, owners, tried):
                owners[letter] = number
                return True
    return False
