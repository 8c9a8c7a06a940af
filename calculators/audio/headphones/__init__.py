"""A headphone on an output: the circuit, the inputs that several calculators share, and typical values."""
