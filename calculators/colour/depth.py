"""colour.depth: what bits a channel are good for: shades, colours, and how coarse the steps look."""

from __future__ import annotations

import math

from calculators.colour.signals.transfer_functions import (
    DARKEST,
    gamma_shown,
    pq_shown,
    pq_signal,
    steps_percent,
    threshold_percent,
)
from calculators.desk.answer import FROM_MEMORY, LIBRARY, Answer, Column, Figure, Note, Source, Table, Working, figure
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.charts import Axis, Line, plot_across
from calculators.desk.errors import refuse
from calculators.desk.functions import log10, power
from calculators.desk.inputs import Choice, Number, Option, Values
from calculators.desk.numbers import number, significant
from calculators.desk.svg import SMALL, WIDTH, Drawing, Sketch
from calculators.trade.modes.picture_inputs import DEPTH_NAMES, DEPTHS

GAMMA, PQ = "gamma", "pq"
_DEPTHS = (6, 8, 10, 12)

SOURCES = (
    Source("SMPTE ST 2084:2014 and ITU-R BT.2100-2", "PQ, equation 4.1 and table 4", FROM_MEMORY),
    Source(
        "ITU-R BT.2246-4",
        "figure 31: Barten's threshold and its parameters, as a library of colour science gives them",
        LIBRARY,
    ),
    Source("Barten, Proc. SPIE 5294 (2003)", "formula for the contrast sensitivity of the eye", FROM_MEMORY),
    Source("ITU-R BT.2100-2", "table 3, black of the reference display", FROM_MEMORY),
)


def compute(given: Values) -> Answer:
    """One depth on one display."""
    depth, signal = int(given["depth"]), given["signal"]
    gamma, peak, black = given["gamma"], given["peak"], given["black"]
    if not black < peak:
        raise refuse("black", f"Black must be darker than white: below {number(peak, 4)} cd/m², such as 0.05.")
    steps = _steps(depth, signal, gamma, peak, black)
    shades = 1 << depth
    at, largest = max(steps, key=lambda step: step[1], default=(0.0, 0.0))
    seen_at, ratio = _worst(steps)
    return Answer(
        headline=_headline(depth, shades, signal, largest, ratio, bool(steps)),
        figures=(
            *_figures(depth, shades, steps, at, largest, seen_at, ratio),
            *_display_figures(signal, peak, black),
        ),
        working=_working(depth, shades),
        tables=(_table(depth, signal, gamma, peak, black),),
        drawings=(_drawing(signal, depth, steps),) if steps else (),
        notes=_notes(depth, signal, black),
        sources=SOURCES,
    )


def _steps(depth: int, signal: str, gamma: float, peak: float, black: float) -> list[tuple[float, float]]:
    if signal == PQ:
        return steps_percent(lambda code: pq_shown(code, depth, peak, black), depth)
    return steps_percent(lambda code: gamma_shown(code, depth, gamma, peak, black), depth)


_BINS_A_DECADE = 6


