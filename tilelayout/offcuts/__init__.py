"""Which piece is cut from which tile, and how few tiles can do."""
