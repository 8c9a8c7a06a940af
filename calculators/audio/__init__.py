"""Audio: plugs, levels, hiss, hearing limits, test sounds and honest listening. May import: desk, trade."""

CALCULATORS = ("level", "noise", "exposure", "plugs", "tones", "blind")
