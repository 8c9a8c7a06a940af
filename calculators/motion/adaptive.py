"""motion.adaptive: what an adaptive display does with a frame rate inside, below or above its range."""

from __future__ import annotations

from calculators.desk.answer import (
    COMMON_PRACTICE,
    DEPENDS,
    FROM_MEMORY,
    NO,
    YES,
    Answer,
    Caution,
    Figure,
    Note,
    Source,
    Verdict,
    Working,
    figure,
)
from calculators.desk.calculator import Calculator, Preset
from calculators.desk.errors import refuse
from calculators.desk.inputs import Values
from calculators.desk.numbers import number
from calculators.desk.svg import Drawing
from calculators.motion.drawings.range_band import range_band
from calculators.motion.formulas.adaptive_range import ABOVE, GAP, IN, REPEATED, stretches
from calculators.motion.formulas.cadence import repeats
from calculators.motion.wording.shared import CAP, PHOTOSENSITIVE, REPEATING, exact_notes, times_in_words
from calculators.trade.frame_rates import SOURCE, exact_rate, rate_input
from calculators.trade.ratio import Ratio

_CAP = Ratio(97, 100)  # of the top of the range: common practice, no source

SOURCES = (
    Source("Whole multiples of a frame rate inside a range: arithmetic"),
    REPEATING,
    CAP,
    Source("VESA DisplayPort Adaptive-Sync, HDMI 2.1 variable refresh rate", "that a range is declared", FROM_MEMORY),
    SOURCE,
    PHOTOSENSITIVE,
    Source("Flicker inside the range, and what brings it on", "", COMMON_PRACTICE),
)


class _Case:
    """The range, the frames, and what becomes of them."""

    def __init__(self, given: Values) -> None:
        self.low, self.high = exact_rate(given["low"]), exact_rate(given["high"])
        if self.high.below(self.low):
            raise refuse(
                "low",
                f"Bottom of the range is {number(given['low'], 3)} Hz, above its top of {number(given['high'], 3)} Hz: "
                "swap them, or correct one.",
            )
        self.frames = exact_rate(given["frames"])
        self.span = self.high.per(self.low)
        self.wide = Ratio(2).fits(self.span)  # the top is at least twice the bottom: repeating always finds a place
        self.times: int | None = 1
        self.refresh: Ratio | None = self.frames
        if self.high.below(self.frames):
            self.kind, self.refresh = ABOVE, self.high
        elif self.low.fits(self.frames):
            self.kind = IN
        else:
            self.times = repeats(self.frames, self.low, self.high)
            self.kind = GAP if self.times is None else REPEATED
            self.refresh = None if self.times is None else self.frames.times(self.times)
        self.frames_text = number(given["frames"], 3)
        self.cap = self.high.by(_CAP)
        self.room = self.low.fits(self.cap)  # else a cap below the top lies below the bottom, too
        self.range_text = f"{number(given['low'], 3)} to {number(given['high'], 3)} Hz"


def compute(given: Values) -> Answer:
    """One frame rate on one range, worked out."""
    case = _Case(given)
    return Answer(
        headline=_headline(case),
        verdict=_verdict(case),
        figures=_figures(case),
        working=_working(case),
        drawings=(_drawing(case),),
        notes=(*exact_notes(given["low"], given["high"], given["frames"]), *_notes(case)),
        cautions=(
            Caution(
                "person",
                "Flicker and flashing can bring on seizures in photosensitive people, and headaches in others. If a "
                "display flickers with adaptive refresh, switch it off until you have found the cause.",
                "Whoever knows of such a condition follows their doctor's advice, not this page.",
                first=True,
                short="Flicker can bring on seizures.",
                tag="Seizure risk",
            ),
        ),
        sources=SOURCES,
    )


def _headline(case: _Case) -> str:
    one = case.frames_text == "1"
    frames, lie = ("1 frame a second", "lies") if one else (f"{case.frames_text} frames a second", "lie")
    if case.kind == IN:
        return f"{frames} {lie} in the range of {case.range_text}: each is shown as it comes, at {case.frames_text} Hz."
    if case.refresh is None:
        fall = "falls" if one else "fall"
        between = case.range_text.replace(" to ", " and ")
        return f"{frames} {fall} into a gap: no whole multiple lies between {between}."
    refresh = number(case.refresh.value)
    if case.kind == ABOVE:
        return f"{frames} {lie} above the range of {case.range_text}: it stays at {refresh} Hz, and tears or waits."
    shown = times_in_words(case.times or 1)
    return f"{frames} {lie} below the range of {case.range_text}: each can be shown {shown}, at {refresh} Hz."


