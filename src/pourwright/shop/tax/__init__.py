"""The maker's tax: what a quarter's sheet reckons, and what it leaves to an adviser."""
