"""The drawings of motion: edges, delays, frames over refreshes, ranges."""
