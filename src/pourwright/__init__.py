"""Pourwright: from the idea of a soft-plastic bait to a batch sheet, a poured lot and its cost."""

__version__ = "0.1.0"
