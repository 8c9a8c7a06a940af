"""Words and inputs that several calculators of work share."""
