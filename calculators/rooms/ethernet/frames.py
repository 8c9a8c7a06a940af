"""What a full Ethernet frame carries and what it costs on the wire, byte for byte."""

from __future__ import annotations

FRAME_BYTES = 18  # two addresses of 6, a type of 2, a check of 4. IEEE 802.3, clause 3, from memory
GAP_BYTES = 20  # preamble with start sign 8, gap between frames 12. RFC 5180, appendix A.1
TAG_BYTES = 4  # a virtual network's tag. IEEE 802.1Q, from memory
TCP_BYTES = 20  # RFC 9293, 3.1, without options; from memory
STAMP_BYTES = 12  # the time stamp option, padded to whole words of 4. RFC 7323, appendix A, from memory
ADDRESS_BYTES = {"ipv4": 20, "ipv6": 40}  # RFC 791, 3.1, without options; RFC 8200, 3; from memory
LEAST_IPV6_MTU = 1280  # RFC 8200, 5, from memory


def payload_bytes(mtu: int, address: str, stamps: bool) -> int:
    """
    Bytes of one's own data in a full packet.

    Args:
        mtu: Largest packet that the link takes. [byte], 576 to 9216.
        address: ipv4 or ipv6. [text]
        stamps: Whether TCP sends its time stamps.

    Returns:
        The packet less the headers of IP and TCP. [byte]

    Raises:
        KeyError: The address is neither.

    Source:
        RFC 791, RFC 8200, RFC 9293, RFC 7323: header lengths, from memory.

    Example:
        >>> payload_bytes(1500, "ipv4", True), payload_bytes(1500, "ipv6", False)
        (1448, 1440)
    """
    return mtu - ADDRESS_BYTES[address] - TCP_BYTES - (STAMP_BYTES if stamps else 0)


def wire_bytes(mtu: int, tag: bool) -> int:
    """
    Bytes that a full packet takes up on the wire.

    Args:
        mtu: Largest packet that the link takes. [byte], 576 to 9216.
        tag: Whether frames carry a virtual network's tag.

    Returns:
        The packet with frame, preamble and gap: 38 more, 42 with a tag. [byte]

    Source:
        RFC 5180, appendix A.1: frame size + 20; the frame's own 18 by IEEE 802.3, from memory.

    Example:
        >>> wire_bytes(1500, False), wire_bytes(1500, True)
        (1538, 1542)
    """
    return mtu + FRAME_BYTES + GAP_BYTES + (TAG_BYTES if tag else 0)


def frames_per_s(link_mbps: float, on_wire: int) -> float:
    """
    Full frames that a link passes in a second.

    Args:
        link_mbps: Rate of the link. [Mb/s], above 0.
        on_wire: What one frame takes up, preamble and gap included. [byte]

    Returns:
        The rate, not cut to a whole number. [frames/s]

    Source:
        RFC 5180, appendix A.1.

    Example:
        >>> int(frames_per_s(1000, 64 + 20))
        1488095
    """
    return link_mbps * 1_000_000 / (8 * on_wire)


def goodput_mbps(link_mbps: float, payload: int, on_wire: int) -> float:
    """
    One's own data a second, where every frame is full and none is lost.

    Args:
        link_mbps: Rate of the link. [Mb/s], above 0.
        payload: One's own bytes in a frame. [byte]
        on_wire: What the frame takes up. [byte]

    Returns:
        The rate. [Mb/s]

    Source:
        Arithmetic: link × payload ÷ wire.

    Example:
        >>> round(goodput_mbps(1000, 1448, 1538), 1)
        941.5
    """
    return link_mbps * payload / on_wire
