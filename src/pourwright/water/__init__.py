"""Light under water, and what a fish makes of it."""
