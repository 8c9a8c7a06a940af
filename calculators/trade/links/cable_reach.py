"""How far each rate is carried by passive copper, active copper and optical cables, as ranges with their standing."""

from __future__ import annotations

from dataclasses import dataclass

CERTIFIED, PRACTICE = "certified category", "common practice"


@dataclass(frozen=True, slots=True)
class Span:
    """
    low_m: to this length one may count on a sound cable. high_m: beyond it one should not expect any to work.

    standing: whether a certification programme stands behind the lower end, or only experience.
    """

    low_m: float
    high_m: float
    standing: str


@dataclass(frozen=True, slots=True)
class Reach:
    """The three kinds of cable for one rate; None where that kind is not sold for it or is not needed."""

    passive: Span
    active: Span | None
    optical: Span | None


# No standard here fixes a length: a cable is certified when it passes the electrical test of its category, and
# the lengths at which cables pass are what makers offer. So every figure is common practice; CERTIFIED says that
# a certification programme for the rate exists and that certified passive cables up to the lower end are on sale.
# Light hardly cares for the length: optical cables are offered to 100 m, beyond 50 m each maker for its own alone.
_REACH: dict[str, Reach] = {
    "dp-rbr": Reach(Span(5, 15, PRACTICE), Span(15, 20, PRACTICE), Span(50, 100, PRACTICE)),
    "dp-hbr": Reach(Span(3, 7, PRACTICE), Span(10, 15, PRACTICE), Span(50, 100, PRACTICE)),
    "dp-hbr2": Reach(Span(2, 5, CERTIFIED), Span(7, 15, PRACTICE), Span(30, 100, PRACTICE)),
    "dp-hbr3": Reach(Span(2, 3, CERTIFIED), Span(5, 10, PRACTICE), Span(30, 100, PRACTICE)),
    "dp-uhbr10": Reach(Span(1.5, 2, CERTIFIED), Span(3, 5, PRACTICE), Span(10, 100, PRACTICE)),
    "dp-uhbr13.5": Reach(Span(1.5, 2, CERTIFIED), Span(3, 4, PRACTICE), Span(10, 100, PRACTICE)),
    "dp-uhbr20": Reach(Span(1, 1.2, CERTIFIED), Span(2, 3, PRACTICE), Span(10, 100, PRACTICE)),
    "usb-c-2": Reach(Span(1, 2, PRACTICE), Span(2, 5, PRACTICE), Span(10, 100, PRACTICE)),
    "usb-c-4": Reach(Span(1, 2, PRACTICE), Span(2, 5, PRACTICE), Span(10, 100, PRACTICE)),
    "dvi-single": Reach(Span(5, 10, PRACTICE), Span(15, 20, PRACTICE), Span(50, 100, PRACTICE)),
    "dvi-dual": Reach(Span(3, 5, PRACTICE), Span(5, 10, PRACTICE), Span(30, 100, PRACTICE)),
    "hdmi-tmds-165": Reach(Span(7, 15, PRACTICE), Span(20, 30, PRACTICE), Span(50, 100, PRACTICE)),
    "hdmi-tmds-340": Reach(Span(5, 10, CERTIFIED), Span(15, 25, PRACTICE), Span(50, 100, PRACTICE)),
    "hdmi-tmds-600": Reach(Span(3, 5, CERTIFIED), Span(10, 15, PRACTICE), Span(50, 100, PRACTICE)),
    "hdmi-frl-9": Reach(Span(3, 5, CERTIFIED), Span(10, 15, PRACTICE), Span(50, 100, PRACTICE)),
    "hdmi-frl-18": Reach(Span(3, 5, CERTIFIED), Span(5, 10, PRACTICE), Span(50, 100, PRACTICE)),
    "hdmi-frl-24": Reach(Span(3, 5, CERTIFIED), Span(5, 10, PRACTICE), Span(50, 100, PRACTICE)),
    "hdmi-frl-32": Reach(Span(2, 4, CERTIFIED), Span(5, 8, PRACTICE), Span(30, 100, PRACTICE)),
    "hdmi-frl-40": Reach(Span(2, 3, CERTIFIED), Span(5, 7, PRACTICE), Span(30, 100, PRACTICE)),
    "hdmi-frl-48": Reach(Span(2, 3, CERTIFIED), Span(5, 7, PRACTICE), Span(30, 100, PRACTICE)),
    "hdmi-frl-64": Reach(Span(1, 2, CERTIFIED), None, None),
    "hdmi-frl-80": Reach(Span(1, 2, CERTIFIED), None, None),
    "hdmi-frl-96": Reach(Span(1, 2, CERTIFIED), None, None),
}

KINDS = ("passive", "active", "optical")
EACH_MAKER_FROM_M = 50  # beyond this no two makers state the same. Common practice, no source


def reach(key: str) -> Reach:
    """
    How far a rate is carried.

    Args:
        key: The link's key, such as hdmi-tmds-600. [text]

    Returns:
        The spans of the three kinds of cable. [m]

    Raises:
        KeyError: There is no such link.

    Source:
        Common practice, no source: lengths offered by makers of certified and uncertified cables.

    Example:
        >>> reach("dp-uhbr20").passive.high_m
        1.2
    """
    return _REACH[key]


def kinds_for(key: str, length_m: float) -> tuple[str, str]:
    """
    The simplest kinds of cable that go a distance.

    Args:
        key: The link's key. [text]
        length_m: Length of the cable, bends and slack included. [m], above 0.

    Returns:
        The simplest kind that may do, and the simplest that one may count on; empty where there is none. [text]

    Raises:
        KeyError: There is no such link.

    Source:
        Common practice, no source.

    Example:
        >>> kinds_for("hdmi-tmds-600", 2), kinds_for("hdmi-tmds-600", 4), kinds_for("hdmi-tmds-600", 60)
        (('passive', 'passive'), ('passive', 'active'), ('optical', ''))
    """
    may = sure = ""
    for kind in KINDS:
        span: Span | None = getattr(_REACH[key], kind)
        if span is not None and length_m <= span.high_m:
            may = may or kind
            if length_m <= span.low_m:
                sure = sure or kind
    return may, sure
