"""Ways that send the picture as a stream: by wire, over the air, half and half, over mains wiring or coax."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import COMMON_PRACTICE, DEPENDS, FROM_MEMORY, NO, YES, Source
from calculators.desk.inputs import Everyday, Span
from calculators.desk.numbers import number, settled, significant
from calculators.rooms.paths.way import Case, Way, least, within
from calculators.rooms.streams.codec_levels import AV1, H264, H265, least_level
from calculators.rooms.streams.codec_levels import SOURCES as LEVEL_SOURCES
from calculators.rooms.streams.stream_rates import delay_ms, frame_wait_ms, send_ms, stream_mbps
from calculators.rooms.streams.typical_streams import LIMITS_MS, usual_bits
from calculators.trade.frame_rates import exact_rate

SHARE = 0.7  # of a network for one stream. Common practice
RUN_M = 100  # network-type cable from box to box: ISO/IEC 11801 and TIA-568, from memory
AIR_M = 50  # unmeasured, beyond this nothing is to be hoped for in a house. Common practice

SOURCES = (
    Source("ISO/IEC 11801, ANSI/TIA-568", "100 m of network-type cable from box to box", FROM_MEMORY),
    Source("TIA TSB-155", "10 Gb/s on Category 6: 37 m, up to 55 where cables do not disturb one another", FROM_MEMORY),
    Source("What air, mains wiring and coax carry in a home, and how late they are", "", COMMON_PRACTICE),
    *LEVEL_SOURCES.values(),
)

NETWORK_CHOICES = (
    Everyday("wire-1000", "by wire, 1000", 900, 941, ("gigabit", "wired", "ethernet")),
    Everyday("wire-100", "by wire, 100", 90, 95, ("fast ethernet",)),
    Everyday("air-near", "air, same room", 100, 600, ("wifi same room",)),
    Everyday("air-wall", "air, through walls", 20, 200, ("wifi", "wi-fi", "wireless", "wlan")),
    Everyday("air-mesh", "air by mesh", 20, 300, ("mesh", "repeater")),
)
UNSURE_MBPS = (5, 941)
_USUAL_WIRE, _USUAL_AIR, _USUAL_MAINS = Span(90, 941), Span(5, 600), Span(20, 900)


@dataclass(frozen=True, slots=True)
class Measured:
    """What was measured between the two machines, and over what: unsure, wire or air."""

    mbps: Span
    over: str

    @property
    def where(self) -> str:
        """Over what it was measured: an everyday choice says so itself."""
        if self.mbps.choice.startswith(("wire", "air")):
            return self.mbps.choice.partition("-")[0]
        return self.over

    @property
    def known(self) -> bool:
        """Whether a number was given, or a choice that stands for one."""
        return self.mbps.choice != "unsure"

    @property
    def counted(self) -> bool:
        """Whether a number was given: an everyday choice says what is usual, and measures nothing."""
        return self.mbps.exact


@dataclass(frozen=True, slots=True)
class Need:
    """What the stream takes: bits a pixel and rate, least and most."""

    bits: tuple[float, float]
    mbps: tuple[float, float]


def needed(case: Case) -> Need:
    """
    What a stream of the case usually takes, over all codecs.

    Args:
        case: The mode and the use. [object]

    Returns:
        Bits a pixel and rate. [bit, Mb/s]

    Source:
        Common practice, no source.

    Example:
        >>> needed(Case(10, 1920, 1080, 50, 8, "film", False, "any")).mbps
        (2.0736, 10.368)
    """
    bits = usual_bits(case.use, "unknown")
    rate = exact_rate(case.refresh)
    low, high = (stream_mbps(case.width, case.height, rate, end) for end in bits)
    return Need(bits, (low, high))


# Encoding, round trip, buffer and decoding, least and most. [ms] Common practice, no source.
_TIMES = {
    "wired": ((3, 12), (0.2, 2), (0, 15), (4, 20)),
    "mixed": ((3, 12), (1, 10), (5, 40), (4, 20)),
    "air": ((3, 12), (2, 20), (10, 80), (4, 20)),
    "mains": ((3, 12), (5, 40), (5, 60), (4, 20)),
}


def late_ms(case: Case, kind: str, mbps: Span) -> tuple[float, float]:
    """The delay of a stream over one kind of network, without the display's own time: least and most. [ms]"""
    wait = frame_wait_ms(exact_rate(case.refresh))
    bits = needed(case).bits
    ends = []
    for i, network in enumerate((mbps.high, mbps.low)):
        encode, trip, buffer, decode = (span[i] for span in _TIMES[kind])
        send = min(send_ms(case.width, case.height, bits[i], network), 2 * wait)  # what fits is sent within a frame
        ends.append(delay_ms(wait, encode, send, trip, buffer, decode, 0))
    return ends[0], ends[1]


