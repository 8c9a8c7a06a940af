"""What streams usually spend and how long their parts usually take: ranges by everyday names. Common practice."""

from __future__ import annotations

from calculators.desk.answer import COMMON_PRACTICE, Column, Source, Table
from calculators.desk.inputs import UNSURE, Everyday, Span
from calculators.desk.numbers import span

SOURCE = Source("Bits a pixel by content and codec; usual times of encoders, buffers, decoders and displays", "",
                COMMON_PRACTICE)  # fmt: skip
LIMITS_SOURCE = Source("How late a picture may be: film 500 ms, desk 100, action 50; 70 % of a network for one stream",
                       "", COMMON_PRACTICE)  # fmt: skip

LIMITS_MS = {"film": 500, "desk": 100, "action": 50}
CODEC_NAMES = {"unknown": "an unknown codec", "h264": "H.264", "h265": "H.265", "av1": "AV1", "raw": "no compression"}

# Bits a pixel of each frame, from a good picture to a very good one. Live encoders spend more than those that take
# their time. All common practice, no source.
_BITS = {
    "film": {"h264": (0.04, 0.10), "h265": (0.025, 0.06), "av1": (0.02, 0.05)},
    "desk": {"h264": (0.05, 0.12), "h265": (0.03, 0.08), "av1": (0.03, 0.07)},
    "action": {"h264": (0.10, 0.25), "h265": (0.07, 0.16), "av1": (0.06, 0.14)},
}
_RAW_BITS = (12.0, 30.0)  # from 8 bits with 4:2:0 to 10 bits without subsampling
LEAST_RAW_BITS = 12

CONTENT_NAMES = {"film": "a film", "desk": "desktop work", "action": "fast action"}


def usual_bits(content: str, codec: str) -> tuple[float, float]:
    """
    Bits a pixel that are usual.

    Args:
        content: film, desk or action. [text]
        codec: unknown, h264, h265, av1 or raw. [text]

    Returns:
        The least and the most; over all three codecs where it is unknown. [bit]

    Raises:
        KeyError: There is no such content.

    Source:
        Common practice, no source.

    Example:
        >>> usual_bits("action", "h265"), usual_bits("film", "unknown")
        ((0.07, 0.16), (0.02, 0.1))
    """
    if codec == "raw":
        return _RAW_BITS
    row = _BITS[content]
    if codec in row:
        return row[codec]
    return min(low for low, _ in row.values()), max(high for _, high in row.values())


def bits_span(given: Span, use: str, codec: str) -> Span:
    """
    Bits a pixel as given, or narrowed by the codec and by what is watched where only a name was given.

    Args:
        given: As read from the input. [bit]
        use: film, desk or action: stands for the content where the viewer is not sure. [text]
        codec: unknown, h264, h265, av1 or raw. [text]

    Returns:
        The span to work with. [bit]

    Source:
        Common practice, no source.

    Example:
        >>> bits_span(Span(0.02, 0.25, "unsure"), "desk", "av1").high
        0.07
    """
    if given.exact:
        return given
    content = use if given.choice == UNSURE else given.choice
    return Span(*usual_bits(content, codec), given.choice)


BITS_CHOICES = tuple(
    Everyday(key, CONTENT_NAMES[key], *usual_bits(key, "unknown"), names)
    for key, names in (
        ("film", ("film", "movie", "films", "series", "video")),
        ("desk", ("desktop", "office", "text", "work")),
        ("action", ("game", "games", "gaming", "sport", "sports")),
    )
)
ENCODE_CHOICES = (
    Everyday("card", "card's own encoder", 3, 12, ("graphics card", "gpu", "hardware")),
    Everyday("program", "program on the processor", 8, 40, ("cpu", "software", "processor")),
    Everyday("recorded", "already recorded", 0, 0, ("file", "no encoding")),
)
BUFFER_CHOICES = (
    Everyday("quick", "made for games", 0, 15, ("game streaming", "low latency")),
    Everyday("air", "over the air", 10, 80, ("wireless", "wifi")),
)
DECODE_CHOICES = (
    Everyday("chip", "decoder chip", 4, 20, ("hardware", "phone", "tablet", "small box")),
    Everyday("television", "in the television", 15, 100, ("tv", "smart tv", "app")),
    Everyday("program", "program on the processor", 5, 30, ("cpu", "software")),
)
DISPLAY_CHOICES = (
    Everyday("monitor", "computer monitor", 3, 15, ("screen", "desk monitor")),
    Everyday("game", "television, game mode", 10, 25, ("game mode", "gaming mode")),
    Everyday("picture", "television, film mode", 50, 150, ("tv", "television", "cinema mode", "movie mode")),
)


def table(use: str, codec: str) -> Table:
    """The helper table: bits a pixel by content and codec, with the viewer's row marked."""
    rows = []
    for content in _BITS:
        cells = [span(*usual_bits(content, one), "", 3) for one in ("h264", "h265", "av1")]
        rows.append((CONTENT_NAMES[content].removeprefix("a ").capitalize(), *cells))
    rows.append(("Not compressed", *[span(*_RAW_BITS, "", 0)] * 3))
    return Table(
        title="Usual bits a pixel",
        columns=(Column("Content"), Column("H.264", True), Column("H.265", True), Column("AV1", True)),
        rows=tuple(rows),
        note="From good to very good. Common practice, no source: an encoder that must be quick spends more. Not "
        "compressed: 12 is 8 bits with 4:2:0, 20 is 10 bits with 4:2:2, 30 is 10 bits without subsampling.",
        marked=(3,) if codec == "raw" else (tuple(_BITS).index(use),),
    )
