"""The sheet for trims: strips of the tile itself along walls, thresholds, openings."""
