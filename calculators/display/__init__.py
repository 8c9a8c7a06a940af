"""Displays: timings, links, reach, adapters, declarations. Imports calculators/desk only."""

CALCULATORS: tuple[str, ...] = ("timing", "link", "reach", "adapter", "declared")
