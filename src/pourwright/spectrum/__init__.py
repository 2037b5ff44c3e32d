"""Spectra of 31 bands, lights, the eye and color differences."""
