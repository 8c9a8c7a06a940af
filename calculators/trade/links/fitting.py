"""Does a mode fit a link? The rule of each kind of link, with its edges called edges."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import DEPENDS, NO, YES
from calculators.desk.numbers import number
from calculators.trade.links.link_rates import (
    DISPLAYPORT,
    TMDS,
    Link,
    character_clock,
    compressed_bits,
    line_coded_bits,
    needed_bits,
    payload_bits,
    usable_bits,
)
from calculators.trade.modes.modes import Mode
from calculators.trade.ratio import Ratio

CLOCK_MARGIN = (1006, 1000)  # a link's clock may be 0.6 % off: VESA DisplayPort 1.4, spread and tolerance, from memory

# (width, height, refresh, bits a channel at full colour, least fixed rate that is published as carrying it) with
# CTA-861 timing. HDMI Forum's published statements on HDMI 2.1, from memory.
_PUBLISHED = (
    (3840, 2160, 120, 10, 40),
    (3840, 2160, 120, 12, 48),
)


@dataclass(frozen=True, slots=True)
class Fit:
    """
    How a mode and a link go together. word: yes, depends or no.

    needed, payload: bits a second. active: what the visible picture alone asks. usable: with all of HDMI's
    margins taken off. compressed: what the strongest compression asks. kind: which rule decided.
    """

    word: str
    reason: str
    needed: Ratio
    payload: Ratio
    active: Ratio
    kind: str
    usable: Ratio | None = None
    line_coded: Ratio | None = None
    compressed: Ratio | None = None
    character: Ratio | None = None


def gigabits(rate: Ratio, places: int = 2) -> str:
    """A rate in words, such as '25.92 Gb/s'."""
    return f"{number(rate.value / 1e9, places)} Gb/s"


def fit(made: Mode, one: Link, lanes: int, sampling: str, depth: int, compressed: bool) -> Fit:
    """
    Whether a mode fits a link.

    Args:
        made: The mode with its blanking. [object]
        one: The link. [object]
        lanes: Lanes in use; counts for DisplayPort only. [1], 1, 2 or 4.
        sampling: rgb, 444, 422 or 420. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.
        compressed: Whether both ends may compress.

    Returns:
        The verdict with its reason and the rates behind it. [object]

    Raises:
        Nothing.

    Source:
        VESA DisplayPort 1.4 and 2.1, HDMI 2.1; from memory. The rule of each kind of link is in its function.

    Example:
        >>> from calculators.trade.links.link_rates import link
        >>> from calculators.trade.modes.modes import mode
        >>> fit(mode(3840, 2160, 60, "cta"), link("hdmi-tmds-600"), 4, "rgb", 10, False).word
        'no'
    """
    if one.family == TMDS:
        return _tmds(made, one, sampling, depth)
    if one.family == DISPLAYPORT:
        plain = _displayport(made, one, lanes, sampling, depth, compressed)
    else:
        plain = _fixed_rate(made, one, sampling, depth)
    return _with_compression(plain, made, sampling) if compressed else plain


def _tmds(made: Mode, one: Link, sampling: str, depth: int) -> Fit:
    """Yes where the character clock is within the limit, else no: the limit already holds the tolerance."""
    clock = character_clock(made.clock, sampling, depth)
    within = clock.fits(Ratio(one.lane_mbps * 1_000_000))
    words = f"{number(clock.value / 1e6, 2)} MHz"
    reason = (
        f"The link would run at {words}, within its {one.lane_mbps} MHz."
        if within
        else f"The link would have to run at {words}, above its {one.lane_mbps} MHz."
    )
    return Fit(
        YES if within else NO,
        reason,
        needed_bits(made.clock, one, sampling, depth),
        payload_bits(one, one.lanes),
        needed_bits(made.active, one, sampling, depth),
        "character clock",
        character=clock,
    )


def _displayport(made: Mode, one: Link, lanes: int, sampling: str, depth: int, compressed: bool) -> Fit:
    """No above the payload; depends within 0.6 % of it; else yes."""
    needed = needed_bits(made.clock, one, sampling, depth)
    payload = payload_bits(one, lanes, compressed)
    active = needed_bits(made.active, one, sampling, depth)
    asked, room = gigabits(needed), gigabits(payload)
    if not needed.fits(payload):
        word, kind = NO, "too much"
        reason = f"It needs {asked} and the link carries {room}."
    elif not needed.times(*CLOCK_MARGIN).fits(payload):
        word, kind = DEPENDS, "edge"
        reason = (
            f"It needs {asked} of {room}: it fits by {_by(needed, payload)}, and no longer if the link's clock is "
            "0.6 % slow. "
            "Whether it is offered is up to the card and the display."
        )
    else:
        word, kind = YES, "fits"
        reason = f"It needs {asked} of the {room} that the link carries."
    return Fit(word, reason, needed, payload, active, kind, line_coded=line_coded_bits(one, lanes))


def _by(needed: Ratio, payload: Ratio) -> str:
    """How narrowly something fits, in words; exact, since the edge itself is only 0.6 % wide."""
    if not payload.fits(needed.times(1005, 1000)):
        return "hardly more than half a percent"
    return "less than half a percent" if not payload.fits(needed) else "nothing at all"


def _published(made: Mode, one: Link, sampling: str, depth: int) -> bool:
    rate = one.lane_mbps * one.lanes // 1000
    return made.format is not None and any(
        (made.width, made.height, made.format.refresh) == (width, height, refresh)
        and sampling in ("rgb", "444")
        and depth == bits
        and rate >= least
        for width, height, refresh, bits, least in _PUBLISHED
    )


def _fixed_rate(made: Mode, one: Link, sampling: str, depth: int) -> Fit:
    """
    Yes where full blanking fits or the pair is published, no where the picture alone is too much, else depends.

    Clock times bits overstates the need: blanking travels compressed on this link.
    """
    needed = needed_bits(made.clock, one, sampling, depth)
    active = needed_bits(made.active, one, sampling, depth)
    payload, usable = payload_bits(one, one.lanes), usable_bits(one)
    asked, room, alone = gigabits(needed), gigabits(payload), gigabits(active)
    if needed.fits(usable):
        word, kind = YES, "fits"
        reason = f"Even with its blanking sent in full it needs {asked} of the {room} that the link carries."
    elif _published(made, one, sampling, depth):
        word, kind = YES, "published"
        reason = (
            f"With full blanking it would need {asked}, against {gigabits(usable, 1)} with all margins; but blanking "
            "travels compressed on this link, and the standard's makers publish this pair as carried."
        )
    elif not active.fits(payload):
        word, kind = NO, "picture alone"
        reason = f"The visible picture alone needs {alone} and the link carries {room}."
    elif needed.fits(payload):
        word, kind = DEPENDS, "edge"
        reason = (
            f"It needs {asked} of {room}, and no longer fits once every margin of the standard is taken off, "
            f"which leaves {gigabits(usable)}."
        )
    else:
        word, kind = DEPENDS, "bracket"
        reason = (
            f"Between {alone} for the picture alone and {asked} with its blanking in full; the link carries {room}. "
            "Blanking travels compressed on this link, so the truth lies between, and the makers of both ends decide."
        )
    return Fit(word, reason, needed, payload, active, kind, usable=usable, line_coded=line_coded_bits(one, one.lanes))


def _with_compression(plain: Fit, made: Mode, sampling: str) -> Fit:
    """Depends where only compression makes it fit; what fits without it is left as it is."""
    squeezed = compressed_bits(made.clock, sampling)
    word, reason, kind = plain.word, plain.reason, plain.kind
    if word == NO and squeezed.fits(plain.payload):
        word, kind = DEPENDS, "compressed"
        reason = (
            f"Only compressed: it needs {gigabits(plain.needed)} as it is and {gigabits(squeezed)} at the strongest "
            f"compression, of {gigabits(plain.payload)}. Card and display must both offer it."
        )
    elif word == NO:
        reason = f"{reason} Even compressed it needs {gigabits(squeezed)}."
    return Fit(
        word, reason, plain.needed, plain.payload, plain.active, kind,
        usable=plain.usable, line_coded=plain.line_coded, compressed=squeezed,
    )  # fmt: skip
