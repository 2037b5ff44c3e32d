"""Molds for a bait: halves to cut, an open mold, masters to cast from, and their files."""
