"""Parts that several baits share: rings, rods, tails, limbs, claws and what makes a fish a fish."""
