"""Full and limited range: which codes stand for black and white, and what a mismatch does to the ramp."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.functions import power

FULL, LIMITED = "full", "limited"

# Narrow-range coding at 8 bits, shifted left for more: black, white, and the top of the colour differences.
# ITU-R BT.709-6 section 3 and BT.2100-2 table 9, from memory.
_BLACK, _WHITE, _CHROMA_TOP = 16, 235, 240


def codes(kind: str, depth: int) -> tuple[int, int]:
    """
    The codes that stand for black and for white.

    Args:
        kind: full or limited. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        Black and white. [code]

    Source:
        ITU-R BT.709-6, item 3.4 and BT.2100-2, table 9 (narrow and full range), from memory.

    Example:
        >>> codes("limited", 8), codes("limited", 10), codes("limited", 12), codes("full", 10)
        ((16, 235), (64, 940), (256, 3760), (0, 1023))
    """
    if kind == FULL:
        return 0, (1 << depth) - 1
    return _BLACK << (depth - 8), _WHITE << (depth - 8)


def chroma_codes(kind: str, depth: int) -> tuple[int, int]:
    """
    The least and greatest codes of a colour-difference signal.

    Args:
        kind: full or limited. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        Least and greatest. [code]

    Source:
        ITU-R BT.709-6, item 3.4 and BT.2100-2, table 9, from memory.

    Example:
        >>> chroma_codes("limited", 8), chroma_codes("limited", 10), chroma_codes("limited", 12)
        ((16, 240), (64, 960), (256, 3840))
    """
    if kind == FULL:
        return 0, (1 << depth) - 1
    return _BLACK << (depth - 8), _CHROMA_TOP << (depth - 8)


def sent(level: int, source: str, depth: int) -> int:
    """
    The code that a source sends for a level of the picture.

    Args:
        level: The picture's own level, 0 for black to 2^depth - 1 for white. [code]
        source: full or limited. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        The code, rounded to the nearest, halves up. [code]

    Source:
        ITU-R BT.2100-2, table 9, quantization, from memory.

    Example:
        >>> sent(0, "limited", 8), sent(255, "limited", 8), sent(128, "full", 8)
        (16, 235, 128)
    """
    black, white = codes(source, depth)
    top = (1 << depth) - 1
    return black + (2 * level * (white - black) + top) // (2 * top)


def shown(code: int, display: str, depth: int) -> float:
    """
    What a display makes of a code: 0 for its black, 1 for its white.

    Args:
        code: The code received. [code]
        display: full or limited: the range that the display expects. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        The shown signal, clipped. [1], 0 to 1.

    Source:
        ITU-R BT.2100-2, table 9, read backwards, from memory.

    Example:
        >>> shown(16, "limited", 8), shown(250, "limited", 8), round(shown(16, "full", 8), 4)
        (0.0, 1.0, 0.0627)
    """
    black, white = codes(display, depth)
    return min(max((code - black) / (white - black), 0.0), 1.0)


def luminance(signal: float, gamma: float, peak: float, black: float) -> float:
    """
    Luminance of a shown signal on a display with a simple power law.

    Args:
        signal: The shown signal. [1], 0 to 1.
        gamma: Exponent of the display. [1]
        peak: Luminance of white. [cd/m²]
        black: Luminance of black. [cd/m²]

    Returns:
        black + (peak - black) × signal^gamma. [cd/m²]

    Source:
        Model of this project: a power law above the display's own black. ITU-R BT.1886 differs from it near black.

    Example:
        >>> luminance(1.0, 2.2, 250, 0.25), luminance(0.0, 2.2, 250, 0.25)
        (250.0, 0.25)
    """
    return black + (peak - black) * power(signal, gamma)


@dataclass(frozen=True, slots=True)
class Losses:
    """Levels lost, of 2^depth: dark and bright, which the display clips; merged, which share a code with another."""

    dark: int
    bright: int
    merged: int

    @property
    def total(self) -> int:
        """All codes that are lost."""
        return self.dark + self.bright + self.merged


def losses(source: str, display: str, depth: int) -> Losses:
    """
    How many levels a pair of settings loses.

    Args:
        source: full or limited. [text]
        display: full or limited. [text]
        depth: Bits a channel. [bit], 8, 10 or 12.

    Returns:
        The losses: clipped at either end, and merged before that. [code]

    Source:
        Arithmetic on the codes of ITU-R BT.2100-2, table 9.

    Example:
        >>> losses("full", "limited", 8), losses("limited", "full", 8)
        (Losses(dark=16, bright=20, merged=0), Losses(dark=0, bright=0, merged=36))
    """
    low, high = codes(source, depth)
    black, white = codes(display, depth)
    return Losses(max(black - low, 0), max(high - white, 0), (1 << depth) - (high - low + 1))
