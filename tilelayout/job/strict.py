"""Turns plain lists and dicts into values, strictly, and explains in our words what does not fit.

The conversion itself is msgspec's, which knows the path of a wrong value. From that path and the types of
the value this module says where it stands (`surfaces[0].outline[2]`), what is wrong and how to mend it.
"""

from __future__ import annotations

import re
from typing import NoReturn, TypeVar

import msgspec
from msgspec import inspect

from tilelayout.base.errors import JobFileError, LengthError
from tilelayout.base.tolerance import LARGEST_LENGTH
from tilelayout.base.units import parse_length

T = TypeVar("T")

_WORDS = {
    "array": "a list",
    "object": "a group of keys",
    "str": "a text",
    "int": "a whole number",
    "float": "a number",
    "bool": "true or false",
    "null": "null",
}
_EXAMPLES = {
    "array": "[0, 0]",
    "object": '{"key": 1}',
    "str": '"text"',
    "int": "2",
    "float": "2.5",
    "bool": "true",
}
_LISTS = {"2": "A point is [x, y].", "3": "A reading is [x, y, height]."}
_LENGTH_MEND = 'Write mm as a number, or a text such as "1.6 m" or "5\' 3 1/2\\"".'


class _WrongLengthError(ValueError):
    """Carries what is wrong with a length through the conversion, which adds the place."""

    def __init__(self, what: str, mend: str) -> None:
        super().__init__(what)
        self.what = what
        self.mend = mend


def read_as(kind: type[T], tree: object, *, file: str = "", place: str = "") -> T:
    """Return `tree` (lists, dicts, texts, numbers) as a value of `kind`.

    A length may be a number of mm or a text. Raises JobFileError with the place, which begins with `place`
    if the tree is a part of a larger one.
    """
    try:
        return msgspec.convert(tree, kind, dec_hook=_length)
    except msgspec.ValidationError as error:
        _explain(error, kind, tree, file, place)


def _length(_kind: type, value: object) -> float:
    """Return a length in mm from what stands in a file. No other type needs a hook."""
    if isinstance(value, str):
        return _length_from_text(value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _WrongLengthError("This is no length.", _LENGTH_MEND)
    if not -LARGEST_LENGTH <= value <= LARGEST_LENGTH:
        raise _WrongLengthError("This is more than a kilometre.", "Check the number: lengths are in mm.")
    return float(value)


def _length_from_text(text: str) -> float:
    try:
        return parse_length(text, signed=True)
    except LengthError as error:
        raise _WrongLengthError(error.what, error.mend) from None


def _explain(error: msgspec.ValidationError, kind: type, tree: object, file: str, place: str) -> NoReturn:
    said, _, path = str(error).partition(" - at `$")
    path = path.removesuffix("`").removeprefix(".")
    if isinstance(error.__cause__, _WrongLengthError):
        what, mend = error.__cause__.what, error.__cause__.mend
    else:
        key, what, mend = _in_our_words(said, _type_at(kind, path), _tree_at(tree, path))
        path = _joined(path, key)
    raise JobFileError(what, mend, file=file, place=_joined(place, path)) from None


def _joined(place: str, path: str) -> str:
    return f"{place}.{path}" if place and path and not path.startswith("[") else place + path


def _in_our_words(said: str, kind: inspect.Type | None, tree: object) -> tuple[str, str, str]:
    """Return the key to add to the place (or ""), what is wrong, and the mend."""
    quoted = re.findall(r"`(.+?)`", said) + re.findall(r"'(.+)'", said)
    if said.startswith("Object contains unknown field"):
        return quoted[0], "This key is not known here.", _known_keys(quoted[0], _of_tag(kind, tree))
    if said.startswith("Object missing required field"):
        return "", f"The key {quoted[0]} is missing.", "Add it."
    if said.startswith(("Invalid enum value", "Invalid value")):
        value = quoted[0] if quoted else said.rsplit(" ", 1)[-1]  # a number stands without quotes
        return "", f"“{_shortened(value)}” is not known here.", _choices(value, kind)
    length = re.fullmatch(r"Expected `array` of length (\d+), got (\d+)", said)
    if length:
        what = f"This list holds {length[2]} of the {length[1]} values that belong in it."
        return "", what, _LISTS.get(length[1], f"Give {length[1]}.")
    if len(quoted) == 2:
        return "", *_wrong_kind(*quoted)
    return "", f"This cannot be used: {said}.", "Correct it or leave it out."


def _wrong_kind(wanted: str, found: str) -> tuple[str, str]:
    kinds = [kind for kind in wanted.split(" | ") if kind in _WORDS]
    words = " or ".join(_WORDS[kind] for kind in kinds)
    example = next((_EXAMPLES[kind] for kind in kinds if kind in _EXAMPLES), "")
    mend = f"Write something like {example}." if example else ""
    return f"This is {_WORDS.get(found, found)}; {words or wanted} is wanted.", mend


def _known_keys(key: str, structs: list[inspect.StructType]) -> str:
    """Say what else could be meant."""
    known = sorted({field.encode_name for struct in structs for field in struct.fields})
    return _suggestion(key, known, "The keys here are")


def _choices(value: str, kind: inspect.Type | None) -> str:
    members = kind.types if isinstance(kind, inspect.UnionType) else (kind,)
    kind = next((member for member in members if isinstance(member, inspect.EnumType)), kind)
    if isinstance(kind, inspect.EnumType):
        known = [str(member.value) for member in kind.cls]
    elif isinstance(kind, inspect.LiteralType):
        known = [str(member) for member in kind.values]
    else:
        known = [str(struct.tag) for struct in _structs(kind) if struct.tag is not None]
    return _suggestion(value, known, "It can be")


def _suggestion(given: str, known: list[str], lead: str) -> str:
    from difflib import get_close_matches  # at first use: only a wrong job file needs it

    close = get_close_matches(given[:100], known, n=1)
    if close:
        return f"Did you mean {close[0]}?"
    return f"{lead}: {', '.join(known)}." if known else "Leave it out."


def _shortened(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:37]}..."


