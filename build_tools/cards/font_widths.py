"""
Makes calculators/desk/font_widths.py from the shipped label face: the advance of every sign it holds.

Run again after changing the face: python -m build_tools.cards.font_widths (needs fonttools and brotli).
"""

from __future__ import annotations

from pathlib import Path

FACE = Path("node_modules/@fontsource-variable/instrument-sans/files/instrument-sans-latin-wght-normal.woff2")
TABLE = Path("calculators/desk/font_widths.py")
WEIGHTS = (("REGULAR", 400), ("BOLD", 600))
A_LINE = 16


def widths(face: Path, weight: int) -> dict[str, int]:
    """Advance of each printable sign at one weight, in thousandths of the type's size."""
    from fontTools.ttLib import TTFont
    from fontTools.varLib.instancer import instantiateVariableFont

    font = instantiateVariableFont(TTFont(face), {"wght": weight})
    units = font["head"].unitsPerEm
    advances = font["hmtx"].metrics
    return {
        chr(code): round(advances[name][0] * 1000 / units)
        for code, name in sorted(font.getBestCmap().items())
        if chr(code).isprintable() and advances[name][0]
    }


def table(face: Path) -> str:
    """The module's text."""
    parts = [
        '"""Advances of the shipped label face, in thousandths of its size. By build_tools/cards/font_widths.py."""\n',
        "# fmt: off",
    ]
    for name, weight in WEIGHTS:
        entries = [f"{sign!r}: {width}," for sign, width in widths(face, weight).items()]
        lines = [" ".join(entries[i : i + A_LINE // 2]) for i in range(0, len(entries), A_LINE // 2)]
        parts += [f"{name}: dict[str, int] = {{  # weight {weight}", *(f"    {line}" for line in lines), "}"]
    return "\n".join(parts) + "\n"


if __name__ == "__main__":
    TABLE.write_text(table(FACE), "utf-8")
