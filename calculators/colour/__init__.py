"""Colour: output range, bits, subsampling, test pictures, shadows in HDR mode. May import: desk, trade."""

CALCULATORS: tuple[str, ...] = ("levels", "depth", "chroma", "picture", "shadows")
