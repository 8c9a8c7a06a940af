"""Kits of memory, their inputs, their slots, and the drawing of both."""
