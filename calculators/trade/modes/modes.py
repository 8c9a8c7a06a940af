"""
One mode with its blanking: totals and pixel clock, by whichever rule the display and the card use.

Knows the rules by name and the words for refusing a mode; the numbers come from cvt.py and cta_861.py.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.desk.answer import FROM_MEMORY, LIBRARY, Source
from calculators.desk.errors import InputErrors, Problem, refuse
from calculators.desk.inputs import Choice, Input, NamedValue, Number, Option
from calculators.desk.numbers import listed, number
from calculators.trade.frame_rates import exact_rate, rate_input
from calculators.trade.modes.cta_861 import Format, find_format, nearest_formats, progressive
from calculators.trade.modes.cvt import cvt
from calculators.trade.ratio import Ratio

BLANKING_OPTIONS = (
    Option("cvt", "CVT, full blanking"),
    Option("cvt-rb", "CVT, reduced blanking", ("reduced blanking", "cvt-rb")),
    Option("cvt-rb2", "CVT, second reduced blanking", ("cvt-rb2", "cvt-rb v2", "reduced blanking v2")),
    Option("cta", "CTA-861, as televisions use", ("cta-861", "cea-861")),
)

USUAL = "usual"  # the viewer is not sure which blanking is in use
OWN = "own"  # totals that the viewer typed

BLANKING_WORDS = {
    "cvt": "CVT's full blanking",
    "cvt-rb": "CVT's first reduced blanking",
    "cvt-rb2": "CVT's second reduced blanking",
    "cta": "the timing of CTA-861",
    OWN: "the totals that were typed",
}

SOURCES = {
    "cvt": Source("VESA CVT 1.2", "computation of timing parameters", FROM_MEMORY),
    "cta": Source(
        "CTA-861-I",
        "tables of detailed timing, VIC 1 to 127 and 193 to 219, as the video drivers' own maintainers hold them",
        LIBRARY,
    ),
    OWN: Source("Arithmetic: totals times refresh"),
}


@dataclass(frozen=True, slots=True)
class Mode:
    """
    A mode with its blanking. clock: pixels a second, exact. by: one of BLANKING_WORDS.

    width: active pixels that the clock was computed for; CVT's older two blankings round it down to eights.
    """

    width: int
    height: int
    h_total: int
    v_total: int
    clock: Ratio
    by: str
    format: Format | None = None

    @property
    def clock_mhz(self) -> float:
        """Pixel clock. [MHz]"""
        return self.clock.over / (self.clock.under * 1_000_000)

    @property
    def refresh(self) -> Ratio:
        """Frames a second that the clock really gives. [Hz]"""
        return self.clock.times(1, self.h_total * self.v_total)

    @property
    def active(self) -> Ratio:
        """Visible pixels a second. [px/s]"""
        return self.clock.times(self.width * self.height, self.h_total * self.v_total)

    def say(self) -> str:
        """Such as '3840×2160 at 59.94 Hz'."""
        return f"{self.width}×{self.height} at {number(self.refresh.value, 2)} Hz"


def mode(
    width: int, height: int, refresh_hz: float, blanking: str,
    h_total: int | None = None, v_total: int | None = None,
) -> Mode:  # fmt: skip
    """
    The mode with these numbers.

    Args:
        width: Active pixels a line. [px]
        height: Active lines. [px]
        refresh_hz: Frames a second, as typed; 59.94 stands for 60000/1001. [Hz]
        blanking: cvt, cvt-rb, cvt-rb2 or cta; set aside where totals are given. [text]
        h_total: Pixels a line with blanking, where a display has its own. [px]
        v_total: Lines with blanking. [lines]

    Returns:
        The mode. [object]

    Raises:
        InputErrors: Only one total is given, a total is below the active size, or CTA-861 has no such format.

    Source:
        VESA CVT 1.2 and CTA-861-I; see cvt.py and cta_861.py.

    Example:
        >>> mode(1920, 1080, 60, "cta").clock_mhz
        148.5
    """
    if h_total is not None or v_total is not None:
        return _own(width, height, refresh_hz, h_total, v_total)
    refresh = exact_rate(refresh_hz)
    if blanking != "cta":
        timing = cvt(width, height, refresh, blanking)
        clock = Ratio(timing.clock_khz * 1000)
        return Mode(timing.width, timing.height, timing.h_total, timing.v_total, clock, blanking)
    standard = find_format(width, height, refresh_hz)
    if standard is None:
        raise _not_listed(width, height, refresh_hz)
    entry, dropped = standard
    clock = Ratio(entry.clock_khz * 1_000_000, 1001) if dropped else Ratio(entry.clock_khz * 1000)
    return Mode(width, height, entry.h_total, entry.v_total, clock, "cta", entry)


def _own(width: int, height: int, refresh_hz: float, h_total: int | None, v_total: int | None) -> Mode:
    problems = []
    for key, total, active, words in (
        ("h_total", h_total, width, "the width"),
        ("v_total", v_total, height, "the height"),
    ):
        if total is None:
            problems.append(Problem(key, "Give both totals, or neither: one alone does not make a timing."))
        elif total < active:
            problems.append(Problem(key, f"A total counts the blanking too: it cannot be below {words}, {active}."))
    if problems or h_total is None or v_total is None:
        raise InputErrors(problems)
    clock = exact_rate(refresh_hz).times(h_total * v_total)
    return Mode(width, height, h_total, v_total, clock, OWN)


def _not_listed(width: int, height: int, refresh_hz: float) -> InputErrors:
    near = nearest_formats(width, height, refresh_hz)
    asked = f"{width}×{height} at {number(refresh_hz, 3)}"
    first = near[0].say()
    others = f" (then {listed([f.say() for f in near[1:]])})" if len(near) > 1 else ""
    size_known = any((f.width, f.height) == (width, height) for f in progressive())
    return refuse(
        "refresh" if size_known else "width",
        f"CTA-861 lists no progressive {asked}; the nearest listed format is {first}{others}. "
        "Choose one of those, or a CVT blanking: computer monitors mostly use the reduced ones.",
    )


# Sizes by the names that people use. '2k' is left out: some mean 1920 pixels by it, some 2048, some 2560.
_NAMED_SIZES: tuple[tuple[int, int, str, tuple[str, ...]], ...] = (
    (1920, 1080, "1080p", ("1080p", "full hd", "fullhd", "fhd")),
    (2560, 1440, "1440p", ("1440p", "qhd", "wqhd")),
    (3840, 2160, "4K", ("4k", "uhd", "2160p", "ultra hd")),
    (7680, 4320, "8K", ("8k", "4320p")),
)


def _named(side: int) -> tuple[NamedValue, ...]:
    """The sizes' widths or heights (side 0 or 1), each once."""
    by_value: dict[int, NamedValue] = {}
    for width, height, label, names in _NAMED_SIZES:
        value = (width, height)[side]
        by_value.setdefault(value, NamedValue(value, f"{label} ({value})", names))
    return tuple(by_value.values())


