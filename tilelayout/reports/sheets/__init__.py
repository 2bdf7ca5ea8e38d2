"""Sheets of paper: one module per kind, each returns the bodies of its pages."""
