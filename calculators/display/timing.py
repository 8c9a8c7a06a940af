"""display.timing: what a mode costs in pixels and clock once its blanking is counted."""

from __future__ import annotations

from calculators.desk.answer import Answer, Column, Note, Source, Table, Working, figure
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Values
from calculators.desk.numbers import number
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch, text_width
from calculators.display.links.every_link import refuse_too_slow
from calculators.trade.frame_rates import SOURCE as RATE_SOURCE
from calculators.trade.frame_rates import exact_rate, say_rate, slowed_from
from calculators.trade.modes.modes import (
    BLANKING_OPTIONS,
    BLANKING_WORDS,
    OWN,
    SOURCES,
    Mode,
    blanking_inputs,
    mode,
    mode_inputs,
    too_slow,
)


def compute(given: Values) -> Answer:
    """One mode's totals and clock, worked out."""
    width, height, refresh = given["width"], given["height"], given["refresh"]
    made = mode(width, height, refresh, given["method"], given.get("h_total"), given.get("v_total"))
    refuse_too_slow(made)
    real = made.refresh.value
    share = 100 * (1 - made.width * made.height / (made.h_total * made.v_total))
    figures = (
        figure("pixel_clock_mhz", "Pixel clock", made.clock_mhz, "MHz", 3, main=True),
        figure("h_total", "Total pixels a line", made.h_total, "px", main=True),
        figure("v_total", "Total lines", made.v_total, "lines", main=True),
        figure("refresh_hz", "Refresh that this clock gives", real, "Hz", 3, main=True),
        figure("blanking_percent", "Share of time without picture", share, "%", 1),
        figure("line_rate_khz", "Lines a second", made.clock.value / made.h_total / 1000, "kHz", 3),
    )
    return Answer(
        headline=(
            f"{width}×{height} at {number(refresh, 3)} Hz by {BLANKING_WORDS[made.by]} is {made.h_total} × "
            f"{made.v_total} with blanking, a pixel clock of {figures[0].text}."
        ),
        figures=figures,
        working=_working(made, refresh),
        tables=(_compared(width, height, refresh, made),),
        drawings=(_frame(made, share),),
        notes=_notes(width, made, refresh, real),
        sources=_sources(made),
    )


def _sources(made: Mode) -> tuple[Source, ...]:
    own = (SOURCES[OWN],) if made.by == OWN else ()
    return (*own, SOURCES["cvt"], SOURCES["cta"], RATE_SOURCE)


def _working(made: Mode, refresh: float) -> tuple[Working, ...]:
    clock = f"{number(made.clock_mhz, 3)} MHz"
    steps = {"cvt": "0.25 MHz", "cvt-rb": "0.25 MHz", "cvt-rb2": "0.001 MHz"}
    totals = f"{made.h_total} × {made.v_total}"
    if made.by == "cvt":
        first = Working("Clock", "total pixels ÷ estimated line time", f"rounded down to {steps['cvt']}", clock)
    elif made.by in steps:
        down = f"rounded down to {steps[made.by]}"
        first = Working("Clock", "totals × refresh", f"{totals} × {say_rate(refresh)}, {down}", clock)
    elif made.format:
        vic = f"VIC {made.format.vic}"
        dropped = ", divided by 1.001" if made.clock.under == 1001 else ""
        first = Working("Clock", "from the table of CTA-861", vic + dropped, clock)
    else:
        first = Working("Clock", "totals × refresh", f"{totals} × {say_rate(refresh)}", clock)
    return (
        first,
        Working("Blanking", "totals − picture", f"{totals} − {made.width} × {made.height}",
                f"{made.h_total - made.width} pixels a line and {made.v_total - made.height} lines"),
        Working("Real refresh", "clock ÷ totals", f"{clock} ÷ ({totals})", f"{number(made.refresh.value, 3)} Hz"),
    )  # fmt: skip


def _compared(width: int, height: int, refresh: float, made: Mode) -> Table:
    rows: list[tuple[str, ...]] = []
    marked: list[int] = []
    for option in BLANKING_OPTIONS:
        try:
            other = mode(width, height, refresh, option.value)
        except InputErrors:
            rows.append((option.label, "not listed", "–", "–", "–"))
            continue
        if too_slow(other):
            rows.append((option.label, "too slow", "–", "–", "–"))
            continue
        if option.value == made.by:
            marked.append(len(rows))
        rows.append(_row(option.label, other))
    if made.by == OWN:
        marked.append(len(rows))
        rows.append(_row("The totals typed", made))
    return Table(
        title="The same picture with each blanking",
        columns=(Column("Blanking"), Column("Totals", True), Column("Clock, MHz", True), Column("Refresh, Hz", True),
                 Column("No picture", True)),
        rows=tuple(rows),
        note="The smaller the clock, the less the link has to carry for the same picture.",
        marked=tuple(marked),
    )  # fmt: skip


def _row(label: str, one: Mode) -> tuple[str, ...]:
    share = 100 * (1 - one.width * one.height / (one.h_total * one.v_total))
    return (
        label,
        f"{one.h_total} × {one.v_total}",
        number(one.clock_mhz, 3),
        number(one.refresh.value, 3),
        f"{number(share, 1)} %",
    )


