"""Makes plain lists into tuples, so that what a job holds stays as it is."""

from __future__ import annotations


def frozen(value: object) -> object:
    """Return the value with tuples for lists, however deep.

    >>> frozen({"row_offsets": [0, [1, 2]]})
    {'row_offsets': (0, (1, 2))}
    """
    if isinstance(value, list | tuple):
        return tuple(frozen(item) for item in value)
    if isinstance(value, dict):
        return {key: frozen(item) for key, item in value.items()}
    return value
