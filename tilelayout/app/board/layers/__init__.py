"""What the board shows, one layer a file, painted from the floor upwards."""
