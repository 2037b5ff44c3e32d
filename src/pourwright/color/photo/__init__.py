"""The color of a puck in a photo, read against a printed target beside it."""
