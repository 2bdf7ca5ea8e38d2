"""Means of painting shared by the board and the cards: colours by role, paths, hatches, texts."""
