"""Recipes for a target color, in whole drops, spoons and steps of the scale."""
