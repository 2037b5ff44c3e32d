"""Blends: hardness and density."""
