"""Drawings of memory: the slots with their sticks, and what runs in pairs, to scale. Knows no wording of answers."""

from __future__ import annotations

from calculators.desk.card_declared import SMALLEST_DRAWN
from calculators.desk.charts import Part, strip
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch, text_width
from calculators.memory.kits.slot_placement import Placement, Stick, slot_names

_ROW = 40.0


def slots(placement: Placement, kit_names: tuple[str, str]) -> Drawing:
    """
    The board's slots from the processor outwards, each with its name and its stick.

    Args:
        placement: What each slot holds. [object]
        kit_names: What the two kits are called, such as "yours" and "new". [text]

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> from calculators.memory.kits.slot_placement import Stick
        >>> slots(Placement((Stick(0, 8), None), 2), ("yours", "new")).description
        'From the processor outwards: A1 holds 8 GB, yours; B1 is empty.'
    """
    names = slot_names(len(placement.slots), placement.channels)
    slot_words = [
        f"{name} holds {stick.size_gb} GB, {kit_names[stick.kit]}" if stick else f"{name} is empty"
        for name, stick in zip(names, placement.slots, strict=True)
    ]
    sketch = Sketch(
        "Which stick goes where",
        f"From the processor outwards: {'; '.join(slot_words)}.",
        72 + _ROW * len(names),
    )
    sketch.rect(2, 2, 150, 26, fill="none", line="ink", radius=3)
    sketch.text(77, 20, "Processor", anchor="middle")
    sketch.text(WIDTH - 2, 20, "nearer", size=SMALL, anchor="end", ink="soft")
    y = 38.0
    for name, stick in zip(names, placement.slots, strict=True):
        sketch.text(2, y + 21, name, bold=True)
        if stick is None:
            sketch.rect(34, y, WIDTH - 36, 30, fill="none", line="line", dash="5 4", radius=3)
            sketch.text(46, y + 20, "empty", ink="soft")
        else:
            sketch.rect(34, y, WIDTH - 36, 30, fill="paper", line="ink", radius=3)
            # the band tells the kits apart in print too: full for the one, an outline for the other
            sketch.rect(34, y, 9, 30, fill="fill-1" if stick.kit == 0 else "mark", line="ink")
            if stick.kit == 1:
                sketch.rect(36.5, y + 5, 4, 20, fill="paper")
            sketch.text(52, y + 20, f"{stick.size_gb} GB", bold=True)
            sketch.text(WIDTH - 12, y + 20, kit_names[stick.kit], anchor="end")
        y += _ROW
    sketch.text(WIDTH - 2, y + 8, "farther from the processor", size=SMALL, anchor="end", ink="soft")
    sketch.text(2, y + 26, "Printed names differ; the board's manual decides.", size=SMALL, ink="soft")

    def for_card(width: float, height: float, size: float) -> Drawing | None:
        return _slots_across(sketch, list(zip(names, placement.slots, strict=True)), kit_names, (width, height, size))

    return sketch.done(for_card)


_LINE = 6.0  # a line that survives a phone and a low bit rate
_MOST_BLOCK = 1.5  # how much wider the processor may be than a slot


