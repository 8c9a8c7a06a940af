"""Displays: timings, links, reach, adapters, declarations. May import: desk, trade."""

CALCULATORS: tuple[str, ...] = ("timing", "link", "reach", "adapter", "declared")
