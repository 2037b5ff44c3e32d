"""What to buy first, and what the next purchase does best."""
