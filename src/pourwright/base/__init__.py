"""The ground floor: errors, sources, units, fields, draws, beliefs and calculations."""
