"""Filling molds: shots, loads and cups."""
