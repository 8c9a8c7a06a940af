"""What a stream of pictures asks of a network, and how late it is: plain arithmetic."""

from __future__ import annotations

from calculators.trade.ratio import Ratio

GB_PER_HOUR_OF_A_MBPS = 0.45  # 3600 s ÷ 8 bits a byte ÷ 1000 MB a GB


def stream_mbps(width: int, height: int, rate: Ratio, bits_per_pixel: float) -> float:
    """
    Rate of a stream.

    Args:
        width: Pixels a line. [px]
        height: Lines. [px]
        rate: Frames a second, exact. [frames/s]
        bits_per_pixel: Bits spent on each pixel of each frame on average. [bit]

    Returns:
        width × height × rate × bits ÷ 10⁶. [Mb/s]

    Source:
        Arithmetic.

    Example:
        >>> stream_mbps(1920, 1080, Ratio(60), 20)
        2488.32
    """
    return width * height * rate.over * bits_per_pixel / (rate.under * 1_000_000)


def bits_per_pixel_at(mbps: float, width: int, height: int, rate: Ratio) -> float:
    """
    Bits that a rate leaves for each pixel.

    Args:
        mbps: What may be used. [Mb/s]
        width: Pixels a line. [px], above 0.
        height: Lines. [px], above 0.
        rate: Frames a second, exact. [frames/s], above 0.

    Returns:
        The bits. [bit]

    Source:
        Arithmetic: stream_mbps turned round.

    Example:
        >>> bits_per_pixel_at(2488.32, 1920, 1080, Ratio(60))
        20.0
    """
    return mbps * 1_000_000 * rate.under / (width * height * rate.over)


def frame_wait_ms(rate: Ratio) -> float:
    """
    How long something that happens waits on average for the next frame.

    Args:
        rate: Frames a second, exact. [frames/s], above 0.

    Returns:
        Half a frame: 500 ÷ rate. [ms]

    Source:
        Arithmetic: the mean of 0 and one frame.

    Example:
        >>> frame_wait_ms(Ratio(50))
        10.0
    """
    return 500 * rate.under / rate.over


def send_ms(width: int, height: int, bits_per_pixel: float, network_mbps: float) -> float:
    """
    How long one frame of average size is under way onto the wire.

    Args:
        width: Pixels a line. [px]
        height: Lines. [px]
        bits_per_pixel: Bits spent on each pixel. [bit]
        network_mbps: What the network carries. [Mb/s], above 0.

    Returns:
        The time; a frame after a change of scene is several times as large. [ms]

    Source:
        Arithmetic: bits of a frame ÷ rate.

    Example:
        >>> send_ms(1920, 1080, 0.1, 100)
        2.0736
    """
    return 1000 * width * height * bits_per_pixel / (network_mbps * 1_000_000)


def delay_ms(
    frame_wait: float, encode: float, send: float, round_trip: float, buffer: float, decode: float, display: float
) -> float:
    """
    From something happening at the machine to its light on the other screen.

    Args:
        frame_wait: Waiting for the next frame. [ms]
        encode: Encoding. [ms]
        send: Sending one frame. [ms]
        round_trip: There and back on the network; half of it counts. [ms]
        buffer: Waiting, so that late packets still come in time. [ms]
        decode: Decoding. [ms]
        display: In the display. [ms]

    Returns:
        The sum. [ms]

    Source:
        Arithmetic; which parts there are is common practice.

    Example:
        >>> delay_ms(8, 8, 2, 4, 0, 6, 14)
        40.0
    """
    return frame_wait + encode + send + round_trip / 2 + buffer + decode + display


def hand_ms(delay: float, round_trip: float) -> float:
    """
    From the hand to the light: the hand's message must first get to the machine.

    Args:
        delay: From the machine to the light. [ms]
        round_trip: There and back on the network; half of it counts. [ms]

    Returns:
        The time, without that of keyboard, pad and program. [ms]

    Source:
        Arithmetic.

    Example:
        >>> hand_ms(40, 4)
        42.0
    """
    return delay + round_trip / 2


def wake_packet_bytes(address_bytes: int = 6) -> int:
    """
    Length of what a wake packet carries: six bytes of ones, then the machine's address sixteen times.

    Args:
        address_bytes: Length of a hardware address. [byte]

    Returns:
        102 for Ethernet. [byte]

    Source:
        The white paper that introduced wake packets (1995), from memory.

    Example:
        >>> wake_packet_bytes()
        102
    """
    return 6 + 16 * address_bytes
