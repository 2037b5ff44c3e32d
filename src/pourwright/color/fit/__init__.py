"""What pucks teach: absorption and scattering of colorants from readings of poured plastic."""
