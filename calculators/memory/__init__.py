"""Memory: what a kit's numbers mean, which sticks go together and how to start them. Imports calculators/desk only."""

CALCULATORS = ("rate", "mix", "ways", "check", "need")
