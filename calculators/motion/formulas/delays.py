"""
The way from hand to picture as a chain of waits. A model, common practice: each part is an average by itself.

What real machines do besides (the sensor, the system, the game's own clock) is not in it.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.trade.ratio import Ratio, smaller

OFF, ON, ADAPTIVE = "off", "on", "adaptive"
_NOTHING = Ratio(0)
_PERCENT = Ratio(100)


@dataclass(frozen=True, slots=True)
class Chain:
    """
    The settings of one chain. poll_hz, frames, rate: a second. queued: frames. down: percent of the picture's height.

    sync: off, on or adaptive. display_ms, response_ms: the display's own time, and its pixels'.
    """

    poll_hz: Ratio
    frames: Ratio
    queued: Ratio
    rate: Ratio
    sync: str
    down: Ratio
    display_ms: Ratio
    response_ms: Ratio


@dataclass(frozen=True, slots=True)
class Delays:
    """The parts of the delay, each an average. [ms]"""

    poll: Ratio
    wait: Ratio
    make: Ratio
    queue: Ratio
    sync: Ratio
    scan: Ratio
    display: Ratio
    response: Ratio

    def parts(self) -> tuple[Ratio, ...]:
        """All parts, in the order in which they come. [ms]"""
        return (self.poll, self.wait, self.make, self.queue, self.sync, self.scan, self.display, self.response)

    def total(self) -> Ratio:
        """The sum of all parts. [ms]"""
        total = _NOTHING
        for part in self.parts():
            total = total.plus(part)
        return total

    def chance(self) -> Ratio:
        """How far the whole can be off its average either way: poll, wait and sync are each 0 to twice theirs. [ms]"""
        return self.poll.plus(self.wait).plus(self.sync)


def delays(chain: Chain) -> Delays:
    """
    The delay of one chain, part by part.

    Args:
        chain: The settings. [object]

    Returns:
        The parts, each an average, in milliseconds. [object]

    Source:
        Common practice, no source: a mean wait for something that comes at even intervals is half an interval.

    Example:
        >>> one = Ratio(0)
        >>> round(delays(Chain(Ratio(1000), Ratio(100), one, Ratio(144), OFF, one, one, one)).total().value, 3)
        18.972
    """
    made = chain.frames if chain.sync == OFF else smaller(chain.frames, chain.rate)
    late = chain.sync == OFF or (chain.sync == ON and chain.frames.below(chain.rate))
    scan = _NOTHING if chain.sync == OFF else chain.down.per(_PERCENT).by(Ratio(1000).per(chain.rate))
    return Delays(
        poll=Ratio(500).per(chain.poll_hz),
        wait=Ratio(500).per(made),
        make=Ratio(1000).per(made),
        queue=chain.queued.by(Ratio(1000).per(made)),
        sync=Ratio(500).per(chain.rate) if late else _NOTHING,
        scan=scan,
        display=chain.display_ms,
        response=chain.response_ms,
    )
