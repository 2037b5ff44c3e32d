"""The cup in two dimensions: plastic and glass as finite volumes around the cup's axis."""
