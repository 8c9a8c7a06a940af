"""The arithmetic of motion: blur, delay, cadence and adaptive ranges, on exact ratios."""
