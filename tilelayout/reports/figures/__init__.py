"""Builders of figures: the plan of a surface, and one piece in its tile."""
