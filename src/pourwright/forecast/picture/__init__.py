"""The picture of a look in a bait: where the rooms of color, water and body meet."""
