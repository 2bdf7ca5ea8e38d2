"""Reads JSON text into plain lists and dicts, and refuses what JSON readers like to let pass.

A repeated key, a number beyond all bounds, NaN, broken letters and nesting without end are each an error
that names the place. They are let through by the parser and found by one walk over the tree, which knows
the path.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from math import inf, isfinite, nan

from tilelayout.base.errors import JobFileError
from tilelayout.job.limits import DEEPEST_NESTING, Problem

_MOST_DIGITS = 18


class _RepeatedKeys(dict[str, object]):
    """A group in which a key stands more than once."""

    repeated = ""


def tree_of(content: bytes, file: str = "") -> object:
    """Return the lists, dicts, texts and numbers that `content` (UTF-8 JSON) holds.

    JobFileError if it is no JSON, with line and column, or holds what no job can, with its place.
    """
    tree = _parsed(_text_of(content, file), file)
    for problem in _problems(tree, "", 0):
        raise JobFileError(problem.what, problem.mend, file=file, place=problem.place)
    return tree


def _text_of(content: bytes, file: str) -> str:
    if not content.strip():
        raise JobFileError("The file is empty.", "Choose a job file, or start a new job.", file=file)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        what = f"Byte {error.start} is not UTF-8 text."
        raise JobFileError(what, "Choose a job file, or save it again as UTF-8.", file=file) from None


def _parsed(text: str, file: str) -> object:
    try:
        return json.loads(text, object_pairs_hook=_group, parse_constant=_constant, parse_int=_whole_number)
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}, column {error.colno}"
        what = f"This is not JSON: {error.msg[:1].lower()}{error.msg[1:]}."
        raise JobFileError(what, "Mend the text there.", file=file, place=place) from None
    except RecursionError:
        raise JobFileError(*_TOO_DEEP, file=file) from None


_TOO_DEEP = ("Lists or groups stand far too deep inside each other.", "Choose a job file.")


def _group(pairs: list[tuple[str, object]]) -> dict[str, object]:
    group = dict(pairs)
    if len(group) == len(pairs):
        return group
    keys = [key for key, _ in pairs]
    marked = _RepeatedKeys(group)
    marked.repeated = next(key for key in keys if keys.count(key) > 1)
    return marked


def _constant(name: str) -> float:
    return nan if name == "NaN" else inf


def _whole_number(digits: str) -> int | float:
    return int(digits) if len(digits) <= _MOST_DIGITS else inf


def _problems(value: object, place: str, depth: int) -> Iterator[Problem]:
    """Return what no job can hold, as it is met on a walk through the tree."""
    if depth > DEEPEST_NESTING:
        yield Problem("", *_TOO_DEEP)
    elif isinstance(value, list):
        for index, item in enumerate(value):
            if not isinstance(item, int):
                yield from _problems(item, f"{place}[{index}]", depth + 1)
    elif isinstance(value, dict):
        yield from _group_problems(value, place, depth)
    elif isinstance(value, float) and not isfinite(value):
        yield Problem(place, "This is no number that can be used.", "Give an ordinary number.")
    elif isinstance(value, str) and not _is_text(value):
        yield Problem(place, "This text holds half a character.", "Write the text again.")


def _group_problems(group: dict[str, object], place: str, depth: int) -> Iterator[Problem]:
    if isinstance(group, _RepeatedKeys):
        what = f"The key {_shown(group.repeated)} stands here more than once."
        yield Problem(place, what, "Keep one of them.")
    for key, item in group.items():
        if not _is_text(key):
            yield Problem(place, f"The key {_shown(key)} holds half a character.", "Write the key again.")
        yield from _problems(item, f"{place}.{key}" if place else key, depth + 1)


def _is_text(text: str) -> bool:
    """Whether every character is whole: JSON can spell halves of a surrogate pair."""
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def _shown(key: str) -> str:
    return ascii(key[:40])[1:-1]
