"""Whether a mode fits a link, by the rule of each kind of link; where it fits too narrowly to be sure, it 'depends'."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calculators.desk.answer import DEPENDS, NO, YES
from calculators.desk.numbers import number
from calculators.trade.links.link_rates import (
    DISPLAYPORT,
    TMDS,
    Link,
    bits_a_pixel,
    character_clock,
    compressed_bits,
    line_coded_bits,
    needed_bits,
    payload_bits,
    usable_bits,
)
from calculators.trade.modes.modes import Mode
from calculators.trade.modes.unknown_blanking import ClockRange
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
    Whether a mode fits a link. word: yes, depends or no.

    Rates in bits a second. needed: what the mode takes. payload: what the link carries. active: what the visible
    picture alone takes. usable: the payload less all of HDMI's margins. line_coded: the raw rate less line
    coding alone. compressed: what the mode takes at the strongest compression. needed_least, needed_most: the range of
    what it may take, where the blanking is not known. character: HDMI's character clock. [Hz] clock_limit: the highest
    pixel clock that is sure to be carried. [Hz] kind: which rule decided. more: the reason at length, where there is
    more to say.
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
    more: str = ""
    needed_least: Ratio | None = None
    needed_most: Ratio | None = None
    clock_limit: Ratio | None = None

    @property
    def squeezed(self) -> bool:
        """Whether it fits compressed only, so that the compressed rate is the one to name."""
        return self.kind == "compressed" and self.compressed is not None


def gigabits(rate: Ratio, places: int = 2) -> str:
    """A rate in words, such as '25.92 Gb/s'."""
    return f"{number(rate.value / 1e9, places)} Gb/s"


def fit(
    mode: Mode, link: Link, lanes: int, sampling: str, depth: int, compressed: bool, untold: ClockRange | None = None
) -> Fit:
    """
    Whether a mode fits a link.

    Args:
        mode: The mode with its blanking. [object]
        link: The link. [object]
        lanes: Lanes in use; counts for DisplayPort's own sockets only. [1], 1, 2 or 4.
        sampling: rgb, 444, 422 or 420. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.
        compressed: Whether both ends may compress.
        untold: Where the blanking is not known, the range of pixel clocks that the mode may have. Not used for a
            fixed-rate link, whose rule needs no exact clock. [Hz]

    Returns:
        The verdict with its reason and the rates behind it. [object]

    Source:
        VESA DisplayPort 1.4 and 2.1, HDMI 2.1, DVI 1.0; from memory. The rule of each kind of link is in its function.

    Example:
        >>> from calculators.trade.links.link_rates import link
        >>> from calculators.trade.modes.modes import mode
        >>> fit(mode(3840, 2160, 60, "cta"), link("hdmi-tmds-600"), 4, "rgb", 10, False).word
        'no'
    """
    if link.family == TMDS:
        return _tmds(mode, link, sampling, depth, untold)
    if link.family == DISPLAYPORT:
        plain = _displayport(mode, link, lanes, sampling, depth, compressed, untold)
    else:
        plain = _fixed_rate(mode, link, sampling, depth)
    return _with_compression(plain, mode, sampling, untold) if compressed else plain


def _tmds(mode: Mode, link: Link, sampling: str, depth: int, untold: ClockRange | None) -> Fit:
    """Yes where the character clock is within the limit, else no: the limit already holds the tolerance."""
    limit = Ratio(link.lane_mbps * 1_000_000)
    clock = character_clock(mode.clock, sampling, depth)
    least, most = (
        (character_clock(c, sampling, depth) for c in (untold.least, untold.most)) if untold else (clock, clock)
    )
    words = f"{number(clock.value / 1e6, 2)} MHz"
    if most.fits(limit):
        word, kind = YES, "character clock"
        reason = f"The link would run at {words}, within its {link.lane_mbps} MHz."
    elif least.fits(limit):
        word, kind = DEPENDS, "untold"
        reason = (
            f"It takes {_plain(least)} to {_plain(most)} MHz, by the display's timing; the link ends at "
            f"{link.lane_mbps}."
        )
    else:
        word, kind = NO, "character clock"
        reason = f"The link would have to run at {words}, above its {link.lane_mbps} MHz."
    if link.dvi:
        word, reason, kind = _dvi(mode, link, sampling, depth, (word, reason, kind))
    return Fit(
        word,
        reason,
        needed_bits(mode.clock, link, sampling, depth),
        payload_bits(link, link.lanes),
        needed_bits(mode.active, link, sampling, depth),
        kind,
        character=clock,
        needed_least=needed_bits(untold.least, link, sampling, depth) if untold else None,
        needed_most=needed_bits(untold.most, link, sampling, depth) if untold else None,
        clock_limit=_undo(limit, sampling, depth),
    )


# DVI sends RGB alone, eight bits a channel on one link; what goes beyond may take the second link, up to this clock.
# DVI 1.0, from memory.
_DVI_ONE_LINK = Ratio(165_000_000)


def _dvi(mode: Mode, link: Link, sampling: str, depth: int, by_clock: tuple[str, str, str]) -> tuple[str, str, str]:
    """What DVI says of format and depth, else, by_clock: what the clock leaves."""
    if sampling != "rgb":
        return NO, "DVI carries RGB and none of television's colour formats.", "format"
    if depth == 8:
        return by_clock
    if link.key == "dvi-dual" and mode.clock.fits(_DVI_ONE_LINK):
        return DEPENDS, f"{depth} bits take DVI's second link, and hardly any display does that.", "second link"
    return NO, f"DVI carries 8 bits a channel here, not {depth}.", "format"


def _undo(limit: Ratio, sampling: str, depth: int) -> Ratio:
    """The pixel clock that has a given character clock: the reverse of `character_clock`."""
    if sampling == "422":
        return limit
    return limit.times(16, depth) if sampling == "420" else limit.times(8, depth)


def _plain(clock: Ratio) -> str:
    """A clock in MHz, without its unit."""
    return number(clock.value / 1e6, 2)


def _displayport(
    mode: Mode, link: Link, lanes: int, sampling: str, depth: int, compressed: bool, untold: ClockRange | None
) -> Fit:
    """No above the payload; depends within 0.6 % of it, or where the blanking decides; else yes."""
    needed = needed_bits(mode.clock, link, sampling, depth)
    payload = payload_bits(link, lanes, compressed)
    active = needed_bits(mode.active, link, sampling, depth)
    least = needed_bits(untold.least, link, sampling, depth) if untold else needed
    most = needed_bits(untold.most, link, sampling, depth) if untold else needed
    asked, room, more = gigabits(needed), gigabits(payload), ""
    if most.times(*CLOCK_MARGIN).fits(payload):
        word, kind = YES, "fits"
        reason = f"It needs {asked} of the {room} that the link carries."
    elif not least.fits(payload):
        word, kind = NO, "too much"
        reason = f"It needs {asked} and the link carries {room}."
    elif untold:
        word, kind = DEPENDS, "untold"
        reason = f"It needs {gigabits(least)} to {gigabits(most)}, by the display's timing, of {room}."
    else:
        word, kind = DEPENDS, "edge"
        reason = f"It needs {asked} of {room}: it fits by {_by(needed, payload)}."
        more = (
            f"It needs {asked} of {room}: it fits by {_by(needed, payload)}, and no longer if the link's clock is "
            "0.6 % slow. Whether it is offered is up to the card and the display."
        )
    return Fit(
        word, reason, needed, payload, active, kind, line_coded=line_coded_bits(link, lanes), more=more,
        needed_least=least if untold else None, needed_most=most if untold else None,
        clock_limit=payload.times(1000, 1006 * bits_a_pixel(link, sampling, depth)),
    )  # fmt: skip


def _by(needed: Ratio, payload: Ratio) -> str:
    """How narrowly something fits, in words; exact, since the edge itself is only 0.6 % wide."""
    if not payload.fits(needed.times(1005, 1000)):
        return "about half a percent"
    return "less than half a percent" if not payload.fits(needed) else "nothing at all"


def _published(mode: Mode, link: Link, sampling: str, depth: int) -> bool:
    """Whether the standard's makers have published that the link carries this mode."""
    rate = link.lane_mbps * link.lanes // 1000
    return mode.format is not None and any(
        (mode.width, mode.height, mode.format.refresh) == (width, height, refresh)
        and sampling in ("rgb", "444")
        and depth == bits
        and rate >= least
        for width, height, refresh, bits, least in _PUBLISHED
    )


