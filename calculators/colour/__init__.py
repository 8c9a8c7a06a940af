"""Colour: output range, bits a channel, subsampling, test pictures. Imports calculators/desk only."""

CALCULATORS: tuple[str, ...] = ("levels", "depth", "chroma", "picture")
