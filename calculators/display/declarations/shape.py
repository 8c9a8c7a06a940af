"""Whether a declaration is of a whole display: one tile of several, or half of one."""

from __future__ import annotations

from calculators.desk.answer import Note
from calculators.desk.numbers import number
from calculators.trade.edid.declaration import Declaration

_SPREADS = 2  # behaviour of the only tile: its picture goes over the whole display. DisplayID 1.3, 4.13, from memory

# Sizes of whole displays that a picture-by-picture setting halves in width. Common practice, no source.
_WHOLE = (
    (1920, 1080), (2560, 1080), (2560, 1440), (3440, 1440), (3840, 1600), (3840, 2160), (5120, 2160), (5120, 2880),
    (7680, 4320),
)  # fmt: skip


def shape_notes(edid: Declaration) -> list[Note]:
    """
    What to say of a tile, or of a declaration that looks like half of a display.

    Args:
        edid: The declaration. [object]

    Returns:
        At most one note. [list]

    Source:
        VESA DisplayID 1.3 and 2.0, tiled display topology, from memory; halves: common practice, no source.

    Example:
        >>> [n.title for n in shape_notes(Declaration(tiles=(2, 1), tile_size=(1920, 2160)))]
        ['One tile of a larger display']
    """
    if edid.tiles and edid.tiles != (1, 1):
        return [_tile(edid, edid.tiles)]
    mode = edid.preferred
    if mode and (2 * mode.width, mode.height) in _WHOLE:
        whole = f"{number(2 * mode.width)} × {number(mode.height)}"
        return [
            Note(
                "This may be half of your display",
                f"{number(mode.width)} × {number(mode.height)} is half of {whole}, and no tiles are declared. Look in "
                "the display's menu whether it shows two inputs side by side; with that off it declares the whole.",
            )
        ]
    return []


def _tile(edid: Declaration, tiles: tuple[int, int]) -> Note:
    across, down = tiles
    size, together = "", ""
    if edid.tile_size:
        width, height = edid.tile_size
        size = f" of {number(width)} × {number(height)}"
        together = f", {number(width * across)} × {number(height * down)} in all"
    single = (
        "With this input alone the display spreads its picture over the whole."
        if edid.single_tile_behaviour == _SPREADS
        else "With this input alone part of the display may stay dark."
    )
    return Note(
        "One tile of a larger display",
        f"The display is made of {across} × {down} tiles{size}{together}. This input feeds one of them, so its modes "
        f"are not half a display by mistake: connect every input, and the system joins them. {single}",
    )
