"""The sheet for layers and finished heights: what is under the tile, and what the floor meets."""
