"""Words and figures that several calculators of motion share."""
