"""Sheets for what is on hand, what is left, what fits and what to buy."""
