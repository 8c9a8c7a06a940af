"""Random inputs for tests: the build draws the same kind, from other seeds, to see which machine code answers need."""

from build_tools.engine.random_inputs import WRONG, random_inputs, usable

__all__ = ["WRONG", "random_inputs", "usable"]
