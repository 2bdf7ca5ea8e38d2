"""Edits: one plain function each, a job and arguments in, a new job out."""
