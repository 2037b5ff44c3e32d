"""A pearl flake: what thin films on a thin plate mirror, and what a pile of plates scatters."""
