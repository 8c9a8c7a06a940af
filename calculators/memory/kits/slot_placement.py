"""
Which stick goes into which slot: every way is tried, the best and the worst are kept.

Memory runs in pairs as far as two channels hold it; what one channel has more runs on that channel alone.
"""

from __future__ import annotations

from itertools import permutations
from typing import NamedTuple


class Stick(NamedTuple):
    """One stick: which kit it is of (0: the one at hand, 1: the one to add) and its size. [GB]"""

    kit: int
    size_gb: int


class Placement(NamedTuple):
    """What each slot holds, nearest to the processor first, channel A before channel B."""

    slots: tuple[Stick | None, ...]
    channels: int

    def channel(self, number: int) -> tuple[Stick | None, ...]:
        """The slots of one channel, nearer to the processor first."""
        each = len(self.slots) // self.channels
        return self.slots[number * each : (number + 1) * each]

    def channel_gb(self, number: int) -> int:
        """What a channel holds; 0 for one that is not there. [GB]"""
        return sum(s.size_gb for s in self.channel(number) if s) if number < self.channels else 0

    def doubled(self) -> bool:
        """Whether any channel holds two sticks or more."""
        return any(sum(s is not None for s in self.channel(n)) > 1 for n in range(self.channels))

    def paired_gb(self) -> int:
        """What is spread over both channels. [GB]"""
        return paired_gb(self.channel_gb(0), self.channel_gb(1)) if self.channels > 1 else 0


def paired_gb(channel_a_gb: int, channel_b_gb: int) -> int:
    """
    How much memory runs in pairs, spread over both channels.

    Args:
        channel_a_gb: What the first channel holds. [GB], 0 or more.
        channel_b_gb: What the second channel holds. [GB], 0 or more.

    Returns:
        Twice what the smaller channel holds. [GB]

    Source:
        Common practice, no source: controllers of desktop processors interleave what both channels hold and
        run the rest on one channel.

    Example:
        >>> paired_gb(24, 16)
        32
    """
    return 2 * min(channel_a_gb, channel_b_gb)


def slot_names(slots: int, channels: int) -> tuple[str, ...]:
    """
    The slots' names, channel by channel, the one nearest to the processor first.

    Args:
        slots: How many there are. [1], 2 or 4.
        channels: How many channels they are shared among. [1], 1 or 2.

    Returns:
        The names. Shape (slots,). [text]

    Source:
        Common practice, no source: a letter for the channel, a number that grows away from the processor.

    Example:
        >>> slot_names(4, 2), slot_names(2, 2)
        (('A1', 'A2', 'B1', 'B2'), ('A1', 'B1'))
    """
    each = slots // channels
    return tuple(f"{'AB'[c]}{n + 1}" for c in range(channels) for n in range(each))


def every_way(sticks: tuple[Stick, ...], slots: int, channels: int) -> list[Placement]:
    """
    All ways to put sticks into slots; sticks that are alike are not told apart.

    Args:
        sticks: The sticks. Shape (n,). [list]
        slots: How many slots there are. [1], 2 or 4.
        channels: How many channels they are shared among. [1], 1 or 2.

    Returns:
        The ways, in no order that matters; none where there are more sticks than slots. [list]

    Source:
        Combinatorics.

    Example:
        >>> len(every_way((Stick(0, 8), Stick(0, 8)), 4, 2))
        6
    """
    if len(sticks) > slots:
        return []
    padded: tuple[Stick | None, ...] = sticks + (None,) * (slots - len(sticks))
    return [Placement(way, channels) for way in dict.fromkeys(permutations(padded))]


def best(ways: list[Placement]) -> Placement:
    """
    The way with most memory in pairs; between equals the far slots first.

    Args:
        ways: Every way. Shape (n,), at least one. [list]

    Returns:
        The best way. [object]

    Raises:
        ValueError: There is no way.

    Source:
        Common practice, no source. After the pairs, in this order: the slot of each channel farther from the
        processor first, each kit shared between the channels, the larger stick farther from the processor,
        channel A not smaller than B, the kit at hand farther out.

    Example:
        >>> ways = every_way((Stick(0, 8), Stick(0, 8)), 4, 2)
        >>> [s is not None for s in best(ways).slots]
        [False, True, False, True]
    """
    return max(ways, key=_merit)


def worst_paired_gb(ways: list[Placement]) -> int:
    """
    What is left in pairs when the same sticks stand in the worst slots.

    Args:
        ways: Every way. Shape (n,), at least one. [list]

    Returns:
        The least memory in pairs of all ways. [GB]

    Raises:
        ValueError: There is no way.

    Source:
        As paired_gb.

    Example:
        >>> worst_paired_gb(every_way((Stick(0, 8), Stick(0, 8)), 4, 2))
        0
    """
    return min(way.paired_gb() for way in ways)


def _merit(way: Placement) -> tuple[int, ...]:
    """A sort key: the greater, the better the placement; what matters most comes first."""
    each = len(way.slots) // way.channels
    filled = [(i % each, s) for i, s in enumerate(way.slots) if s]
    channels = [way.channel(n) for n in range(way.channels)]
    outward = [s for _, s in sorted(enumerate(way.slots), key=lambda slot: -(slot[0] % each))]
    shared = sum(min(sum(1 for s in channel if s and s.kit == kit) for channel in channels) for kit in (0, 1))
    return (
        way.paired_gb(),
        sum(distance for distance, _ in filled),
        shared,
        sum(distance * s.size_gb for distance, s in filled),
        way.channel_gb(0) - way.channel_gb(1),
        *(s.size_gb if s else 0 for s in outward),
        *(-s.kit if s else -2 for s in outward),
    )
