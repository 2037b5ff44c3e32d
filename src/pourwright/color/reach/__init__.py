"""What a shelf can make, what it cannot, and what to buy next."""
