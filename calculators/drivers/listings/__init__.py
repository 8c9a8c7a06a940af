"""Output parsers: what a system's listing says of its display adapters."""
