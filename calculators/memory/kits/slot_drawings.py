"""Drawings of memory: the slots with their sticks, and what runs in pairs, to scale. Knows no wording of answers."""

from __future__ import annotations

from calculators.desk.charts import Part, strip
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch
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
    said = [
        f"{name} holds {stick.size_gb} GB, {kit_names[stick.kit]}" if stick else f"{name} is empty"
        for name, stick in zip(names, placement.slots, strict=True)
    ]
    sketch = Sketch(
        "Which stick goes where",
        f"From the processor outwards: {'; '.join(said)}.",
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

    def for_card(width: float, height: float, size: float) -> Drawing:
        return _slots_across(sketch, list(zip(names, placement.slots, strict=True)), kit_names, (width, height, size))

    return sketch.done(for_card)


def _slots_across(
    page: Sketch, slots: list[tuple[str, Stick | None]], kit_names: tuple[str, str], room: tuple[float, float, float]
) -> Drawing:
    """The slots for a picture, the processor above them."""
    width, height, size = room
    pitch = max(min(height / (len(slots) + 1), size * 2.6), size * 1.45)
    tall, left = pitch - size * 0.3, size * 2.2
    sketch = Sketch(page.title, page.description, pitch * (len(slots) + 1), width)
    sketch.rect(left, 2, width - left - 4, tall, fill="none", line="ink", line_width=4, radius=12)
    sketch.text((left + width) / 2, tall / 2 + size * 0.34, "Processor", size=size, anchor="middle")
    for i, (name, stick) in enumerate(slots, 1):
        y = pitch * i
        base = y + tall / 2 + size * 0.34
        sketch.text(0, base, name, size=size, bold=True)
        if stick is None:
            sketch.rect(
                left, y, width - left - 4, tall, fill="none", line="line", line_width=4, dash="20 16", radius=12
            )
            sketch.text(left + size, base, "empty", size=size, ink="soft")
            continue
        sketch.rect(left, y, width - left - 4, tall, fill="paper", line="ink", line_width=4, radius=12)
        sketch.rect(left, y, size * 0.6, tall, fill="fill-1" if stick.kit == 0 else "fill-3", line="ink", line_width=4)
        if stick.kit == 1:
            sketch.rect(left + size * 0.2, y + size * 0.2, size * 0.2, tall - size * 0.4, fill="paper")
        sketch.text(left + size, base, f"{stick.size_gb} GB", size=size, bold=True)
        sketch.text(width - size * 0.6, base, kit_names[stick.kit], size=size, anchor="end")
    return sketch.done()


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
