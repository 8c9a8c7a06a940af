"""The arithmetic of work: plain functions with plain arguments."""