def _type_at(kind: type, path: str) -> inspect.Type | None:
    """Return the type of the value that stands at `path` ("surfaces[0].kind") under a value of `kind`."""
    found: inspect.Type | None = inspect.type_info(kind)
    for step in re.findall(r"[^.\[\]]+|\[", path):
        if step == "[":
            found = _item_type(found)
        elif not step.isdigit() and step != "...":
            found = _field_type(found, step)
    return found


def _tree_at(tree: object, path: str) -> object:
    """Return the plain value that stands at `path` in a tree; None if there is none."""
    for name, index in re.findall(r"([^.\[\]]+)|\[(\d+)\]", path.replace("[...]", "")):
        if name:
            tree = tree.get(name) if isinstance(tree, dict) else None
        else:
            tree = tree[int(index)] if isinstance(tree, list) and int(index) < len(tree) else None
    return tree


def _of_tag(kind: inspect.Type | None, tree: object) -> list[inspect.StructType]:
    """Return the structs that a group of keys may be: of several shapes of tile the one that is named."""
    structs, keys = _structs(kind), tree if isinstance(tree, dict) else {}
    return [struct for struct in structs if keys.get(struct.tag_field) == struct.tag] or structs


def _item_type(kind: inspect.Type | None) -> inspect.Type | None:
    members = kind.types if isinstance(kind, inspect.UnionType) else (kind,)
    for member in members:
        if isinstance(member, inspect.VarTupleType | inspect.ListType):
            return member.item_type
        if isinstance(member, inspect.TupleType):
            return member.item_types[0]
    return None


def _field_type(kind: inspect.Type | None, name: str) -> inspect.Type | None:
    """Return the type of the field of that name; for the tag of a union, the union itself."""
    for struct in _structs(kind):
        if struct.tag_field == name:
            return kind
        for field in struct.fields:
            if field.encode_name == name:
                return field.type
    return None


def _structs(kind: inspect.Type | None) -> list[inspect.StructType]:
    members = kind.types if isinstance(kind, inspect.UnionType) else (kind,)
    return [member for member in members if isinstance(member, inspect.StructType)]
