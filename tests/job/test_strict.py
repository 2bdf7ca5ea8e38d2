"""The strict reader also serves parts of a job that others define, such as a pattern's settings."""

from __future__ import annotations

from typing import Literal

import msgspec
import pytest

from tilelayout.base.errors import JobFileError
from tilelayout.job.strict import read_as
from tilelayout.job.values import Length


class Fringe(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Made-up settings."""

    offsets: tuple[Length, ...] = ()
    up: Literal["point", "flat"] = "point"
    pairs: list[tuple[int, int]] = []


def test_lengths_in_settings_are_read_as_lengths() -> None:
    assert read_as(Fringe, {"offsets": ["1 in", 3]}) == Fringe(offsets=(25.4, 3.0))


@pytest.mark.parametrize(
    ("tree", "place", "words"),
    [
        ({"offsets": [1, "x"]}, "layouts[0].offsets[1]", "no number in it"),
        ({"up": "down"}, "layouts[0].up", "It can be: flat, point"),
        ({"ofsets": []}, "layouts[0].ofsets", "Did you mean offsets"),
        ({"pairs": [[1, 2, 3]]}, "layouts[0].pairs[0]", "3 of the 2"),
        ({"pairs": [[1, 2.5]]}, "layouts[0].pairs[0][1]", "a whole number is wanted"),
        (5, "layouts[0]", "a group of keys is wanted"),
    ],
)
def test_the_place_begins_where_the_part_stands(tree: object, place: str, words: str) -> None:
    with pytest.raises(JobFileError) as caught:
        read_as(Fringe, tree, file="a.tilejob", place="layouts[0]")
    assert caught.value.place == place
    assert words in str(caught.value)
    assert str(caught.value).startswith("a.tilejob: layouts[0]")
