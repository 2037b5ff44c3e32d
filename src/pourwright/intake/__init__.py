"""Guarded reading of what people upload."""