def _fixed_rate(mode: Mode, link: Link, sampling: str, depth: int) -> Fit:
    """
    Yes where full blanking fits or the pair is published, no where the picture alone is too much, else depends.

    Clock times bits overstates the need: blanking travels compressed on this link.
    """
    needed = needed_bits(mode.clock, link, sampling, depth)
    active = needed_bits(mode.active, link, sampling, depth)
    payload, usable = payload_bits(link, link.lanes), usable_bits(link)
    asked, room, active_gbps, more = gigabits(needed), gigabits(payload), gigabits(active), ""
    if needed.fits(usable):
        word, kind = YES, "fits"
        reason = f"Even with its blanking in full it needs {asked} of {room}."
    elif _published(mode, link, sampling, depth):
        word, kind = YES, "published"
        reason = "The standard's makers publish it as carried: blanking travels compressed on this link."
        more = (
            f"With full blanking it would need {asked}, against {gigabits(usable, 1)} with all margins; but blanking "
            "travels compressed on this link, and the standard's makers publish this pair as carried."
        )
    elif not active.fits(payload):
        word, kind = NO, "picture alone"
        reason = f"The visible picture alone needs {active_gbps} and the link carries {room}."
    elif needed.fits(payload):
        word, kind = DEPENDS, "edge"
        reason = f"It needs {asked} of {room}, which the standard's margins use up."
        more = (
            f"It needs {asked} of {room}, and no longer fits once every margin of the standard is taken off, "
            f"which leaves {gigabits(usable)}."
        )
    else:
        word, kind = DEPENDS, "bracket"
        reason = f"The picture alone needs {active_gbps}, with blanking {asked}; the link carries {room}."
        more = (
            f"Between {active_gbps} for the picture alone and {asked} with its blanking in full; the link carries "
            f"{room}. "
            "Blanking travels compressed on this link, so the truth lies between, and the makers of both ends decide."
        )
    return Fit(
        word, reason, needed, payload, active, kind, usable=usable, line_coded=line_coded_bits(link, link.lanes),
        more=more,
    )  # fmt: skip


def _with_compression(plain: Fit, mode: Mode, sampling: str, untold: ClockRange | None) -> Fit:
    """Depends where only compression makes it fit; what fits without it is left as it is."""
    squeezed = compressed_bits(mode.clock, sampling)
    least = compressed_bits(untold.least, sampling) if untold else squeezed
    word, reason, kind, more = plain.word, plain.reason, plain.kind, plain.more
    if word == NO and least.fits(plain.payload):
        word, kind = DEPENDS, "compressed"
        reason = (
            f"Compressed it needs {gigabits(squeezed)} instead of {number(plain.needed.value / 1e9, 2)}; card and "
            "display must both offer it."
        )
        more = (
            f"It needs {gigabits(plain.needed)} as it is and {gigabits(squeezed)} at the strongest compression, of "
            f"{gigabits(plain.payload)}."
        )
    elif word == NO:
        reason = f"Even compressed it needs {gigabits(squeezed)}, and the link carries {gigabits(plain.payload)}."
    return replace(plain, word=word, reason=reason, kind=kind, more=more, compressed=squeezed)
