"""`lay --stock FILE` lays first what an earlier job left; `--keep-left FILE` keeps what this one leaves."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tilelayout.cli.stopping import tell_progress
from tilelayout.job.canonical import tree_of_value
from tilelayout.job.edits.stock import use_stock
from tilelayout.job.stock_files import Stock, read_stock, write_stock
from tilelayout.job.values import Job
from tilelayout.planning.job_plan import job_plan
from tilelayout.planning.stock_words import stock_lines
from tilelayout.planning.what_is_left import what_is_left, with_the_rest


def with_stock_from(job: Job, path: Path) -> Job:
    """Return the job with what the file holds of its tiles. JobFileError if the file cannot be read."""
    stock = read_stock(path)
    used = use_stock(job, stock.tiles)
    if used == job:
        there = ", ".join(tile.title for tile in stock.tiles) or "nothing"
        tell_progress(f"{path} holds no tile of this job, by name and measured size; there is {there}")
    return used


def keep_left(job: Job, path: Path) -> Stock:
    """Write what the whole job leaves to the file, beside what is in it of other tiles; return what is left.

    JobFileError if the file is there and no stock file, or cannot be written; LayoutError if a layout or a
    trim cannot be laid.
    """
    before = read_stock(path) if path.exists() else Stock()
    left = what_is_left(job_plan(job))
    write_stock(with_the_rest(left, job, before), path)
    return left


def left_text(left: Stock, job: Job, path: Path) -> list[str]:
    """Return the lines of what is left."""
    lines = [f"  {line}" for line in stock_lines(left, job.show_lengths)]
    return [f"Left when all is laid, kept in {path}", *(lines or ["  nothing"])]


def left_tree(left: Stock) -> Any:
    """Return what is left as keys for another program: the tiles as in a stock file."""
    return tree_of_value(left.tiles)