def _frame(made: Mode, share: float) -> Drawing:
    scale = min((WIDTH - 8) / made.h_total, 230 / made.v_total)
    wide, high = made.h_total * scale, made.v_total * scale
    sketch = Sketch(
        "One frame with its blanking",
        f"The whole frame is {made.h_total} by {made.v_total}; the picture fills {made.width} by {made.height} of it, "
        f"and {number(share, 1)} percent is blanking, drawn to scale.",
        high + 50,
    )
    left = (WIDTH - wide) / 2
    sketch.rect(left, 4, wide, high, fill="fill-4", line="ink")
    sketch.rect(left, 4, made.width * scale, made.height * scale, fill="fill-2", line="paper")
    if made.height * scale > 30:
        middle = left + made.width * scale / 2
        sketch.text(
            middle, 4 + made.height * scale / 2 + 5, f"{made.width} × {made.height}", anchor="middle", bold=True
        )
    sketch.rect(2, high + 15, 12, 12, fill="fill-2", line="ink")
    sketch.text(20, high + 25, "picture", size=SMALL)
    sketch.rect(80, high + 15, 12, 12, fill="fill-4", line="ink")
    sketch.text(98, high + 25, "blanking: time without picture", size=SMALL)
    sketch.text(2, high + 43, f"Whole frame {made.h_total} × {made.v_total}", size=SMALL, ink="soft")
    description = sketch.description

    def for_card(width: float, height: float, size: float) -> Drawing:
        """The frame with its key beside it, or below where the picture is upright."""
        words = (
            f"picture {made.width} × {made.height}",
            f"whole {made.h_total} × {made.v_total}",
            "time without picture",
        )
        key = size * 1.6 + max(text_width(word, size) for word in words)
        beside = width - key - size > width * 0.45
        wide, tall = (width - key - size, height) if beside else (width, height - size * 4.2)
        scale = min(wide / made.h_total, tall / made.v_total)
        card = Sketch("One frame with its blanking", description, height, width)
        card.rect(2, 2, made.h_total * scale - 4, made.v_total * scale - 4, fill="fill-4", line="ink", line_width=4)
        card.rect(2, 2, made.width * scale, made.height * scale, fill="fill-2", line="paper", line_width=4)
        x, y = (made.h_total * scale + size, 0.0) if beside else (0.0, made.v_total * scale + size * 0.4)
        for word, fill in zip(words, ("fill-2", "", "fill-4"), strict=True):
            if fill:
                card.rect(x, y + size * 0.1, size, size, fill=fill, line="ink", line_width=3)
            card.text(x + size * 1.5, y + size * 0.95, word, size=size)
            y += size * 1.3
        return card.done()

    return sketch.done(for_card)


def _notes(width: int, made: Mode, refresh: float, real: float) -> tuple[Note, ...]:
    notes = []
    if made.width != width:
        notes.append(
            Note(
                "The width was rounded",
                f"CVT counts this blanking in cells of eight pixels, so {width} became {made.width}. The second "
                "reduced blanking counts single pixels.",
            )
        )
    asked = exact_rate(refresh).value
    if abs(real - asked) > 0.0005:
        notes.append(
            Note(
                "Why the refresh is not quite what was asked",
                f"The clock moves in steps and is rounded down, so {number(asked, 3)} Hz becomes "
                f"{number(real, 3)} Hz. A system may list either number; nothing is broken.",
            )
        )
    whole = slowed_from(refresh)
    if whole:
        notes.append(
            Note(
                f"What {number(refresh, 3)} stands for",
                f"Television slows its whole rates by 1000/1001, so this is exactly {whole} × 1000/1001, about "
                f"{number(asked, 4)} Hz.",
            )
        )
    notes.append(
        Note(
            "What blanking is",
            "Between lines and between frames a display gets no picture. Picture tubes needed that time to swing "
            "the beam back; links still use it for sound and for settling. It counts on the cable all the same.",
        )
    )
    notes.append(
        Note(
            "Which one is in use",
            "The display decides: it declares its timings, and the card takes one of them. The same resolution "
            "can be declared twice, as a television format and as a computer format, with different clocks.",
        )
    )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    by = OWN if "h_total" in given else given["method"]
    return f"{given['width']}×{given['height']} at {say_rate(given['refresh'])}, by {BLANKING_WORDS[by]}"


calculator = Calculator(
    name="display.timing",
    title="How much does a display mode really send?",
    summary="Totals and pixel clock of a mode by CVT's three blankings, by CTA-861, or by totals of your own.",
    inputs=(*mode_inputs(), *blanking_inputs("method", "cvt-rb")),
    compute=compute,
    version=2,
    worked_for=_worked_for,
    presets=(
        Preset(
            "uhd-60-tv", "3840×2160 at 60, television", {"width": 3840, "height": 2160, "refresh": 60, "method": "cta"}
        ),
        Preset(
            "uhd-144", "3840×2160 at 144, monitor", {"width": 3840, "height": 2160, "refresh": 144, "method": "cvt-rb2"}
        ),
        Preset("qhd-165", "2560×1440 at 165", {"width": 2560, "height": 1440, "refresh": 165, "method": "cvt-rb"}),
        Preset("film", "1920×1080 at 23.976", {"width": 1920, "height": 1080, "refresh": 23.976, "method": "cta"}),
        Preset("wide", "3440×1440 at 100", {"width": 3440, "height": 1440, "refresh": 100, "method": "cvt-rb"}),
    ),
)
