"""Charts over lots: is it drifting, and can it hold its limits."""
