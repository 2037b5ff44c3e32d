"""Pages and HTTP: what a browser or a program sees of the bench."""
