"""
A canvas of exact codes: rectangles, small letters, and rows put in as they are. Nothing is smoothed.

Equal rows are one object, so that even a large picture is quick to paint and to pack.
"""

from __future__ import annotations

from collections.abc import Sequence

Colour = tuple[int, int, int]

# Letters five pixels wide and seven high, drawn for this project, one text a letter, top row first.
_GLYPHS = {
    " ": "00000 00000 00000 00000 00000 00000 00000",
    "0": "01110 10001 10001 10001 10001 10001 01110",
    "1": "00100 01100 00100 00100 00100 00100 01110",
    "2": "01110 10001 00001 00010 00100 01000 11111",
    "3": "11110 00001 00001 01110 00001 00001 11110",
    "4": "00010 00110 01010 10010 11111 00010 00010",
    "5": "11111 10000 11110 00001 00001 10001 01110",
    "6": "00110 01000 10000 11110 10001 10001 01110",
    "7": "11111 00001 00010 00100 00100 01000 01000",
    "8": "01110 10001 10001 01110 10001 10001 01110",
    "9": "01110 10001 10001 01111 00001 00010 01100",
    "D": "11110 10001 10001 10001 10001 10001 11110",
    "E": "11111 10000 10000 11110 10000 10000 11111",
    "F": "11111 10000 10000 11110 10000 10000 10000",
    "I": "01110 00100 00100 00100 00100 00100 01110",
    "L": "10000 10000 10000 10000 10000 10000 11111",
    "N": "10001 11001 11001 10101 10011 10011 10001",
    "S": "01111 10000 10000 01110 00001 00001 11110",
}
GLYPH_WIDTH, GLYPH_HEIGHT = 6, 7  # with the gap to the next letter


def text_size(text: str, scale: int) -> tuple[int, int]:
    """
    Width and height of a line of letters.

    Args:
        text: Letters that the canvas has. [text]
        scale: Pixels for each dot of a letter. [px], 1 or more.

    Returns:
        Width without the gap after the last letter, and height. [px]

    Source:
        Arithmetic on the project's own letters.

    Example:
        >>> text_size("16", 2)
        (22, 14)
    """
    return (GLYPH_WIDTH * len(text) - 1) * scale, GLYPH_HEIGHT * scale


class Canvas:
    """
    A picture in the making: rows of red, green and blue codes.

    Args:
        width: Pixels across.
        height: Pixels down.
        colour: What it is filled with.
    """

    def __init__(self, width: int, height: int, colour: Colour) -> None:
        self.width = width
        self.rows: list[bytes] = [bytes(colour) * width] * height

    def rect(self, x: int, y: int, width: int, height: int, colour: Colour) -> None:
        """Fill a rectangle; what lies outside the canvas is left out."""
        left, right = max(x, 0), min(x + width, self.width)
        top, bottom = max(y, 0), min(y + height, len(self.rows))
        if left >= right:
            return
        fill = bytes(colour) * (right - left)
        changed: dict[bytes, bytes] = {}
        for at in range(top, bottom):
            row = self.rows[at]
            if row not in changed:
                changed[row] = row[: 3 * left] + fill + row[3 * right :]
            self.rows[at] = changed[row]

    def put(self, x: int, y: int, rows: Sequence[bytes]) -> None:
        """Put in rows as they are; they must lie inside the canvas."""
        changed: dict[tuple[bytes, bytes], bytes] = {}
        for at, part in enumerate(rows, y):
            key = self.rows[at], part
            if key not in changed:
                changed[key] = key[0][: 3 * x] + part + key[0][3 * x + len(part) :]
            self.rows[at] = changed[key]

    def text(self, x: int, y: int, text: str, colour: Colour, scale: int = 1) -> None:
        """A line of letters from its left top corner."""
        for i, letter in enumerate(text):
            for down, dots in enumerate(_GLYPHS[letter].split()):
                for across, dot in enumerate(dots):
                    if dot == "1":
                        left = x + (GLYPH_WIDTH * i + across) * scale
                        self.rect(left, y + down * scale, scale, scale, colour)

    def crop(self, x: int, y: int, width: int, height: int) -> list[bytes]:
        """A part of the rows."""
        return [row[3 * x : 3 * (x + width)] for row in self.rows[y : y + height]]
