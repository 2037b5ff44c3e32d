"""The nouns of bench and shop, frozen: tools, materials, baits, looks, sheets, lots, money."""
