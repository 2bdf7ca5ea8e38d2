"""The one call that window, sheets and command line share."""
