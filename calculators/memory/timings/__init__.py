"""Data rates, timings and the settings made of them."""
