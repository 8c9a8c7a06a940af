"""Ways for keyboard, mouse and pad alone: long USB, USB over network-type cable, radio."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import COMMON_PRACTICE, DEPENDS, FROM_MEMORY, NO, Source
from calculators.rooms.paths.way import Case, least, within, worth

USB_CABLE_M = 5  # USB 2.0: what the delay of a cable allows, from memory
USB_MOST_HUBS = 5  # USB 2.0: hubs in a row, from memory
USB_NETWORK_M = (50, 100)  # USB over network-type cable: counted on, at best. Common practice
RADIO_M = 10  # a pad's or keyboard's radio without walls between. Common practice

SOURCES = (
    Source("USB 2.0", "delay of a cable, so 5 m each; five hubs in a row", FROM_MEMORY),
    Source("USB over network-type cable 50 to 100 m; radio of pads and keyboards 10 m; USB 3 about 3 m at 5 Gb/s, "
           "1 m at 10; what each adds to the hand's delay", "", COMMON_PRACTICE),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Control:
    """
    A way for keyboard, mouse or controller alone.

    word: yes, depends or no. late_ms: least and most that it adds to the device's own time. Common practice.
    """

    key: str
    name: str
    word: str
    reach: str
    late_ms: tuple[float, float]
    lay: str


def usb_reach_m(hubs: int) -> int:
    """
    How far USB 2.0 reaches by cables of full length.

    Args:
        hubs: Hubs in a row, those inside long active cables included. [1], 0 to 5.

    Returns:
        Five metres a cable, one cable more than hubs. [m]

    Raises:
        ValueError: More than five hubs.

    Source:
        USB 2.0, cable delay and hub depth, from memory.

    Example:
        >>> usb_reach_m(0), usb_reach_m(5)
        (5, 30)
    """
    if not 0 <= hubs <= USB_MOST_HUBS:
        raise ValueError(f"USB takes at most {USB_MOST_HUBS} hubs in a row, got {hubs}")
    return USB_CABLE_M * (hubs + 1)


def control_ways(case: Case) -> tuple[Control, ...]:
    """Every way for keyboard, mouse or controller, in the order in which they are to be preferred."""
    farthest = usb_reach_m(USB_MOST_HUBS)
    usb = within(case.distance_m, USB_CABLE_M, farthest) if case.wire == "any" else NO
    network = within(case.distance_m, *USB_NETWORK_M) if case.wire != "none" else NO
    if case.wire == "network":
        network = least(network, DEPENDS)  # the one cable may be in use
    return (
        Control("usb", "long USB", usb, f"{USB_CABLE_M} m a cable, {farthest} m with five hubs (USB 2.0)",
                (0, 1), "a USB cable; beyond 5 m one with hubs inside"),
        Control("usb_network", "USB over network-type cable", network, "50 to 100 m",
                (0, 1), "a network-type cable of its own, a box at each end"),
        Control("radio", "radio", within(case.distance_m, 0, RADIO_M), "10 m, fewer through walls",
                (1, 20), "nothing; its stick on a USB cable nearer to the wall helps"),
    )  # fmt: skip


def best_control(case: Case) -> Control:
    """The way for keyboard, mouse or controller that promises most; the first of several."""
    ways = control_ways(case)
    return max(ways, key=lambda one: worth(one.word))
