"""
How long a piece of work takes, told so that a busy machine fails nothing by being busy.

Processor time is counted, not time by the clock, and a machine that is slow at the moment is allowed as much more as it
takes for a piece of work of the same kind, measured right beside it.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable

import pytest

YARDSTICK_S = 0.024  # what the yardstick took on the machine where the limits were set, with nothing beside it

only_here = pytest.mark.skipif(sys.platform == "emscripten", reason="the promise is about CPython")


def taken(work: Callable[[], object]) -> float:
    """Processor time of a piece of work. [s]"""
    start = time.process_time()
    work()
    return time.process_time() - start


def least(work: Callable[[], object], times: int = 3) -> float:
    """The least of several: a pause for something else happens once, slow work every time. [s]"""
    return min(taken(work) for _ in range(times))


def allowed(limit: float) -> float:
    """As much more than the limit as this machine needs just now. [s]"""
    return limit * max(1.0, least(_yardstick, 5) / YARDSTICK_S)


def _yardstick() -> None:
    total = 0
    for i in range(400_000):
        total += i * i & 1023
    assert total
