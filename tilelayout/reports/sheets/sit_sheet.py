"""The sheet that says whether the tiles will sit: where those to worry about lie, and what is wrong."""

from __future__ import annotations

from collections.abc import Iterator

from tilelayout.planning.sitting import Sitting
from tilelayout.planning.sitting_words import MEANT, bed_words, dry_words, sits_words, worries_words
from tilelayout.reports.figures.sits_map import sits_map
from tilelayout.reports.sheets.page import BODY, SMALL, Frame, Page
from tilelayout.reports.sheets.surface_sheet import TEXT_SHARE, Line, figured_pages

HEADING = "Surface: will the tiles sit?"

_KEY = (
    "Hatched: to worry about; a dense hatch needs filler first. Triangle: the high spot that the tile rocks "
    "on. Dashed: reaches beyond the readings."
)


def sit_pages(found: Sitting, frame: Frame) -> tuple[Page, ...]:
    """Return the pages about one layout on its surveyed surface, on upright paper."""
    width, height = frame.room
    style = found.plan.style
    figure = sits_map(found, (width, height * (1.0 - TEXT_SHARE)), style)
    return figured_pages(HEADING, found.one, frame, figure, list(_lines(found)))


def _lines(found: Sitting) -> Iterator[Line]:
    yield f"{found.layout.title}: {sits_words(found)}", BODY, True
    for words in (dry_words(found), bed_words(found), *found.lacks, *worries_words(found)):
        yield words, BODY, False
    yield _KEY, SMALL, False
    yield MEANT, SMALL, False
    for source in dict.fromkeys(words for may in found.by_tile.values() for words in may.sources):
        yield source, SMALL, False
