"""Drawing without a window: events in, previews out, edits offered."""
