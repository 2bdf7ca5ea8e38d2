"""The job as one immutable value: its parts, its file, its edits, its history."""
