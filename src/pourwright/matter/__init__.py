"""One banded value or curve per property, with its source; every kernel reads the same object."""
