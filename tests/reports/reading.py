"""Reads a printed PDF back with libraries that had no part in writing it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pdfplumber
from numpy.typing import NDArray

MM = 72 / 25.4
"""Points in one mm: the PDF unit is 1/72 in (ISO 32000-1, 8.3.2.3)."""


def texts(path: Path) -> list[str]:
    """Return the level text of each page; what is written along a wall is left out."""
    with pdfplumber.open(path) as pdf:
        return [page.filter(_is_level_text).extract_text() for page in pdf.pages]


def _is_level_text(thing: dict[str, Any]) -> bool:
    return thing["object_type"] == "char" and bool(abs(thing["matrix"][1]) < 1e-6)


def pages_headed(path: Path, heading: str) -> list[str]:
    """Return the text of the pages whose first line ends with `heading`."""
    return [text for text in texts(path) if text.splitlines()[0].endswith(heading)]


def shapes(path: Path, page_number: int) -> list[tuple[NDArray[np.float64], dict[str, Any]]]:
    """Return every path of a page as points in mm, y up, with what the reader says about it."""
    with pdfplumber.open(path) as pdf:
        page = pdf.pages[page_number]
        found = [*page.curves, *page.rects, *page.lines]
        return [
            (np.array(shape["pts"]) / MM * [1, -1] + [0, float(page.height) / MM], shape) for shape in found
        ]
