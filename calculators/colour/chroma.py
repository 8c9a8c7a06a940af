"""colour.chroma: what 4:4:4, 4:2:2 and 4:2:0 keep, and what they do to coloured text."""

from __future__ import annotations

from calculators.colour.signals.chroma_subsampling import Picture, coloured_text, samples, subsample
from calculators.desk.answer import COMMON_PRACTICE, FROM_MEMORY, Answer, Column, Note, Source, Table, Working, figure
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.inputs import Choice, Number, Option, Values
from calculators.desk.numbers import number
from calculators.desk.screen_drawings.marks import NARROW
from calculators.desk.svg import WIDTH, Drawing, Sketch, text_width
from calculators.trade.modes.picture_inputs import DEPTH_NAMES, DEPTHS, FORMAT_NAMES, SAMPLING_NAMES

_NAMES = {"444": "4:4:4", "422": "4:2:2", "420": "4:2:0"}
_KEEPS = {
    "444": "a colour for every pixel",
    "422": "one colour for every two pixels side by side",
    "420": "one colour for every block of two by two pixels",
}
_LETTER_WIDE = 6  # of a letter of the drawing with the pixel behind it
_EYE = {
    "444": "nothing",
    "422": "coloured text smears sideways",
    "420": "coloured text smears both ways",
}

SOURCES = (
    Source("ITU-R BT.2100-2", "table 7, 4:4:4, 4:2:2 and 4:2:0 sampling", FROM_MEMORY),
    Source("ITU-R BT.709-6", "items 3.2 and 3.3, luma and colour differences", FROM_MEMORY),
    Source("In the drawing: mean of each group, repeated", "displays differ", COMMON_PRACTICE),
)


def compute(given: Values) -> Answer:
    """One frame with one sampling."""
    width, height, sampling, depth = given["width"], given["height"], given["sampling"], int(given["depth"])
    luma, chroma = samples(width, height, sampling)
    whole = sum(samples(width, height, "444"))
    bits = (luma + chroma) * depth
    share = 100 * (luma + chroma) / whole
    figures = (
        figure("bits_per_pixel", "Bits a pixel", bits / (width * height), "bit", 2, main=True),
        figure("share_percent", "Of 4:4:4 at the same depth", share, "%", 1, main=True),
        figure("frame_mb", "One frame", bits / 8e6, "MB", 2, main=True),
        figure("luma_samples", "Samples of brightness", luma),
        figure("chroma_samples", "Samples of colour, both signals", chroma),
    )
    name = _NAMES[sampling]
    colour = {"444": "all its colour", "422": "half the colour", "420": "a quarter of the colour"}[sampling]
    return Answer(
        headline=(
            f"{name} keeps every pixel's brightness and {colour}: {number(bits / (width * height), 2)} bits a pixel at "
            f"{depth} bits a channel."
        ),
        figures=figures,
        working=(
            Working("Brightness", "width × height", f"{width} × {height}", number(luma, 0)),
            Working("Colour", "two signals, " + _KEEPS[sampling], _groups(width, height, sampling), number(chroma, 0)),
            Working(
                "Bits a pixel",
                "samples × bits ÷ pixels",
                f"({number(luma, 0)} + {number(chroma, 0)}) × {depth} ÷ {number(luma, 0)}",
                figures[0].text,
            ),
            Working(
                "One frame", "samples × bits ÷ 8", f"{number(luma + chroma, 0)} × {depth} ÷ 8", f"{figures[2].text}"
            ),
        ),
        tables=(_table(width, height, sampling, depth),),
        drawings=(_drawing(sampling),),
        notes=_notes(sampling, depth),
        sources=SOURCES,
    )


def _groups(width: int, height: int, sampling: str) -> str:
    across, down = {"444": (1, 1), "422": (2, 1), "420": (2, 2)}[sampling]
    return f"2 × {-(-width // across)} × {-(-height // down)}"


