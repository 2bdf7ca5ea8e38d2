"""Writes a job or a stock as JSON text: the same always gives the same bytes, and a person can read them.

Keys stand in the order in which the values declare them, and only what is empty is left out: a joint is
written even if it is the usual one, so that the plan stays the same if the usual one changes. A whole
number is written without a decimal point, and what fits on a line stands on one.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from functools import cache

import msgspec
from msgspec.structs import FieldInfo

from tilelayout.job.envelope import FileKind
from tilelayout.job.values import Layout

_WIDTH = 100

_on_one_line = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode

_LARGEST_WHOLE = 1e15
"""Whole numbers up to here are exact as doubles and short enough to be written without an exponent."""


def canonical_bytes(value: msgspec.Struct, kind: FileKind) -> bytes:
    """Return the bytes of a file of this kind that holds a value."""
    tree = {"format": kind.format, "version": kind.version, **_group(value)}
    return (_text(tree, "") + "\n").encode()


def tree_of_value(value: object) -> object:
    """Return a value as plain lists, dicts, texts and numbers, as the job file has it."""
    if isinstance(value, msgspec.Struct):
        return _group(value)
    if isinstance(value, Mapping):
        return {str(key): tree_of_value(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [tree_of_value(item) for item in value]
    if isinstance(value, float):
        return int(value) if value.is_integer() and abs(value) < _LARGEST_WHOLE else float(value)
    return str(value) if isinstance(value, str) else value


def _group(value: msgspec.Struct) -> dict[str, object]:
    """Return the keys of a value, its tag in second place; a layout's settings stand among its own."""
    group = dict(_keys(value))
    if isinstance(value, Layout):
        group |= {key: tree_of_value(value.settings[key]) for key in sorted(value.settings)}
    return group


def _keys(value: msgspec.Struct) -> Iterator[tuple[str, object]]:
    tag = value.__struct_config__
    for field in _fields(type(value)):
        item = getattr(value, field.name)
        is_said = field.required or item or item not in (field.default, {})
        if field.name != "settings" and is_said:
            yield field.encode_name, tree_of_value(item)
        if field.name == "id" and tag.tag_field:
            yield tag.tag_field, tag.tag


@cache
def _fields(kind: type[msgspec.Struct]) -> tuple[FieldInfo, ...]:
    return msgspec.structs.fields(kind)


def _text(value: object, indent: str) -> str:
    """Return JSON text: on one line if it fits, else one item a line."""
    flat = _on_one_line(value)
    if len(indent) + len(flat) <= _WIDTH or not isinstance(value, dict | list) or _is_point(value):
        return flat
    deeper = indent + "  "
    if isinstance(value, dict):
        items = [f"{_on_one_line(key)}: {_text(item, deeper)}" for key, item in value.items()]
        opening, closing = "{", "}"
    else:
        items = [_text(item, deeper) for item in value]
        opening, closing = "[", "]"
    return f"{opening}\n{deeper}" + f",\n{deeper}".join(items) + f"\n{indent}{closing}"


def _is_point(value: object) -> bool:
    return (
        isinstance(value, list) and len(value) <= 3 and all(isinstance(item, int | float) for item in value)
    )
