"""The question of the surface: what was read, whether it is flat enough, what to do about it."""
