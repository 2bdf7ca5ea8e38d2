"""Units, errors, tolerances and finders that every other folder stands on."""
