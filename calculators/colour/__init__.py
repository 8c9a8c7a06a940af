"""Colour: output range, bits, subsampling, test pictures, shadows in HDR mode. Imports the desk and the trade only."""

CALCULATORS: tuple[str, ...] = ("levels", "depth", "chroma", "picture", "shadows")
