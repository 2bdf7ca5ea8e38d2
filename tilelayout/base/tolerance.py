"""The few tolerances of the program, all in mm or mm2, each with the reason for its size.

A tape reads to about 1 mm and a wet saw cuts to about 0.5 mm, so everything here is far below what a
person could see and far above the rounding of double arithmetic on rooms up to a kilometre.
"""

SAME_PLACE = 1e-6
"""Two points nearer than this are one point (rounding of doubles at 1 km is about 1e-10 mm)."""

ON_EDGE = 1e-4
"""A point nearer than this to an edge lies on it: how a sawn edge is told from a factory edge."""

NO_AREA = 1e-3
"""A face whose overlap with the region is smaller than this is not there."""

CHORD = 0.02
"""Largest distance between an arc and the chords that stand for it when it is cut."""

LARGEST_LENGTH = 1_000_000.0
"""A length beyond a kilometre is a slip of the keyboard."""
