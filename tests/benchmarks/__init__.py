"""Benchmarks: each runs ours beside a plain way of doing the same, in one process, and judges the ratio."""