def fits(need: Need, mbps: Span) -> str:
    """
    Whether a stream fits what a network carries, with room for bursts and for others.

    Args:
        need: What the stream takes. [Mb/s]
        mbps: What the network carries. [Mb/s]

    Returns:
        yes where its richer end fits the least, no where its leaner end does not fit the most, else depends. [text]

    Source:
        70 % for one stream: common practice, no source.

    Example:
        >>> fits(Need((0.1, 0.2), (12, 25)), Span(94, 94)), fits(Need((0.1, 0.2), (12, 25)), Span(5, 10))
        ('yes', 'no')
    """
    if settled(need.mbps[1]) <= settled(mbps.low * SHARE):
        return YES
    return NO if settled(need.mbps[0]) > settled(mbps.high * SHARE) else DEPENDS


def decodable(case: Case) -> bool:
    """
    Whether a level of one of the three codecs holds a lean stream of the case: few decoders do more than that.

    Args:
        case: The mode and the use. [object]

    Returns:
        True where there is such a level.

    Source:
        ITU-T H.264, Table A-1; ITU-T H.265, A.4; AV1 specification, annex A.

    Example:
        >>> [decodable(Case(10, 7680, 4320, hz, 8, "film", False, "any")) for hz in (120, 240)]
        [True, False]
    """
    rate = exact_rate(case.refresh)
    for codec in (H264, H265, AV1):
        lean = stream_mbps(case.width, case.height, rate, usual_bits(case.use, codec)[0])
        if least_level(codec, case.width, case.height, rate, lean):
            return True
    return False


def network_ways(case: Case, measured: Measured) -> tuple[Way, ...]:
    """The four ways that send a stream."""
    by_wire = measured.known and measured.where != "air"
    by_air = measured.known and measured.where != "wire"
    wire = measured.mbps if by_wire else _USUAL_WIRE
    air = measured.mbps if by_air else _USUAL_AIR
    heard = by_air and measured.counted
    return (_wired(case, wire, _wire_passes(by_wire, measured)), _air(case, air, heard), _mixed(case, air, heard),
            _mains(case))  # fmt: skip


def _wire_passes(by_wire: bool, measured: Measured) -> str:
    """Why a wire will do: by what was measured, by what was chosen, or by what is usual."""
    if by_wire and measured.counted:
        return "What was measured has room for it, and it comes in time."
    what = "Such a" if by_wire else "Even a"
    return f"{what} wired network{'' if by_wire else ' at 100'} has room for it, and it comes in time."


def _judged(case: Case, kind: str, mbps: Span) -> tuple[str, str, str, tuple[float, float]]:
    """The words for room and decoder and for delay, the reason where they are not yes, and the delay."""
    need, limit = needed(case), LIMITS_MS[case.use]
    room, late = fits(need, mbps), late_ms(case, kind, mbps)
    timely = YES if late[1] <= limit else NO if late[0] > limit else DEPENDS
    rich, share = f"{significant(need.mbps[1], 2)} Mb/s", f"{number(100 * SHARE, 0)} %"
    if room == NO:
        reason = f"Even a lean stream needs more than {share} of that network."
    elif timely == NO:
        reason = f"It comes later than the {limit} ms that this use bears."
    elif not decodable(case):
        room, reason = DEPENDS, "No level of the usual codecs holds this mode: few decoders will."
    elif room == DEPENDS:
        reason = f"A rich stream takes {rich}: measure whether the network always has that."
    elif timely == DEPENDS:
        reason = f"At its slowest it is later than the {limit} ms that this use bears."
    else:
        reason = ""
    return room, timely, reason, late


_BACK = "back over the same network; sound goes along"


