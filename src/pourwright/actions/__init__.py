"""Use-cases: one file for each thing a person does, and the ports they reach the world through."""
