"""Chroma subsampling: how many samples are kept, and a small picture subsampled pixel by pixel."""

from __future__ import annotations

from collections.abc import Sequence

Colour = tuple[int, int, int]
Picture = list[list[Colour]]

# Pixels that share one pair of colour-difference samples: across and down. ITU-R BT.2100-2, table 7 (4:2:2 and
# 4:2:0 sampling), from memory.
SHARED = {"444": (1, 1), "422": (2, 1), "420": (2, 2)}

# ITU-R BT.709-6, items 3.2 and 3.3: luma of R'G'B', and the scale of the colour differences
_RED, _GREEN, _BLUE = 0.2126, 0.7152, 0.0722
_CB_SCALE, _CR_SCALE = 1.8556, 1.5748


def samples(width: int, height: int, sampling: str) -> tuple[int, int]:
    """
    How many samples a frame has.

    Args:
        width: Pixels a line. [px]
        height: Lines. [px]
        sampling: 444, 422 or 420. [text]

    Returns:
        Luma samples, and samples of both colour-difference signals together; a last odd pixel or line keeps a
        sample of its own. [1]

    Source:
        ITU-R BT.2100-2, table 7, from memory.

    Example:
        >>> samples(3840, 2160, "420")
        (8294400, 4147200)
    """
    across, down = SHARED[sampling]
    return width * height, 2 * -(-width // across) * -(-height // down)


def to_ycc(colour: Colour) -> tuple[float, float, float]:
    """
    Luma and colour differences of a colour.

    Args:
        colour: Red, green and blue at 8 bits, full range. [code]

    Returns:
        Luma 0 to 255 and two differences about zero, unrounded. [code]

    Source:
        ITU-R BT.709-6, items 3.2 and 3.3, from memory.

    Example:
        >>> [round(v, 1) for v in to_ycc((255, 0, 0))]
        [54.2, -29.2, 127.5]
    """
    red, green, blue = colour
    luma = _RED * red + _GREEN * green + _BLUE * blue
    return luma, (blue - luma) / _CB_SCALE, (red - luma) / _CR_SCALE


def to_rgb(luma: float, cb: float, cr: float) -> Colour:
    """
    The colour of luma and colour differences, rounded and clipped to what a display can show.

    Args:
        luma: Luma. [code], 0 to 255.
        cb: Blue difference. [code]
        cr: Red difference. [code]

    Returns:
        Red, green and blue at 8 bits, full range. [code]

    Source:
        ITU-R BT.709-6, items 3.2 and 3.3, solved for R'G'B'.

    Example:
        >>> to_rgb(*to_ycc((10, 200, 30)))
        (10, 200, 30)
    """
    red, blue = luma + _CR_SCALE * cr, luma + _CB_SCALE * cb
    green = (luma - _RED * red - _BLUE * blue) / _GREEN
    return _code(red), _code(green), _code(blue)


def _code(value: float) -> int:
    """The nearest 8-bit code, halves rounded up."""
    return min(max(int(value + 0.5), 0), 255) if value > 0 else 0


def subsample(picture: Sequence[Sequence[Colour]], sampling: str) -> Picture:
    """
    A picture as it comes out after subsampling: each group of pixels keeps its lumas and shares its mean colour.

    Displays differ in how they spread the shared colour again; here every pixel of a group gets the same.

    Args:
        picture: Rows of colours, all of one length. Shape (height, width). [code]
        sampling: 444, 422 or 420. [text]

    Returns:
        The picture afterwards, shape kept. [code]

    Source:
        ITU-R BT.709-6 for the signals; mean and repetition: common practice, no source.

    Example:
        >>> subsample([[(255, 0, 0), (0, 0, 255)]], "422")
        [[(145, 18, 145), (110, 0, 110)]]
    """
    across, down = SHARED[sampling]
    height, width = len(picture), len(picture[0])
    signals = [[to_ycc(colour) for colour in row] for row in picture]
    result: Picture = [[(0, 0, 0)] * width for _ in range(height)]
    for top in range(0, height, down):
        for left in range(0, width, across):
            places = [
                (y, x)
                for y in range(top, min(top + down, height))
                for x in range(left, min(left + across, width))
            ]  # fmt: skip
            cb = sum(signals[y][x][1] for y, x in places) / len(places)
            cr = sum(signals[y][x][2] for y, x in places) / len(places)
            for y, x in places:
                result[y][x] = to_rgb(signals[y][x][0], cb, cr)
    return result


# Letters of one-pixel strokes, five by seven: the thinnest that text on a screen has.
_LETTERS = {
    "T": ("#####", "..#..", "..#..", "..#..", "..#..", "..#..", "..#.."),
    "e": (".....", ".....", ".###.", "#...#", "#####", "#....", ".###."),
    "x": (".....", ".....", "#...#", ".#.#.", "..#..", ".#.#.", "#...#"),
    "t": (".#...", ".#...", "####.", ".#...", ".#...", ".#..#", "..##."),
}
INK: Colour = (235, 20, 40)
GROUND: Colour = (20, 40, 150)


def coloured_text(word: str = "Text", ink: Colour = INK, ground: Colour = GROUND) -> Picture:
    """
    A word in thin coloured letters on a coloured ground, with a pixel between letters.

    Args:
        word: Letters out of T, e, x and t. [text]
        ink: Colour of the strokes. [code]
        ground: Colour behind. [code]

    Returns:
        Rows of colours: 6 × letters + 4 wide, 10 high. [code]

    Raises:
        KeyError: There is no such letter here.

    Source:
        None: a drawing of this project.

    Example:
        >>> picture = coloured_text()
        >>> len(picture), len(picture[0]), picture[1][2] == INK
        (10, 28, True)
    """
    height, width = 10, 6 * len(word) + 4
    picture: Picture = [[ground] * width for _ in range(height)]
    for i, letter in enumerate(word):
        for y, line in enumerate(_LETTERS[letter]):
            for x, mark in enumerate(line):
                if mark == "#":
                    picture[y + 1][6 * i + x + 2] = ink
    return picture
