"""Words that several calculators of rooms share."""
