"""Shared mathematics of heat: conduction series, contact temperature, free convection."""
