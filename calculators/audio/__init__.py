"""Audio: plugs, levels, hiss, hearing limits, test sounds and honest listening. Imports calculators/desk only."""

CALCULATORS = ("level", "noise", "exposure", "plugs", "tones", "blind")
