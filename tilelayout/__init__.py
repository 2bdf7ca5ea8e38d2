"""A planner for tiled floors and walls: start lines, cut pieces, counts, and a cut list for the saw."""