def _table(width: int, height: int, sampling: str, depth: int) -> Table:
    whole = sum(samples(width, height, "444"))
    rows = []
    for key, name in _NAMES.items():
        total = sum(samples(width, height, key))
        rows.append((
            name,
            f"{number(total * depth / (width * height), 2)} bit",
            f"{number(total * depth / 8e6, 2)} MB",
            f"{number(100 * total / whole, 1)} %",
            _EYE[key],
        ))  # fmt: skip
    return Table(
        title=f"The three samplings at {depth} bits a channel",
        columns=(Column("Sampling"), Column("A pixel", True), Column("A frame", True), Column("Share", True),
                 Column("What the eye loses")),
        rows=tuple(rows),
        note=(
            "Films are made in 4:2:0 and look right. A link may spend more than this: HDMI packs 4:2:2 into 24 bits a "
            "pixel whatever the depth."
        ),
        marked=(list(_NAMES).index(sampling),),
    )  # fmt: skip


def _drawing(sampling: str) -> Drawing:
    before = coloured_text()
    after = subsample(before, sampling)
    cell = (WIDTH - 4) / len(before[0])
    panel = cell * len(before)
    ending = {
        "444": "and after: they are the same, pixel for pixel.",
        "422": "and after: the brightness of every stroke is kept, but its colour has run into the pixel beside it.",
        "420": "and after: the brightness of every stroke is kept, but its colour has run into the pixels beside, "
        "above and below it.",
    }[sampling]
    sketch = Sketch(
        "Coloured letters before and after",
        f"The word Text in red letters one pixel thin on blue, much enlarged, before {ending}",
        2 * panel + 62,
    )
    for title, picture, y in (
        ("Before", before, 22.0),
        (f"After {_NAMES[sampling]}", after, 22 + panel + 32),
    ):
        sketch.text(2, y - 7, title, bold=True)
        _paint(sketch, picture, 2, y, cell)
        sketch.rect(2, y, WIDTH - 4, panel, fill="none", line="ink")

    def for_card(width: float, height: float, size: float) -> Drawing | None:
        return _on_screen(sampling, (width, height, min(size, 52.0)))

    return sketch.done(for_card)


_BRACKET = 32.0  # below the picture, with the air above it
_SOFT = {"444": "nothing lost", "422": "blurred sideways", "420": "blurred edges"}


def _on_screen(sampling: str, room: tuple[float, float, float]) -> Drawing | None:
    """
    Letters, side by side or one below the other, whichever is larger; after that, where their edges blurred.

    Two letters, or in a narrow room the one that loses most. A bracket below the picture spans it, with what became
    of it in words: nothing covers what there is to see.
    """
    width, height, size = room
    before = coloured_text("Te" if width >= NARROW else "e")
    after = subsample(before, sampling)
    columns, rows = len(before[0]), len(before)
    head, foot = size * 1.4, size * 1.5 + _BRACKET
    titles = "Before", f"After {_NAMES[sampling]}"
    words = max(text_width(each, size, True) for each in (titles[1], _SOFT[sampling]))
    across = min((width - size) / 2, width - size - words, (height - head - foot) / rows * columns) / columns
    below = min(width / columns, (height - head * 2 - foot) / 2 / rows)
    beside, cell = across > below, max(across, below)
    wide, panel = cell * columns, cell * rows
    if cell < size * 0.12 or words > width:
        return None
    card = Sketch(
        "Coloured letters before and after",
        f"Letters in red pixels on blue; {titles[1]} they are {_SOFT[sampling]}",
        head + panel + foot if beside else (head + panel) * 2 + foot,
        max(2 * wide + size if beside else wide, words + (wide + size if beside else 0)),
    )
    for i, (title, picture) in enumerate(zip(titles, (before, after), strict=True)):
        x, y = (i * (wide + size), 0.0) if beside else (0.0, i * (head + panel))
        with card.later(i):
            card.text(x, y + size * 0.95, title, size=size, bold=True)
            _paint(card, picture, x, y + head, cell)
            card.rect(x, y + head, wide, panel, fill="none", line="ink", line_width=3)
    with card.later():
        ink = "yes" if sampling == "444" else "no"
        card.text(x, y + head + panel + _BRACKET + size * 1.15, _SOFT[sampling], size=size, bold=True, ink=ink)
        if sampling != "444":
            first, last = softest(before, after)
            columns_of = last + 1 - first  # and the pixel into which the last stroke runs
            left, top, wide_of = x + first * cell, y + head + panel + _BRACKET * 0.3, columns_of * cell
            card.rect(left, top + _BRACKET * 0.4, wide_of, _BRACKET * 0.3, fill="no", what="blurred here")
            for end in (left, left + wide_of - _BRACKET * 0.3):
                card.rect(end, top, _BRACKET * 0.3, _BRACKET * 0.5, fill="no")
    return card.done()


