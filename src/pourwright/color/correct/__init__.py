"""What to add to a hot cup whose drip was read."""
