"""Units that may follow a number besides the one that is asked for, each with its factor."""

from __future__ import annotations

MILLISECONDS = {"milliseconds": 1.0, "msec": 1.0, "s": 1000.0, "seconds": 1000.0}
METRES = {"metres": 1.0, "meters": 1.0, "cm": 0.01, "ft": 0.3048, "feet": 0.3048}
PIXELS = {"pixels": 1.0, "pixel": 1.0, "lines": 1.0, "p": 1.0}