def softest(before: Picture, after: Picture) -> tuple[int, int]:
    """The columns, first and one past the last, of the letter whose pixels changed most."""
    lost = [
        sum(abs(a - b) for row, other in zip(before, after, strict=True) for a, b in zip(row[x], other[x], strict=True))
        for x in range(len(before[0]))
    ]
    starts = range(1, len(lost) - _LETTER_WIDE, _LETTER_WIDE)
    most = max(starts, key=lambda start: sum(lost[start : start + _LETTER_WIDE]))
    return most, most + _LETTER_WIDE


def _paint(sketch: Sketch, picture: Picture, left: float, top: float, cell: float) -> None:
    """The picture as squares, runs of one colour in a row joined, each colour one path."""
    runs: dict[tuple[int, int, int], list[tuple[float, float, float, float]]] = {}
    for y, row in enumerate(picture):
        x = 0
        while x < len(row):
            end = x
            while end < len(row) and row[end] == row[x]:
                end += 1
            runs.setdefault(row[x], []).append((left + x * cell, top + y * cell, (end - x) * cell, cell))
            x = end
    for (red, green, blue), squares in runs.items():
        sketch.tiles(squares, fill=f"#{red:02x}{green:02x}{blue:02x}")


def _notes(sampling: str, depth: int) -> tuple[Note, ...]:
    notes = [
        Note(
            "4:4:4 does not mean more bits",
            "The three numbers count colour resolution: how many pixels get a colour of their own. Bits a channel "
            "count shades. 4:4:4 at 8 bits has the same shades as 4:2:0 at 8 bits; it only puts them in more places.",
        ),
        Note(
            "RGB or 4:4:4?",
            "Both keep everything. On a computer take RGB, unless the display does its picture settings only in "
            "YCbCr. They differ in range by habit, not in sharpness.",
        ),
    ]
    if sampling != "444":
        notes.append(
            Note(
                "Where to look for it",
                "Red or blue text on black or on another colour, at the size of a menu. Black on white is safe: it "
                "has no colour to lose.",
            )
        )
    if depth > 8:
        notes.append(
            Note(
                "10 bits in 4:2:2 against 8 bits in RGB",
                "For films in HDR take the bits, for text take RGB. Both may ask the same of an HDMI link.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    return f"{given['width']}×{given['height']}, {_NAMES[given['sampling']]}, {given['depth']} bits a channel"


calculator = Calculator(
    name="colour.chroma",
    title="RGB, 4:4:4, 4:2:2 or 4:2:0?",
    summary="Samples, bits and megabytes of a frame, and coloured text really subsampled.",
    inputs=(
        Number(
            key="width",
            label="Width",
            where="The system's display settings, or the display's data sheet.",
            low=1,
            high=16384,
            unit="px",
            default=3840,
            whole=True,
            also={"pixels": 1, "pixel": 1},
        ),
        Number(
            key="height",
            label="Height",
            where="The second number of the resolution, such as the 2160 in 3840×2160.",
            low=1,
            high=16384,
            unit="px",
            default=2160,
            whole=True,
            also={"pixels": 1, "pixel": 1, "lines": 1, "p": 1},
        ),
        Choice(
            key="sampling",
            label="Sampling",
            where="The driver's display page, as colour or pixel format; a television's status page.",
            names=FORMAT_NAMES,
            options=(
                Option("444", "4:4:4 or RGB", ("rgb", *SAMPLING_NAMES["444"])),
                Option("422", "4:2:2", SAMPLING_NAMES["422"]),
                Option("420", "4:2:0", SAMPLING_NAMES["420"]),
            ),
            default="420",
        ),
        Choice(
            key="depth",
            label="Bits a channel",
            where="The driver's display page as colour depth, or the system's advanced display settings.",
            names=DEPTH_NAMES,
            options=DEPTHS,
            default="8",
        ),
    ),
    compute=compute,
    version=2,
    worked_for=_worked_for,
    presets=(
        Preset("tv", "Television at its limit", {"sampling": "420"}),
        Preset("desk", "Desktop, everything kept", {"sampling": "444"}),
        Preset("hdr", "HDR film, 10-bit 4:2:2", {"sampling": "422", "depth": "10"}),
        Preset("full-hd", "1920×1080, 4:2:0", {"width": 1920, "height": 1080, "sampling": "420"}),
    ),
)