def _verdict(case: _Case) -> Verdict:
    if case.kind == IN:
        return Verdict(YES, "Every frame is shown as it comes.", "Inside the range.")
    if case.kind == ABOVE:
        return Verdict(DEPENDS, "The sync setting decides whether it tears or waits.", "Above the range.")
    if case.kind == GAP:
        return Verdict(NO, "It tears or stutters: no repeating brings it into the range.", "In a gap.")
    if case.wide:
        return Verdict(
            YES, f"Each frame is shown {times_in_words(case.times or 1)}, inside the range.", "Below, but bridged."
        )
    return Verdict(DEPENDS, "Possible by arithmetic; some drivers do not.", "Below, perhaps bridged.")


def _figures(case: _Case) -> tuple[Figure, ...]:
    figures = []
    if case.times is not None and case.refresh is not None:
        shown = "Each frame is shown at most" if case.kind == ABOVE else "Each frame is shown"
        figures += [
            figure("repeats", shown, case.times, "times" if case.times != 1 else "time", main=True),
            figure("refresh_hz", "The display refreshes at", case.refresh.value, "Hz", 3, main=True),
        ]
    figures.append(figure("span", "Top of the range over its bottom", case.span.value, "", 2, main=case.kind == GAP))
    if not case.wide:
        figures += [
            figure("gap_low_fps", "A gap begins at", case.high.times(1, 2).value, "frames a second", 3),
            figure("gap_high_fps", "It ends at", case.low.value, "frames a second", 3),
        ]
    if case.room:
        figures.append(figure("cap_fps", "Cap frames at about", case.cap.value, "frames a second", 0, main=True))
    return tuple(figures)


def _working(case: _Case) -> tuple[Working, ...]:
    low, high, frames = (number(r.value, 3) for r in (case.low, case.high, case.frames))
    lines = [Working("Width of the range", "top ÷ bottom", f"{high} ÷ {low}", number(case.span.value, 3))]
    if case.kind in (REPEATED, GAP):
        fewest = case.low.per(case.frames).ceiling()
        reached = number(case.frames.value * fewest, 3)
        fits = "inside" if case.times else f"above {high}: no multiple fits"
        lines += [
            Working("Fewest times that reach the bottom", "bottom ÷ frames, rounded up", f"{low} ÷ {frames}",
                    str(fewest)),
            Working("Refresh then", "times × frames", f"{fewest} × {frames}", f"{reached} Hz, {fits}"),
        ]  # fmt: skip
    elif case.kind == IN:
        lines.append(Working("Refresh", "as many as frames", f"{low} ≤ {frames} ≤ {high}", f"{frames} Hz"))
    else:
        lines.append(Working("Refresh", "the top of the range", f"{frames} > {high}", f"{high} Hz"))
    if not case.wide:
        lines.append(Working("Gap below the range", "from half the top to the bottom", f"{high} ÷ 2 to {low}",
                             f"{number(case.high.value / 2, 3)} to {low} frames a second"))  # fmt: skip
    cap = number(case.cap.value, 1)
    below = "" if case.room else f", below the bottom of {low}"
    lines.append(Working("Cap", "top − 3 %", f"{high} × 0.97", f"{cap}{below}"))
    return tuple(lines)


def _drawing(case: _Case) -> Drawing:
    parts = stretches(case.low, case.high)
    words = {IN: "in the range", REPEATED: "repeated", GAP: "in a gap", ABOVE: "above"}
    description = "; ".join(
        f"{number(s.low.value, 1)} to {number(s.high.value, 1)} {words[s.kind]}" for s in parts[-6:]
    )  # fmt: skip
    more = "Further gaps lie lower. " if len(parts) > 6 else ""
    return range_band(
        parts, case.frames.value, f"A band of frame rates a second: {description}. {more}Yours: {case.frames_text}."
    )  # fmt: skip


