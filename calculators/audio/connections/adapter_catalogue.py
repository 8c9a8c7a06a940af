"""The adapters that one can buy, each with the socket it offers, the plug it has, and its wiring. Knows no page."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.audio.connections.connectors import CONNECTORS

Inner = tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class Adapter:
    """
    One adapter, from its socket to its plug.

    joins: for each contact of the plug, the contacts of the socket that it is joined to. roles: what the socket's
    contacts give and take, where the adapter is a device of its own with a supply; then `joins` is empty.
    for_devices: of what use it is; all where empty.
    """

    socket: str
    plug: str
    name: str
    joins: Inner = ()
    roles: tuple[str, ...] = ()
    gives: tuple[str, ...] = ()
    for_devices: tuple[str, ...] = ()

    @property
    def active(self) -> bool:
        """Whether it is a device of its own rather than a piece of wire."""
        return bool(self.roles)


def _size(socket: str, plug: str) -> Adapter:
    poles = CONNECTORS[plug].poles
    first, second = (CONNECTORS[key].size_mm for key in (socket, plug))
    return Adapter(
        socket,
        plug,
        f"{poles}-pole adapter from a {first:g} mm socket to a {second:g} mm plug",
        tuple((i,) for i in range(poles)),
    )


_BOTH_WAYS = (("2.5-2", "3.5-2"), ("2.5-3", "3.5-3"), ("2.5-4", "3.5-4"), ("3.5-2", "6.35-2"), ("3.5-3", "6.35-3"))

ADAPTERS: tuple[Adapter, ...] = (
    *(_size(a, b) for pair in _BOTH_WAYS for a, b in (pair, pair[::-1])),
    Adapter(
        "3.5-4",
        "3.5-pair",
        "headset splitter: a 4-pole 3.5 mm socket to two 3.5 mm plugs",
        ((0,), (1,), (2,), (3,), (), (2,)),
    ),
    Adapter(
        "3.5-pair",
        "3.5-4",
        "headset joiner: two 3.5 mm sockets to one 4-pole 3.5 mm plug",
        ((0,), (1,), (2, 5), (3,)),
    ),
    Adapter(
        "3.5-4",
        "3.5-3",
        "3.5 mm adapter from a 4-pole socket to a 3-pole plug, with ring 2 and sleeve joined",
        ((0,), (1,), (2, 3)),
    ),
    Adapter(
        "3.5-4",
        "3.5-4",
        "4-pole 3.5 mm adapter that swaps ground and microphone",
        ((0,), (1,), (3,), (2,)),
    ),
    Adapter("3.5-2", "3.5-3", "3.5 mm adapter from a 2-pole socket to a 3-pole plug, ring left open", ((0,), (), (1,))),
    Adapter(
        "6.35-2", "6.35-3", "6.35 mm adapter from a 2-pole socket to a 3-pole plug, ring left open", ((0,), (), (1,))
    ),
    Adapter("3.5-3", "rca-pair", "lead from a 3-pole 3.5 mm socket to two RCA plugs", ((0,), (2,), (1,), (2,))),
    Adapter("6.35-3", "rca-pair", "lead from a 3-pole 6.35 mm socket to two RCA plugs", ((0,), (2,), (1,), (2,))),
    Adapter("rca-pair", "3.5-3", "lead from two RCA sockets to a 3-pole 3.5 mm plug", ((0,), (2,), (1, 3))),
    Adapter("rca-pair", "6.35-3", "lead from two RCA sockets to a 3-pole 6.35 mm plug", ((0,), (2,), (1, 3))),
    # Balanced headphones on a single-ended output: the two returns are joined, which is safe in this direction.
    Adapter("4.4-5", "3.5-3", "adapter from a balanced 4.4 mm socket to a 3-pole 3.5 mm plug", ((0,), (2,), (1, 3))),
    Adapter("4.4-5", "6.35-3", "adapter from a balanced 4.4 mm socket to a 3-pole 6.35 mm plug", ((0,), (2,), (1, 3))),
    Adapter("2.5-4", "3.5-3", "adapter from a balanced 2.5 mm socket to a 3-pole 3.5 mm plug", ((2,), (1,), (0, 3))),
    Adapter("xlr-4", "6.35-3", "adapter from a 4-pin XLR socket to a 3-pole 6.35 mm plug", ((0,), (2,), (1, 3))),
    Adapter("xlr-4", "3.5-3", "adapter from a 4-pin XLR socket to a 3-pole 3.5 mm plug", ((0,), (2,), (1, 3))),
    # Balanced on both ends.
    Adapter("4.4-5", "xlr-4", "balanced adapter from a 4.4 mm socket to a 4-pin XLR plug", ((0,), (1,), (2,), (3,))),
    Adapter(
        "xlr-4", "4.4-5", "balanced adapter from a 4-pin XLR socket to a 4.4 mm plug", ((0,), (1,), (2,), (3,), ())
    ),
    Adapter("4.4-5", "2.5-4", "balanced adapter from a 4.4 mm socket to a 2.5 mm plug", ((3,), (2,), (0,), (1,))),
    Adapter("2.5-4", "4.4-5", "balanced adapter from a 2.5 mm socket to a 4.4 mm plug", ((2,), (3,), (1,), (0,), ())),
    Adapter("2.5-4", "xlr-4", "balanced adapter from a 2.5 mm socket to a 4-pin XLR plug", ((2,), (3,), (1,), (0,))),
    Adapter("xlr-4", "2.5-4", "balanced adapter from a 4-pin XLR socket to a 2.5 mm plug", ((3,), (2,), (0,), (1,))),
    # In the shops, and dangerous: they join the two returns of a balanced output. The search finds that out.
    Adapter(
        "3.5-3", "4.4-5", "adapter from a 3-pole 3.5 mm socket to a balanced 4.4 mm plug", ((0,), (2,), (1,), (2,), ())
    ),
    Adapter(
        "6.35-3",
        "4.4-5",
        "adapter from a 3-pole 6.35 mm socket to a balanced 4.4 mm plug",
        ((0,), (2,), (1,), (2,), ()),
    ),
    Adapter(
        "3.5-3", "2.5-4", "adapter from a 3-pole 3.5 mm socket to a balanced 2.5 mm plug", ((2,), (1,), (0,), (2,))
    ),
    Adapter("3.5-3", "xlr-4", "adapter from a 3-pole 3.5 mm socket to a 4-pin XLR plug", ((0,), (2,), (1,), (2,))),
    Adapter("6.35-3", "xlr-4", "adapter from a 3-pole 6.35 mm socket to a 4-pin XLR plug", ((0,), (2,), (1,), (2,))),
    # One balanced line or microphone.
    Adapter("xlr-3", "6.35-3", "adapter from a 3-pin XLR socket to a 3-pole 6.35 mm plug", ((1,), (2,), (0,))),
    Adapter("6.35-3", "xlr-3", "adapter from a 3-pole 6.35 mm socket to a 3-pin XLR plug", ((2,), (0,), (1,))),
    Adapter(
        "xlr-3", "3.5-3", "lead from a 3-pin XLR socket to a 3-pole 3.5 mm plug, pin 3 grounded", ((1,), (), (0, 2))
    ),
    # Computer microphone on a microphone input with phantom power, through bare wire: dangerous as well.
    Adapter(
        "3.5-3",
        "xlr-3",
        "plain lead from a 3.5 mm socket to a 3-pin XLR plug",
        ((2,), (0,), (1,)),
        for_devices=("microphone",),
    ),
    # Devices of their own.
    Adapter(
        "3.5-3",
        "xlr-3",
        "converter from phantom power to the microphone's own supply, 3.5 mm to XLR",
        roles=("M", "M", "G"),
        gives=("G", "H", "C"),
        for_devices=("microphone",),
    ),
    Adapter(
        "3.5-4",
        "usb",
        "USB sound adapter with one 4-pole 3.5 mm socket",
        roles=("L", "R", "G", "M"),
        gives=("D",),
        for_devices=("headphones", "headset", "microphone", "speakers"),
    ),
    Adapter(
        "3.5-pair",
        "usb",
        "USB sound adapter with a headphone and a microphone socket",
        roles=("L", "R", "G", "M", "M", "G"),
        gives=("D",),
        for_devices=("headphones", "headset", "microphone", "speakers"),
    ),
    Adapter(
        "6.35-3",
        "usb",
        "USB headphone amplifier with a 6.35 mm socket",
        roles=("L", "R", "G"),
        gives=("D",),
        for_devices=("headphones",),
    ),
    Adapter(
        "xlr-3",
        "usb",
        "USB microphone interface with a 3-pin XLR socket",
        roles=("G", "H", "C"),
        gives=("D",),
        for_devices=("microphone",),
    ),
    Adapter(
        "rca-pair",
        "usb",
        "USB audio interface with RCA line sockets",
        roles=("L", "G", "R", "G"),
        gives=("D",),
        for_devices=("speakers", "line", "source"),
    ),
)