def _thinned(steps: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The largest step of each sixth of a decade: enough for a line, and for a threshold that changes slowly."""
    bins: dict[int, tuple[float, float]] = {}
    for step in steps:
        place = int(log10(step[0]) * _BINS_A_DECADE + 1000)
        if place not in bins or step[1] > bins[place][1]:
            bins[place] = step
    return [bins[place] for place in sorted(bins)]


def _worst(steps: list[tuple[float, float]]) -> tuple[float, float]:
    """Where a step is largest against what the eye can just see there, and how many times that."""
    ratios = [(at, size / threshold_percent(at)) for at, size in _thinned(steps)]
    return max(ratios, key=lambda pair: pair[1], default=(0.0, 0.0))


def _headline(depth: int, shades: int, signal: str, largest: float, ratio: float, any_steps: bool) -> str:
    start = f"{depth} bits give {number(shades, 0)} shades a channel"
    if not any_steps:
        return f"{start}; on a display this dark no step is bright enough to judge."
    curve = "in HDR's PQ curve" if signal == PQ else "with a plain gamma"
    if ratio <= 1:
        return f"{start}, and {curve} no step between two of them is large enough to see."
    return (
        f"{start}; {curve} the largest step is {significant(largest)} %, {significant(ratio, 2)} times the least "
        "visible."
    )


def _figures(
    depth: int, shades: int, steps: list[tuple[float, float]], at: float, largest: float, seen_at: float, ratio: float
) -> tuple[Figure, ...]:
    rows = [
        figure("shades", "Shades a channel", shades, main=True),
        figure("colours", "Colours", shades**3, main=True),
        figure("bits_per_pixel", "Bits a pixel, RGB", 3 * depth, "bit", main=True),
    ]
    if steps:
        rows += [
            figure("largest_step_percent", "Largest step", largest, "%", 2, main=True),
            figure("largest_step_at", "The largest step starts at", at, "cd/m²", 3),
            figure("times_visible", "Most visible step, in just visible steps", ratio, "", 1),
            figure("times_visible_at", "The most visible step starts at", seen_at, "cd/m²", 3),
        ]
    return tuple(rows)


def _display_figures(signal: str, peak: float, black: float) -> tuple[Figure, ...]:
    """What the display itself can show, whatever the bits."""
    rows = []
    if black * 1e9 > peak:  # beyond that no black can be told from none
        rows.append(figure("stops", "From black to white", math.log(peak / black) / math.log(2), "stops", 1))
    if signal == PQ:
        rows.append(figure("clip_percent", "Signal at which this display clips", 100 * pq_signal(peak), "%", 0))
    return tuple(rows)


def _working(depth: int, shades: int) -> tuple[Working, ...]:
    return (
        Working("Shades", "2 to the power of the bits", f"2^{depth}", number(shades, 0)),
        Working("Colours", "shades × shades × shades", f"{number(shades, 0)}³", number(shades**3, 0)),
        Working("Bits a pixel", "3 × bits a channel", f"3 × {depth}", f"{3 * depth} bit"),
    )


def _table(depth: int, signal: str, gamma: float, peak: float, black: float) -> Table:
    rows = []
    for bits in _DEPTHS:
        steps = _steps(bits, signal, gamma, peak, black)
        shades = 1 << bits
        largest = significant(max((size for _, size in steps), default=0.0))
        ratio = significant(_worst(steps)[1], 2)
        rows.append((f"{bits} bits", number(shades, 0), number(shades**3, 0), f"{largest} %", f"{ratio} ×"))
    return Table(
        title="The same display with other depths",
        columns=(Column("Depth"), Column("Shades", True), Column("Colours", True), Column("Largest step", True),
                 Column("Against just visible", True)),
        rows=tuple(rows),
        note="Up to 1 × no step shows. The eye is taken to have got used to that very brightness, its best case.",
        marked=(_DEPTHS.index(depth),),
    )  # fmt: skip


def _drawing(signal: str, depth: int, steps: list[tuple[float, float]]) -> Drawing:
    """Step against luminance, both on logarithmic axes, with what the eye can just see."""
    line = _thinned(steps)
    first, last = math.floor(log10(line[0][0])), math.ceil(log10(line[-1][0]))
    last = max(last, first + 1)
    least, most = -1, max(2, math.ceil(log10(max(size for _, size in line))))
    left, right, top, bottom = 46.0, WIDTH - 8.0, 24.0, 206.0

    def across(luminance: float) -> float:
        return left + (right - left) * (log10(luminance) - first) / (last - first)

    def up(size: float) -> float:
        share = (log10(size) - least) / (most - least)
        return bottom - (bottom - top) * min(max(share, 0.0), 1.0)

    sketch = Sketch(
        "Steps against what the eye can just see",
        f"At {depth} bits the steps go from {significant(line[0][1])} percent at {significant(line[0][0])} cd/m² to "
        f"{significant(line[-1][1])} percent at {significant(line[-1][0])} cd/m²; the just visible step goes from "
        f"{significant(threshold_percent(line[0][0]))} to {significant(threshold_percent(line[-1][0]))} percent.",
        284,
    )
    sketch.text(2, 13, "step, %", size=SMALL, ink="soft")
    for decade in range(least, most + 1):
        y = up(power(10, decade))
        sketch.line(left, y, right, y)
        sketch.text(left - 5, y + 4, significant(power(10, decade)), size=SMALL, anchor="end", ink="soft")
    for decade in range(first, last + 1):
        x = across(power(10, decade))
        sketch.line(x, bottom, x, bottom + 4, ink="soft")
        anchor = "end" if decade == last else "middle"
        sketch.text(x, bottom + 17, significant(power(10, decade)), size=SMALL, anchor=anchor, ink="soft")
    sketch.text(right, bottom + 34, "luminance, cd/m²", size=SMALL, anchor="end", ink="soft")
    quarters = [power(10, first + k / 4) for k in range(4 * (last - first) + 1)]
    sketch.path([(across(lum), up(threshold_percent(lum))) for lum in quarters], ink="soft", width=2, dash="4 3")
    sketch.path([(across(lum), up(size)) for lum, size in line], ink="mark", width=2.5)
    sketch.line(left, bottom, right, bottom, ink="ink")
    name = "HDR's PQ" if signal == PQ else "plain gamma"
    sketch.line(2, 254, 26, 254, ink="mark", width=2.5)
    sketch.text(34, 258, f"steps at {depth} bits, {name}", size=SMALL)
    sketch.line(2, 273, 26, 273, ink="soft", width=2, dash="4 3")
    sketch.text(34, 277, "just visible, by Barten's formula", size=SMALL)

    def for_card(width: float, height: float, size: float) -> Drawing:
        decades, heights = range(first, last + 1), range(least, most + 1)
        names = [significant(power(10, d)) for d in decades], [significant(power(10, d)) for d in heights]
        return plot_across(
            sketch.title,
            sketch.description,
            Axis("luminance, cd/m²", first, last, [float(d) for d in decades], names[0]),
            Axis("step, %", least, most, [float(d) for d in heights], names[1]),
            [
                Line("just visible", [(log10(v), log10(threshold_percent(v))) for v in quarters], "soft", "4 3"),
                Line(f"steps at {depth} bits, {name}", [(log10(v), log10(each)) for v, each in line], "mark", "", 2.5),
            ],
            room=(width, height, size),
        )

    return sketch.done(for_card)


def _notes(depth: int, signal: str, black: float) -> tuple[Note, ...]:
    notes = [
        Note(
            "What '32-bit' means in a system's list",
            "Not 32 bits of colour. It is 8 bits each for red, green and blue, 24 in all, and 8 more that are empty "
            "or hold transparency, because memory likes whole words. So '32-bit' there and '8 bits' here are the same.",
        ),
        Note(
            "Bits are not contrast, and not more colours to choose from",
            "More bits put more steps on the same stairs. They make neither black darker nor red redder; they make "
            "gradients smoother.",
        ),
    ]
    if signal == PQ:
        notes.append(
            Note(
                "Why HDR wants 10 bits",
                "PQ spreads its codes from nearly nothing to 10 000 cd/m², so 8 bits leave wide gaps and 10 is the "
                "least that is used. A display clips the codes above its own peak, so it shows fewer shades than the "
                "signal has. The full range of codes is counted here; limited range has about a seventh fewer.",
            )
        )
    elif depth == 8:
        notes.append(
            Note(
                "Why 8 bits often look fine all the same",
                "The formula takes an eye that is used to just this brightness and a gradient without any grain. "
                "Beside a bright window the eye sees far less in the dark, and noise or dithering breaks the steps up. "
                "Clean skies, games' fog and test ramps are where they show.",
            )
        )
    if depth == 6:
        notes.append(
            Note(
                "Six bits and dithering",
                "Some panels have six bits and switch quickly between two shades to show those between. It works, "
                "apart from a faint shimmer in dark areas.",
            )
        )
    if black < DARKEST:
        notes.append(
            Note(
                "The very darkest steps are left out",
                f"Below {number(DARKEST, 3)} cd/m², the black that the HDR standard asks of a reference display, "
                "steps are not judged: from nothing to something is an endless step.",
            )
        )
    return tuple(notes)


def _worked_for(given: Values) -> str:
    curve = "HDR's PQ" if given["signal"] == PQ else f"gamma {number(given['gamma'], 2)}"
    black = f"black of {number(given['black'], 4)}"
    return f"{given['depth']} bits with {curve}, white of {number(given['peak'], 0)} and {black} cd/m²"


calculator = Calculator(
    name="colour.depth",
    title="8, 10 or 12 bits a channel?",
    summary="Shades, colours and the size of the steps, held against what the eye can just see.",
    inputs=(
        Choice(
            key="depth",
            label="Bits a channel",
            names=DEPTH_NAMES,
            where="The driver's display page as colour depth, or the system's advanced display settings.",
            options=(Option("6", "6 bits", ("6 bit", "6-bit", "6bit")), *DEPTHS),
            default="8",
        ),
        Choice(
            key="signal",
            label="Signal",
            names=("curve",),
            where="The system's display settings: with HDR switched on it is PQ, else plain gamma.",
            options=(
                Option(GAMMA, "plain gamma (HDR off)", ("sdr", "hdr off", "standard range")),
                Option(PQ, "PQ (HDR on)", ("hdr", "hdr10", "hdr on", "pq")),
            ),
            default=GAMMA,
        ),
        Number(
            key="gamma",
            label="Gamma",
            where="The display's picture menu; 2.2 is usual. It does not count with PQ.",
            low=1,
            high=3,
            default=2.2,
            extra=True,
        ),
        Number(
            key="peak",
            label="White",
            names=("brightness", "peak brightness", "nits"),
            where="The data sheet, as brightness; for HDR as peak brightness.",
            low=1,
            high=10000,
            unit="cd/m²",
            default=250,
            also={"nits": 1, "nit": 1},
        ),
        Number(
            key="black",
            label="Black",
            names=("black level",),
            where="White divided by the contrast ratio of the data sheet; 0 where every pixel makes its own light.",
            low=0,
            high=1000,
            unit="cd/m²",
            default=0.25,
            also={"nits": 1, "nit": 1},
        ),
    ),
    compute=compute,
    version=2,
    worked_for=_worked_for,
    presets=(
        Preset("desk", "Monitor, 8 bits", {"depth": "8", "signal": GAMMA, "peak": 250, "black": 0.25}),
        Preset("hdr-10", "HDR, 10 bits", {"depth": "10", "signal": PQ, "peak": 1000, "black": 0.05}),
        Preset("hdr-8", "HDR sent with 8 bits", {"depth": "8", "signal": PQ, "peak": 1000, "black": 0.05}),
        Preset("hdr-12", "HDR, 12 bits, self-lit", {"depth": "12", "signal": PQ, "peak": 800, "black": 0}),
        Preset("hdr-dim", "HDR on a 400 cd/m² monitor", {"depth": "10", "signal": PQ, "peak": 400, "black": 0.3}),
        Preset("office", "Six-bit panel", {"depth": "6", "signal": GAMMA, "peak": 200, "black": 0.2}),
    ),
)
