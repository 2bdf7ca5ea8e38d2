"""Reads and writes stock files (`*.tilestock`, UTF-8 JSON): what one job leaves and the next may use.

The tiles stand in it as in a job file, with `whole_on_hand`, `lot` and `offcuts`; beside them only a `title`.
Reading is as strict as that of a job file, and every error names the file, the place and the mend.
"""

from __future__ import annotations

from pathlib import Path

from tilelayout.base.errors import JobFileError
from tilelayout.job.canonical import canonical_bytes
from tilelayout.job.checks import id_problems, tile_problems
from tilelayout.job.envelope import FileKind, keys_in, read_content, write_content
from tilelayout.job.limits import inside
from tilelayout.job.strict import read_as
from tilelayout.job.value import Value
from tilelayout.job.values import Tile

STOCK_FILE = FileKind("tilestock", 1, "stock")
STOCK_SUFFIX = ".tilestock"


class Stock(Value, frozen=True, kw_only=True):
    """Tiles with what is on hand of each. `title` says where it comes from."""

    title: str = ""
    tiles: tuple[Tile, ...] = ()


def read_stock(path: Path) -> Stock:
    """Return the stock in the file. JobFileError if there is none or it is not right."""
    return stock_from_bytes(read_content(path, STOCK_FILE), str(path))


def stock_from_bytes(content: bytes, file: str = "") -> Stock:
    """Return the stock that `content` holds; `file` is what an error calls it. JobFileError if not right."""
    stock = read_as(Stock, keys_in(content, STOCK_FILE, file), file=file)
    problems = [*id_problems("tiles", "tile", [tile.id for tile in stock.tiles])]
    for index, tile in enumerate(stock.tiles):
        problems += inside(f"tiles[{index}]", tile_problems(tile))
    for problem in problems[:1]:
        raise JobFileError(problem.what, problem.mend, file=file, place=problem.place)
    return stock


def stock_to_bytes(stock: Stock) -> bytes:
    """Return the file's bytes; the same stock always gives the same."""
    return canonical_bytes(stock, STOCK_FILE)


def write_stock(stock: Stock, path: Path) -> None:
    """Write the stock to the file, whole or not at all. JobFileError if that cannot be done."""
    write_content(path, stock_to_bytes(stock))
