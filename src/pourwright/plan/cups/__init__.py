"""Orders to shots, shots to the fewest cups of each color, remelt where it may go."""
