"""Drawing tools without a window: events in, a preview out, an edit returned."""
