"""The command line: the same calculations and actions as the pages."""
