"""A sheet to draw a tile on: the outlines of a cell, the two vectors that repeat it, and whether they do."""
