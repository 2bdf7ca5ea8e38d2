"""The cards: one question at a time, beside the board."""
