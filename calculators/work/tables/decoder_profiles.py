"""Which profile of a codec holds a chroma and a depth: what a decoder's list must name."""

from __future__ import annotations

from calculators.desk.answer import FROM_MEMORY, Source

SOURCES = (
    Source("AV1 Bitstream and Decoding Process Specification", "annex A, profiles"),
    Source("ITU-T H.264, annex A, and H.265, annex A", "profiles", FROM_MEMORY),
)

# (codec, the profiles from the least to the most: name, deepest, chromas); depths in bits a sample
_PROFILES: tuple[tuple[str, tuple[tuple[str, int, tuple[str, ...]], ...]], ...] = (
    ("H.264", (
        ("High", 8, ("420",)),
        ("High 10", 10, ("420",)),
        ("High 4:2:2", 10, ("420", "422")),
        ("High 4:4:4 Predictive", 14, ("420", "422", "444")),
    )),
    ("H.265", (
        ("Main", 8, ("420",)),
        ("Main 10", 10, ("420",)),
        ("Main 12", 12, ("420",)),
        ("Main 4:2:2 10", 10, ("420", "422")),
        ("Main 4:2:2 12", 12, ("420", "422")),
        ("Main 4:4:4", 8, ("420", "422", "444")),
        ("Main 4:4:4 10", 10, ("420", "422", "444")),
        ("Main 4:4:4 12", 12, ("420", "422", "444")),
        ("Main 4:4:4 16 Intra", 16, ("420", "422", "444")),
    )),
    ("AV1", (
        ("Main", 10, ("420",)),
        ("High", 10, ("420", "444")),
        ("Professional", 12, ("420", "422", "444")),
    )),
)  # fmt: skip
CODECS = tuple(codec for codec, _ in _PROFILES)


def least_profile(codec: str, chroma: str, bits: int) -> str:
    """
    The least profile that holds a chroma and a depth.

    Args:
        codec: H.264, H.265 or AV1. [text]
        chroma: 444, 422 or 420; anything else is in no profile. [text]
        bits: Bits a sample. [bit]

    Returns:
        Its name; empty where none holds it. [text]

    Source:
        AV1 specification, annex A, profiles; ITU-T H.264 and H.265, annex A (from memory).

    Example:
        >>> least_profile("H.265", "422", 10), least_profile("AV1", "422", 8), least_profile("H.264", "420", 12)
        ('Main 4:2:2 10', 'Professional', 'High 4:4:4 Predictive')
    """
    for name, deepest, chromas in dict(_PROFILES)[codec]:
        if bits <= deepest and chroma in chromas:
            return name
    return ""
