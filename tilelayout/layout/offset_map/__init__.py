"""The quality of every start at once: one cell of starts, from a coarse picture to a fine one."""
