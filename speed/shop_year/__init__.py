"""An invented shop's year, made from a seed: what its bench, shelf and books would hold.

Every name, price, count and customer is made up; a year is deterministic for its seed.
"""
