"""Runs the benchmarks: `python -m tests.benchmarks [--write] [--note WORDS] [NAME ...]`.

Prints what was measured as one table beside the goals, and with `--write` puts it into DEVELOPERS.md. NAME is
any of the parts, all if none is named; a table in DEVELOPERS.md is replaced whole.
"""

from __future__ import annotations

import argparse
import os
from collections.abc import Callable
from pathlib import Path

from tests.benchmarks.measured import Measured, table, write_into

PAGE = Path(__file__).resolve().parents[2] / "DEVELOPERS.md"


def _parts() -> dict[str, Callable[[], list[Measured]]]:
    """Return every part by its name, in the order they are run."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    from tests.benchmarks import (
        bench_board,
        bench_flatness,
        bench_laying,
        bench_memory,
        bench_offset_map,
        bench_seek,
        bench_seek_aims,
        bench_sharing,
        bench_start,
        bench_widths,
    )

    return {
        "laying": bench_laying.measured,
        "widths": bench_widths.measured,
        "map": bench_offset_map.measured,
        "starts": bench_seek.many_starts,
        "exact": bench_seek.exact_starts,
        "any-room": bench_seek.any_rooms,
        "aims": bench_seek_aims.measured,
        "sharing": bench_sharing.measured,
        "flatness": bench_flatness.measured,
        "memory": bench_memory.measured,
        "board": bench_board.measured,
        "start": bench_start.measured,
    }


def main() -> int:
    """Run what the command line names; the status is 1 if a goal with a verdict is missed."""
    parts = _parts()
    reader = argparse.ArgumentParser(prog="tests.benchmarks", description="Measure beside plain ways.")
    reader.add_argument("names", nargs="*", metavar="NAME", help=", ".join(parts))
    reader.add_argument("--write", action="store_true", help="put the table into DEVELOPERS.md")
    reader.add_argument("--note", default="", help="what else the machine did meanwhile")
    given = reader.parse_args()
    unknown = [name for name in given.names if name not in parts]
    if unknown:
        reader.error(f"no such part: {', '.join(unknown)}; there are {', '.join(parts)}")
    rows = [row for name in given.names or parts for row in parts[name]()]
    text = table(rows, given.note or f"load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    print("\n" + text)
    if given.write:
        write_into(PAGE, text)
    return 0 if all(row.is_near for row in rows) else 1


if __name__ == "__main__":
    raise SystemExit(main())