def _wired(case: Case, mbps: Span, passes: str) -> Way:
    room, timely, reason, late = _judged(case, "wired", mbps)
    allowed = case.wire != "none"
    run = within(case.distance_m, RUN_M, 3 * RUN_M)
    word = least(room, timely, run) if allowed else NO
    if not allowed:
        reason = "It needs a network-type cable, and none may be laid."
    elif run == DEPENDS and least(room, timely) == YES:
        reason = f"Beyond {RUN_M} m the run needs a switch between, or glass fibre."
    return Way(
        key="stream", name="a stream over the wired network", word=word,
        reason=reason or passes,
        condition="A small machine or the television can decode what is sent.",
        first="Measure between the two machines, by wire, for a minute.",
        reach=f"{RUN_M} m from box to box (ISO/IEC 11801)", late_ms=late,
        loses="some sharpness, mostly chroma; adaptive refresh; HDR unless every part names it",
        control=_BACK, lay="a network-type cable, Category 6 or better",
    )  # fmt: skip


def _over_the_air(case: Case, way: str, mbps: Span, heard: bool) -> tuple[str, str, tuple[float, float]]:
    """Verdict, reason and lateness of a way with a leg over the air; unmeasured, its distance counts as well."""
    room, timely, reason, late = _judged(case, way, mbps)
    far = YES if heard else within(case.distance_m, 0, AIR_M)
    if far == NO:
        reason = f"{number(case.distance_m, 1)} m through a house is too far to hope for unmeasured."
    elif far == DEPENDS and least(room, timely) == YES:
        reason = "Nobody has measured the air there yet."
    return least(room, timely, far), reason, late


def _air(case: Case, mbps: Span, heard: bool) -> Way:
    word, reason, late = _over_the_air(case, "air", mbps, heard)
    return Way(
        key="air", name="a stream over the air", word=word,
        reason=reason or "What was measured has room for it, and it comes in time.",
        condition="The lowest second of your measurement is still enough.",
        first="Measure for a minute where the screen stands, in the evening.",
        reach="as measured; walls decide", late_ms=late,
        loses="as by wire, and it stutters when others use the air", control=_BACK, lay="nothing",
    )  # fmt: skip


def _mixed(case: Case, air: Span, heard: bool) -> Way:
    mbps = Span(air.low, 2 * air.high, air.choice)
    word, reason, late = _over_the_air(case, "mixed", mbps, heard)
    return Way(
        key="mixed", name="a stream over the air, sender wired", word=word,
        reason=reason or "Only one leg goes over the air, and what was measured has room.",
        condition="The machine hangs on the router by wire; only the other end uses the air.",
        first="Put the machine on a wire, then measure again.",
        reach="as measured; walls decide", late_ms=late,
        loses="as by wire, less stutter than with both ends on the air", control=_BACK,
        lay="one cable from the machine to the router",
    )  # fmt: skip


def _mains(case: Case) -> Way:
    room, timely, reason, late = _judged(case, "mains", _USUAL_MAINS)
    far = within(case.distance_m, 0, RUN_M)
    word = least(room, timely, far, DEPENDS)
    if far == NO:
        reason = f"{number(case.distance_m, 1)} m of old wiring is too far to hope for."
    elif word == DEPENDS and timely != DEPENDS:
        reason = "What mains wiring or coax carries, only trying tells."
    return Way(
        key="mains", name="a stream over mains wiring or coax", word=word,
        reason=reason or "What mains wiring or coax carries, only trying tells.",
        condition="Both sockets hang on the same distribution board.",
        first="Borrow a pair and measure for a minute, with the kitchen in use.",
        reach=f"up to {RUN_M} m of wiring", late_ms=late,
        loses="as by wire, and it drops when motors or chargers disturb it", control=_BACK,
        lay="nothing; an adapter at each end, straight in the wall",
    )  # fmt: skip


def carried(case: Case) -> Way:
    """The way that always works: carrying the machine, or a second small one in the other room."""
    return Way(
        key="machine", name="carrying the machine, or a second small one there", word=YES,
        reason="Nothing has to cross a wall but files.", condition="Files and saved games are kept in step.",
        first="Ask what really must happen in that room, and what it takes.", reach="any distance", late_ms=(0, 1),
        loses="nothing, or what the small machine cannot do", control="on the spot, sound too", lay="nothing",
    )  # fmt: skip
