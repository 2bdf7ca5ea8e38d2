"""Looks for the start that suits an aim best: exactly on straight walls along the tiles, else by refining."""
