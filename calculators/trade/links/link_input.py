"""The input by which a viewer names a link, with the cable marks that stand for each rate."""

from __future__ import annotations

from calculators.desk.inputs import Choice, Option
from calculators.desk.numbers import number
from calculators.trade.links.link_rates import DISPLAYPORT, LINKS, Link


def _label(one: Link) -> str:
    rate = f", {number(one.lane_mbps / 1000, 2)} Gb/s a lane" if one.family == DISPLAYPORT else ""
    return f"{one.name}{rate} ({one.cable})"


def link_input(group: str = "") -> Choice:
    """The link by the standards' own rate names."""
    return Choice(
        key="link",
        group=group,
        label="Link",
        where=(
            "The rate that the card's, dock's and display's data sheets name for this very socket, and the mark "
            "printed on the cable. The mark in brackets is what a cable tested for the rate is called. Take the "
            "slowest part."
        ),
        options=tuple(Option(one.key, _label(one)) for one in LINKS),
        default="dp-hbr3",
    )
