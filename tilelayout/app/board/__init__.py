"""The board: the surface to scale, its tiles, and the tools that work on it."""
