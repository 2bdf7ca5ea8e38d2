"""The map of all starts, a panel beside the board: to read, to point at, to move the start by."""
