"""What a job takes: tiles to buy, layers and heights."""
