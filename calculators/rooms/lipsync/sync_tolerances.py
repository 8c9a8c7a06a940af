"""How far sound and picture may be apart: three published yardsticks, each for what it is."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import DEPENDS, FROM_MEMORY, NO, YES, Source
from calculators.desk.numbers import number, settled


@dataclass(frozen=True, slots=True)
class Tolerance:
    """Sound may be so much early and so much late, both as positive milliseconds; what: what that is a limit of."""

    name: str
    early_ms: float
    late_ms: float
    what: str

    def holds(self, offset_ms: float) -> bool:
        """Whether an offset, positive where the sound is early, is within, bounds included."""
        return -self.late_ms <= settled(offset_ms) <= self.early_ms

    def say(self) -> str:
        """Such as '+45/−125 ms'."""
        return f"+{number(self.early_ms, 0)}/−{number(self.late_ms, 0)} ms"


DETECTABLE = Tolerance("ITU-R BT.1359-1, detectability", 45, 125, "where viewers on average begin to notice")
ACCEPTABLE = Tolerance("ITU-R BT.1359-1, acceptability", 90, 185, "what viewers on average put up with")
ATSC = Tolerance("ATSC IS-191", 15, 45, "for a broadcaster's chain, at the input of its encoder")
EBU = Tolerance("EBU R37", 40, 60, "for a broadcaster's chain, at the output to the transmitter")
TOLERANCES = (DETECTABLE, ACCEPTABLE, EBU, ATSC)

SOURCES = (
    Source("ITU-R BT.1359-1 (1998), Relative timing of sound and vision for broadcasting",
           "considering g): thresholds of detectability and acceptability"),
    Source("ATSC IS-191 (2003), Relative Timing of Sound and Vision for Broadcast Operations", "", FROM_MEMORY),
    Source("EBU R37 (2007), relative timing of sound and vision", "", FROM_MEMORY),
)  # fmt: skip


def judged(low_ms: float, high_ms: float) -> str:
    """
    The verdict on an offset that lies somewhere between two ends, positive where the sound is early.

    Args:
        low_ms: The lesser end. [ms]
        high_ms: The greater end; the same as the lesser where the offset is known. [ms]

    Returns:
        yes where all of it is within detectability, no where all of it is beyond acceptability on one side,
        else depends. [text]

    Source:
        ITU-R BT.1359-1, considering g); that bounds count as within is this project's reading.

    Example:
        >>> judged(45, 45), judged(-185, -185), judged(91, 91)
        ('yes', 'depends', 'no')
    """
    if DETECTABLE.holds(low_ms) and DETECTABLE.holds(high_ms):
        return YES
    if settled(low_ms) > ACCEPTABLE.early_ms or settled(high_ms) < -ACCEPTABLE.late_ms:
        return NO
    return DEPENDS
