"""Bodies of baits: families by ruler and caliper, their solids and measures."""