def _slots_across(
    page: Sketch, slots: list[tuple[str, Stick | None]], kit_names: tuple[str, str], room: tuple[float, float, float]
) -> Drawing | None:
    """The board from above, for a picture: the processor at the left, the slots beside it, each with its stick."""
    width, height, size = room
    kits = sorted({stick.kit for _, stick in slots if stick})
    legend = _legend(kits, kit_names, width, size)
    head, foot = size * 1.25, size * 1.3 * len(legend) + size * 0.3
    tall = min(height - head - foot, 420.0)
    if tall < size * 1.6:
        return None
    most = max((stick.size_gb for _, stick in slots if stick), default=1)
    share = 0.82  # of a slot's room is its stick
    # rather no word on the processor, and rather smaller words, than a size without its unit
    for label, unit in (("Processor", " GB"), ("", " GB"), ("", "")):
        block = text_width(label, size, True) + size if label else size * 1.2
        pitch = (width - block - size * 0.5) / len(slots)
        needed = text_width(f"{most}{unit}", size, True) + _LINE * 4 + size * 0.2
        if (unit or size <= SMALLEST_DRAWN) and pitch * share >= needed:
            break
    else:
        return None
    pitch = min(pitch, size * 4.6)
    sketch = Sketch(page.title, page.description, head + tall + foot, width)
    chip = min(tall * 0.72, block * _MOST_BLOCK)
    top = head + (tall - chip) / 2
    sketch.rect(_LINE / 2, top, block - _LINE, chip, fill="fill-4", line="ink", line_width=_LINE, what="processor")
    if label:
        sketch.text(block / 2, top + chip / 2 + size * 0.34, label, size=size, anchor="middle", bold=True)
    else:
        for i in range(4):  # its pins, towards the slots
            y = top + chip * (0.2 + 0.2 * i)
            sketch.line(block, y, block + size * 0.35, y, ink="ink", width=_LINE)
    stacked = not unit and tall >= size * 2.6  # the unit below its number, where beside it there is no room
    for i, (name, stick) in enumerate(slots):
        middle = block + size * 0.5 + pitch * (i + 0.5)
        wide = pitch * share
        left = middle - wide / 2
        sketch.text(middle, size * 0.86, name, size=size, bold=True, anchor="middle", ink="ink" if stick else "soft")
        if stick is None:
            sketch.rect(left, head, wide, tall, fill="none", line="line", line_width=_LINE, dash="22 16", what="empty")
            continue
        own = stick.kit == 0
        # the kits are told apart without colour too: the one full, the other an outline
        fill, line = ("fill-1", "fill-1") if own else ("paper", "fill-3")
        edge = _LINE * 2
        sketch.rect(left, head, wide, tall, fill="none", line="line", line_width=_LINE, dash="22 16")
        base = head + tall / 2 + size * 0.34
        words = f"{stick.size_gb}{unit}"
        with sketch.later():  # which stick goes where is the answer: the slots stand empty before
            sketch.rect(left - _LINE, head - _LINE, wide + 2 * _LINE, tall + 2 * _LINE, fill="paper")
            sketch.rect(left + edge / 2, head + edge / 2, wide - edge, tall - edge, fill=fill, line=line,
                        line_width=edge, what=f"stick {name}")  # fmt: skip
            lines = [words, "GB"] if stacked else [words]
            for j, line in enumerate(lines):
                y = base + (j - (len(lines) - 1) / 2) * size * 1.05
                sketch.text(middle, y, line, size=size, bold=True, anchor="middle", ink="paper" if own else "ink")
    for i, row in enumerate(legend):
        x, y = 0.0, head + tall + size * 0.4 + size * 1.3 * i
        for kit, words in row:
            fill, line = ("fill-1", "fill-1") if kit == 0 else ("paper", "fill-3")
            sketch.rect(x + 5, y + 5, size * 0.8 - 4, size * 0.8 - 4, fill=fill, line=line, line_width=10)
            sketch.text(x + size * 1.2, y + size * 0.76, words, size=size)
            x += size * 2.0 + text_width(words, size)
        if not unit and not stacked and i == len(legend) - 1 and x + text_width("in GB", size) <= width:
            sketch.text(width, y + size * 0.76, "in GB", size=size, anchor="end", ink="soft")
    return sketch.done()


def _legend(kits: list[int], kit_names: tuple[str, str], width: float, size: float) -> list[list[tuple[int, str]]]:
    """Which fill is which kit, in one row or in one a kit."""
    named = [(kit, kit_names[kit]) for kit in kits]
    wide = sum(size * 2.0 + text_width(words, size) for _, words in named)
    return [named] if wide <= width else [[each] for each in named]


def pairs(paired_gb: int, unpaired_gb: int) -> Drawing:
    """
    What runs in pairs and what runs on one channel, to scale.

    Args:
        paired_gb: Spread over both channels. [GB], 0 or more.
        unpaired_gb: On one channel alone. [GB], 0 or more.

    Returns:
        The drawing. [svg]

    Source:
        None: a drawing.

    Example:
        >>> pairs(32, 8).description
        'Of 40 GB, 32 GB run in pairs and 8 GB on one channel.'
    """
    total = paired_gb + unpaired_gb
    return strip(
        "How much runs in pairs",
        f"Of {total} GB, {paired_gb} GB run in pairs and {unpaired_gb} GB on one channel.",
        [
            Part("in pairs, on both channels", paired_gb, f"{paired_gb} GB", fill="fill-1"),
            Part("on one channel", unpaired_gb, f"{unpaired_gb} GB", fill="fill-4", hatched=True),
        ],
        caption="Drawn to scale.",
    )