def _notes(case: _Case) -> tuple[Note, ...]:
    middle = 2 / (1 / case.low.value + 1 / case.high.value)
    notes = []
    if case.kind == GAP:
        times = case.low.per(case.frames).ceiling()
        notes.append(
            Note(
                "In a gap",
                f"Shown {times_in_words(times - 1)}, the frames come too slowly for the display; shown "
                f"{times_in_words(times)}, too fast. It falls back to a fixed rate, and tears or stutters. Raise the "
                "frames into the range, or cap them where repeating works: the drawing shows where.",
            )
        )
    aim = f", which is about {number(middle, 0)} Hz here" if case.wide else ""
    notes.append(
        Note(
            "Drivers may repeat more often",
            "The fewest repeats are worked out here. A driver may choose more: a public one in the Linux kernel aims "
            f"at the middle of the range's frame times{aim}.",
        )
    )
    if not case.wide:
        notes.append(
            Note(
                "A narrow range",
                f"The top is less than twice the bottom. Between {number(case.high.value / 2, 2)} and "
                f"{number(case.low.value, 2)} frames a second nothing fits. Such a driver as the public one does not "
                "repeat at all on a range like this, even where it would be possible.",
            )
        )
    cap = (
        f"Cap the frames about 3 % below the top, here at {number(case.cap.value, 0)}: common practice, no source."
        if case.room
        else "The usual cap, about 3 % below the top, would lie below this range's bottom: the range is too narrow for "
        "one, and a fixed rate does as well."
    )
    notes += [
        Note(
            "Flicker inside the range",
            "A display's brightness can follow its refresh: when the frame rate swings, as on loading screens and in "
            "menus, it flickers. Hold the frames steady with a cap, or narrow the range if display or driver allow it.",
        ),
        Note(
            "Brightness that jumps",
            "As the repeating starts and ends, the refresh doubles or halves at once, and brightness may jump. Keep "
            "the frames on one side of the bottom, by a cap or by lower picture quality.",
        ),
        Note(
            "Above the range, and where to cap",
            "Above its range a display cannot follow any more. With sync off the picture tears; with sync on finished "
            f"frames wait, and delay grows. {cap}",
        ),
    ]
    return tuple(notes)


def worked_for(given: Values) -> str:
    """The frames and the range."""
    return (
        f"{number(given['frames'], 3)} frames a second on an adaptive range of {number(given['low'], 3)} to "
        f"{number(given['high'], 3)} Hz"
    )


_WHERE = "The display's data sheet or its menu, as the range of adaptive sync or variable refresh."

calculator = Calculator(
    name="motion.adaptive",
    version=2,
    title="What if my frame rate leaves the display's adaptive range?",
    summary="A frame rate against an adaptive range: shown as it comes, repeated, in a gap, or above.",
    inputs=(
        rate_input(key="low", label="Bottom of the range", where=_WHERE, default=48, low=1,
                   names=("range from", "vrr from", "minimum", "starts at", "begins at")),
        rate_input(key="high", label="Top of the range", where=_WHERE, default=144, low=1,
                   names=("range to", "vrr to", "maximum", "tops out at", "ends at")),
        rate_input(
            key="frames",
            label="Frames the machine makes",
            where="A counter in the game or in the card's driver, read with adaptive refresh on.",
            low=1,
            high=2000,
            unit="frames a second",
            default=40,
            names=("fps", "frame rate", "game", "game at", "game runs at", "sits at", "dips to", "drops to", "down to",
                   "hovers around", "i do", "i get"),
        ),
    ),
    compute=compute,
    presets=(
        Preset("below", "40 frames on 48 to 144 Hz", {"low": 48, "high": 144, "frames": 40}),
        Preset("inside", "90 frames on 48 to 144 Hz", {"low": 48, "high": 144, "frames": 90}),
        Preset("above", "200 frames on 48 to 144 Hz", {"low": 48, "high": 144, "frames": 200}),
        Preset("narrow", "45 frames on 48 to 75 Hz", {"low": 48, "high": 75, "frames": 45}),
        Preset("perhaps", "30 frames on 48 to 75 Hz", {"low": 48, "high": 75, "frames": 30}),
    ),
    worked_for=worked_for,
)  # fmt: skip
