"""Runs the benchmarks and prints their tables: `python -m tests.benchmarks`."""

from __future__ import annotations

from tests.benchmarks import bench_laying

if __name__ == "__main__":
    bench_laying.test_laying_beats_the_plain_ways_by_the_agreed_ratios()
