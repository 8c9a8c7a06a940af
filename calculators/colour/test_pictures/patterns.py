"""
The test pictures: what stands where, with which codes. Exact to the code value; words stand elsewhere.

Layout and words are this project's own. No picture moves or flashes, and striped parts are kept small, for the
sake of people whom patterns trouble.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calculators.colour.test_pictures.canvas import Canvas, Colour, text_size
from calculators.colour.test_pictures.resampling import subsample

NEAR_BLACK, NEAR_WHITE, GREYS, DETAIL, PIXELS = "near-black", "near-white", "greys", "detail", "pixels"
PICTURES = (NEAR_BLACK, NEAR_WHITE, GREYS, DETAIL, PIXELS)

# The steps by their codes. Limited range ends at 16 and 235 (ITU-R BT.709-6), so the steps crowd around these.
DARK_STEPS = (1, 2, 3, 4, 6, 8, 10, 12, 14, 15, 16, 17, 18, 20, 22, 24, 28)
BRIGHT_STEPS = (254, 253, 252, 251, 249, 247, 245, 243, 240, 238, 236, 235, 234, 232, 230, 228, 224)
GREY_PATCHES = tuple(range(0, 256, 15))
HALF_LIGHT = 188  # half of white's light by the curve of IEC 61966-2-1: 255 × (1.055 × 0.5^(1/2.4) − 0.055)

_LABEL = 110  # code of the numbers under the steps: readable on black and on white alike
# Ink and paper of the coloured letters. All but the last pair have the same luma (BT.709) within two codes, so that
# nothing but colour tells them apart; the last is what people complain of, red on black.
_INKS: tuple[tuple[Colour, Colour], ...] = (
    ((220, 40, 40), (0, 109, 0)),
    ((50, 70, 255), (240, 30, 90)),
    ((230, 120, 0), (0, 165, 230)),
    ((235, 40, 40), (16, 16, 16)),
)
_RED, _BLUE = (220, 30, 60), (50, 60, 255)  # the stripes, of the same luma too
_WORD = "FINE LINES"
_WHITE, _BLACK = (255, 255, 255), (0, 0, 0)


@dataclass(frozen=True, slots=True)
class Patch:
    """A part of one colour: where it is [px] and its codes."""

    x: int
    y: int
    width: int
    height: int
    codes: Colour


@dataclass(frozen=True, slots=True)
class Picture:
    """
    A finished picture.

    rows: red, green and blue for each pixel, from the top. ground: the colour to show around it. patches: its
    plain parts, for those who check it.
    """

    key: str
    width: int
    height: int
    rows: Sequence[bytes]
    ground: Colour
    patches: tuple[Patch, ...] = ()
    panels: tuple[tuple[int, int, int, int], ...] = ()


def paint(key: str, width: int, height: int) -> Picture:
    """
    One of the test pictures.

    Args:
        key: near-black, near-white, greys, detail or pixels. [text]
        width: Pixels across. [px], 480 or more.
        height: Pixels down. [px], 270 or more.

    Returns:
        The picture. [object]

    Raises:
        KeyError: There is no picture of this name.

    Source:
        ITU-R BT.709-6 for the codes around which steps crowd; layout: this project's own.

    Example:
        >>> picture = paint("near-black", 640, 360)
        >>> picture.patches[0].codes, len(picture.rows)
        ((1, 1, 1), 360)
    """
    return _PAINTERS[key](width, height)


def _grey(code: int) -> Colour:
    return code, code, code


def _staircase(key: str, width: int, height: int, ground: int, steps: tuple[int, ...], edge: int) -> Picture:
    """Steps that grow towards the right, each with its code below; a line under those that a wrong range swallows."""
    canvas = Canvas(width, height, _grey(ground))
    margin, top = width // 20, height // 11
    across = (width - 2 * margin) // len(steps)
    scale = max(1, min(4, across // 19, height // 120))
    label_top = height - top - 7 * scale
    bottom = label_top - 8 * scale
    patches = []
    for i, code in enumerate(steps):
        tall = (bottom - top) * (len(steps) + 2 * i) // (3 * len(steps) - 2)
        patch = Patch(margin + i * across, bottom - tall, across - across // 6, tall, _grey(code))
        canvas.rect(patch.x, patch.y, patch.width, patch.height, patch.codes)
        patches.append(patch)
        wide, _ = text_size(str(code), scale)
        canvas.text(patch.x + (patch.width - wide) // 2, label_top, str(code), _grey(_LABEL), scale)
    lost = steps.index(edge) + (1 if ground == 0 else 0)  # code 16 shows as black; 235 is the first that is not white
    line = lost * across - across // 6
    canvas.rect(margin, label_top - 3 * scale, line, scale, _grey(_LABEL))
    return Picture(key, width, height, canvas.rows, _grey(ground), tuple(patches))


def _near_black(width: int, height: int) -> Picture:
    return _staircase(NEAR_BLACK, width, height, 0, DARK_STEPS, 16)


def _near_white(width: int, height: int) -> Picture:
    return _staircase(NEAR_WHITE, width, height, 255, BRIGHT_STEPS, 235)


def _greys(width: int, height: int) -> Picture:
    """Every code from black to white, then even patches, then every code the other way round."""
    canvas = Canvas(width, height, _grey(64))
    margin = height // 12
    ramp = b"".join(bytes(_grey(256 * x // width)) for x in range(width))
    band = (height - 4 * margin) * 2 // 5
    middle = height - 4 * margin - 2 * band
    canvas.put(0, margin, [ramp] * band)
    canvas.put(0, height - margin - band, [ramp[::-1]] * band)
    patches = []
    top = 2 * margin + band
    for i, code in enumerate(GREY_PATCHES):
        left, right = i * width // len(GREY_PATCHES), (i + 1) * width // len(GREY_PATCHES)
        patch = Patch(left, top, right - left, middle, _grey(code))
        canvas.rect(left, top, right - left, middle, patch.codes)
        patches.append(patch)
    return Picture(GREYS, width, height, canvas.rows, _grey(64), tuple(patches))


def _detail(width: int, height: int) -> Picture:
    """The same coloured detail three times: as it is, as 4:2:2 leaves it, as 4:2:0 leaves it."""
    canvas = Canvas(width, height, _grey(48))
    gap = min(width // 32, height // 18, 40) // 2 * 2
    wide = min((width - 4 * gap) // 3 // 2 * 2, 240)
    tall = min((height - 3 * gap - 20) // 2 * 2, 320)
    top = max(gap + 20, (height - tall) // 2) // 2 * 2
    start = (width - 3 * wide - 2 * gap) // 4 * 2
    panel = _detail_panel(wide, tall)
    panels = []
    for i, sampling in enumerate(("444", "422", "420")):
        left = start + i * (wide + gap)
        canvas.put(left, top, subsample(panel, sampling))
        canvas.text(left, top - 18, str(i + 1), _grey(200), 2)
        panels.append((left, top, wide, tall))
    return Picture(DETAIL, width, height, canvas.rows, _grey(48), panels=tuple(panels))


def _detail_panel(width: int, height: int) -> list[bytes]:
    """Coloured letters one and two pixels thick, then fine stripes: upright on the left, level on the right."""
    rows = len(_INKS) + 1
    band = height // rows // 2 * 2
    panel = Canvas(width, height, _grey(16))
    for i, (ink, paper) in enumerate(_INKS):
        panel.rect(0, i * band, width, band, paper)
        y, scale = i * band + 5, 1
        while y + 7 * scale + 2 <= (i + 1) * band:
            step = text_size(_WORD, scale)[0] + 7 * scale
            for x in range(5, width - text_size(_WORD, scale)[0], step):
                panel.text(x, y, _WORD, ink, scale)
            y, scale = y + 7 * scale + 6, 3 - scale  # odd places, so that two-pixel strokes straddle shared colour
    top, size = len(_INKS) * band, min(96, width // 2 // 2 * 2 - 8)
    panel.rect(0, top, width, height - top, _BLACK)
    tall = height - top - 8
    for x in range(size):
        panel.rect(4 + x, top + 4, 1, tall, _RED if x % 2 else _BLUE)
    for y in range(tall):
        panel.rect(width // 2 // 2 * 2 + 4, top + 4 + y, size, 1, _RED if y % 2 else _BLUE)
    return panel.rows


def _pixels(width: int, height: int) -> Picture:
    """A frame on the outermost pixels, and four patches of the same mean light: three of single pixels, one plain."""
    canvas = Canvas(width, height, _grey(128))
    for inset, colour in ((0, _WHITE), (1, _BLACK), (2, _WHITE), (3, _grey(128))):
        canvas.rect(inset, inset, width - 2 * inset, height - 2 * inset, colour)
    canvas.rect(4, 4, width - 8, height - 8, _grey(128))
    size = min(width // 6, height // 3, 160) // 2 * 2
    gap = (width - 4 * size) // 5
    top = (height - size) // 2
    light, dark = bytes(_WHITE), bytes(_BLACK)
    even, odd = (light + dark) * (size // 2), (dark + light) * (size // 2)
    kinds = (
        [even if y % 2 == 0 else odd for y in range(size)],
        [even] * size,
        [light * size if y % 2 == 0 else dark * size for y in range(size)],
    )
    for i, rows in enumerate(kinds):
        canvas.put(gap + i * (size + gap), top, rows)
    plain = Patch(gap + 3 * (size + gap), top, size, size, _grey(HALF_LIGHT))
    canvas.rect(plain.x, plain.y, size, size, plain.codes)
    for i in range(4):
        canvas.text(gap + i * (size + gap), top + size + 8, str(i + 1), _grey(32), 2)
    return Picture(PIXELS, width, height, canvas.rows, _grey(128), (plain,))


_PAINTERS = {NEAR_BLACK: _near_black, NEAR_WHITE: _near_white, GREYS: _greys, DETAIL: _detail, PIXELS: _pixels}
