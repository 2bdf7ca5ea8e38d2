"""The sheet of how the tiles sit, read back from the PDF by another library."""

from __future__ import annotations

from tests.planning.test_sitting import job_of, level
from tests.reports.conftest import Printer
from tests.reports.reading import pages_headed
from tilelayout.planning.sitting import sitting
from tilelayout.planning.sitting_words import worries_words


def lump(x: float, y: float) -> float:
    """2 mm at a reading that lies under one slab near its edge."""
    return 2.0 * ((x, y) == (900, 600))


HEADING = "Surface: will the tiles sit?"


def test_the_tiles_to_worry_about_are_drawn_and_listed_with_sources(printed: Printer) -> None:
    job = job_of(lump, 300)
    (page,) = pages_headed(printed(job), HEADING)
    found = sitting(job, "A", 0)
    assert found is not None and found.worries
    flat_page = " ".join(page.split())
    for words in worries_words(found):
        assert words in flat_page
    assert flat_page.count(f"{found.worries[0].id} ") >= 2
    assert "A108.02" in page and "rigid plates" in flat_page


def test_a_floor_on_which_all_sit_says_so(printed: Printer) -> None:
    (page,) = pages_headed(printed(job_of(level, 300)), HEADING)
    assert "Every tile sits when laid dry." in page
