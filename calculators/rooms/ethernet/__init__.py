"""Ethernet frames: what of a wire is left for data."""
