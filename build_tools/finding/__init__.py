"""The index by which answers are found: made of the pages and of their calculators' declarations."""
