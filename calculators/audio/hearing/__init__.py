"""How long one may listen: the limits."""
