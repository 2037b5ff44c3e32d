"""Pourwright: from the idea of a soft-plastic bait to a batch sheet, a poured lot and its cost."""
