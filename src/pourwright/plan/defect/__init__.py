"""What a maker sees on a bait, why it may be so, what tests it, what cures it."""
