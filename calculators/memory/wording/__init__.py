"""Cautions and notes that the memory calculators share."""
