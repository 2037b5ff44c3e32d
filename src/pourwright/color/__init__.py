"""Color: layers of colored plastic, colorants, flake and recipes."""
