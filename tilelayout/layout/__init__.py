"""Patterns, laying and measures: a layout and a region in, pieces out."""
