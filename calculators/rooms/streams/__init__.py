"""Streams: what they need, how late they are, and which level of a codec holds them."""