# Below this pixel clock there is no mode that a display would take: CTA-861's slowest, 640×480, runs at 25.175 MHz.
# Common practice, no source.
LEAST_CLOCK_MHZ = 5


def too_slow(made: Mode) -> str:
    """What to say where a mode's clock is below any display's; empty where it is not."""
    if made.clock_mhz >= LEAST_CLOCK_MHZ:
        return ""
    return (
        f"{made.width}×{made.height} so slowly has a pixel clock of {number(made.clock_mhz, 3)} MHz; no display takes "
        f"less than about {LEAST_CLOCK_MHZ} MHz. Give a larger size or a higher refresh."
    )


def mode_inputs(group: str = "") -> tuple[Input, ...]:
    """The three inputs by which a viewer names a mode."""
    return (
        Number(
            key="width",
            group=group,
            label="Width",
            names=("resolution", "horizontal resolution"),
            where="The display's own menu or data sheet; the system's display settings show what is set now.",
            low=64,
            high=16384,
            unit="px",
            default=3840,
            whole=True,
            also={"pixels": 1, "pixel": 1},
            named=_named(0),
        ),
        Number(
            key="height",
            group=group,
            label="Height",
            names=("vertical resolution", "lines"),
            where="The second number of the resolution, such as the 2160 in 3840×2160.",
            low=64,
            high=16384,
            unit="px",
            default=2160,
            whole=True,
            also={"pixels": 1, "pixel": 1, "lines": 1, "p": 1},
            named=_named(1),
        ),
        rate_input(
            key="refresh",
            group=group,
            label="Refresh",
            names=("refresh rate", "hz", "hertz", "fps"),
            where="The system's advanced display settings, which also list what else is offered.",
            default=60,
        ),
    )


def blanking_inputs(key: str, default: str, group: str = "") -> tuple[Input, ...]:
    """The inputs by which a viewer names the blanking, under the key that the calculator uses."""
    unsure = (Option(USUAL, "not sure: what is usual"),) if default == USUAL else ()
    return (
        Choice(
            key=key,
            group=group,
            label="Blanking",
            names=("blanking", "timing"),
            where=(
                "Television sizes over HDMI use CTA-861's timing; monitors over DisplayPort mostly a reduced "
                "blanking. A custom-mode page of the driver, or the display's own menu, may show the totals."
            ),
            options=(*unsure, *BLANKING_OPTIONS),
            default=default,
        ),
        Number(
            key="h_total",
            group=group,
            label="Total pixels a line",
            where="The detailed timing in the driver's custom-mode page, or the display's declaration.",
            low=64,
            high=32768,
            unit="px",
            whole=True,
            optional=True,
            extra=True,
            note="only where the display has a blanking of its own; give both totals",
        ),
        Number(
            key="v_total",
            group=group,
            label="Total lines",
            where="The detailed timing in the driver's custom-mode page, or the display's declaration.",
            low=64,
            high=32768,
            unit="lines",
            whole=True,
            optional=True,
            extra=True,
        ),
    )
