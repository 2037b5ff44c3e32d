"""Pearl powder: its color by angle, and its film and quality from pucks."""
