"""What the calculators of motion show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, YES, Answer
from calculators.desk.card_declared import Card, Figures, ScreenDrawing, first_drawn, own_drawing
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, plural, significant
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.ladders import screen_fall
from calculators.desk.screen_drawings.marks import Pin, Row, Zone, narrow_or
from calculators.desk.screen_drawings.scale import round_end, screen_scale
from calculators.motion.formulas.listed_rates import listed

_LEAST_TOLD_MS = 0.1

# What each is about, in a line of a side panel.
TOPICS = {
    "hertz": "How many hertz?",
    "delay": "How late is it?",
    "film": "Film played evenly?",
    "adaptive": "Out of range?",
}


def hertz(given: Values, answer: Answer) -> Card:
    """Which of two refresh rates smears less, or whether the slower one will do, with both edges side by side."""
    figures = Figures(answer)
    gain, one, other = figures.number("gain_ms"), figures.ends("blur_px_a"), figures.ends("blur_px_b")
    if gain is None or one is None or other is None:
        return Card()
    slow, fast = (number(rate, 2) for rate in sorted((float(given["rate_a"]), float(given["rate_b"]))))
    line = f"for {_frames(given)} frames a second"
    drawn, won = own_drawing(answer), _won(gain)
    if not gain:
        return Card(hero="no difference", line="both refresh equally often", drawing=drawn, drawn_hero=True)
    if all(number(a, 1) == number(b, 1) for a, b in zip(one, other, strict=True)):
        hero, brings, beside = f"{slow} Hz will do", f"all that {fast} Hz adds", ""
    else:
        hero, brings, beside = f"{fast} Hz", "each refresh comes", f" than at {slow} Hz"
        line = _smears(given, *sorted((one, other)))
    return Card(
        hero=hero, line=line, drawing=drawn, figures=((brings, f"{won} sooner{beside}"),), question="How many hertz?"
    )


def _smears(given: Values, least: tuple[float, float], most: tuple[float, float]) -> str:
    """The smear at the faster rate and at the slower one, for so many frames; in words where they are ranges."""
    if least[0] != least[1] or most[0] != most[1]:
        return f"smears less at {_frames(given)} frames a second"
    fine, coarse = number(least[0], 1), number(most[0], 1)
    return f"at {_frames(given)} frames/s: {fine} px blur, not {coarse}"


def _frames(given: Values) -> str:
    """The frames a second that the machine makes, as one number or a range."""
    low, high = given["frames"].low, given["frames"].high
    return number(low, 2) if low == high else f"{number(low, 2)} to {number(high, 2)}"


def _won(gain: float) -> str:
    """How much shorter a refresh is; never told as none where there is something."""
    return f"{number(gain, 1)} ms" if gain >= _LEAST_TOLD_MS else f"under {number(_LEAST_TOLD_MS, 1)} ms"


_PARTS = (
    ("make_ms", "making the frame"), ("wait_ms", "waiting for the next frame"), ("queue_ms", "frames queued"),
    ("sync_ms", "waiting for refresh"), ("scan_ms", "drawing down"), ("display_ms", "the display"),
    ("response_ms", "pixels changing"), ("poll_ms", "mouse or keyboard"),
)  # fmt: skip


_ON_THE_WAY = (
    "mouse or keyboard", "waiting for the next frame", "making the frame", "frames queued", "waiting for refresh",
    "drawing down", "the display", "pixels changing",
)  # fmt: skip


def delay(given: Values, answer: Answer) -> Card:
    """The largest parts of the way from hand to picture, one after the other."""
    figures = Figures(answer)
    total = figures.ends("total_ms")
    if total is None:
        return Card()
    parts = []
    for key, label in _PARTS:
        ends = figures.ends(key)
        if ends and ends[1] > 0:
            parts.append((label, ends[1]))
    parts.sort(key=lambda part: -part[1])
    exact = total[0] == total[1]
    hero = f"about {number(total[1], 0)} ms" if exact else f"{number(total[0], 0)} to {number(total[1], 0)} ms"

    def fall(most: int) -> ScreenDrawing:
        shown = sorted(parts[:most], key=lambda part: _ON_THE_WAY.index(part[0]))  # one after the other, as they come
        mark, rest = shown.index(parts[0]), sum(value for _, value in parts[most:])
        spans = [*shown, ("all the rest", rest)] if rest > 0 else shown
        before = "" if exact else "up to "
        return screen_fall([(label, value, f"{before}{number(value, 1)} ms") for label, value in spans], mark=mark)

    # in a low room fewer parts by name: the largest is what the answer is about; in a narrow one what they come to,
    # which stands there without the hero
    name, most = parts[0]
    largest = Row(name, most, f"{'' if exact else 'up to '}{number(most, 1)} ms", True)
    in_all = screen_bars([largest, Row("from hand to picture", total[1], hero)])
    drawing = narrow_or(in_all, first_drawn(fall(3), fall(2)))
    return Card(hero=hero, line="from hand to picture, on average", drawing=drawing)


def film(given: Values, answer: Answer) -> Card:
    """How long the film's frames stand on this display."""
    figures = Figures(answer)
    values = figures.numbers("shortest_ms", "longest_ms")
    if not values:
        return Card(drawing=own_drawing(answer))
    short, long = (number(value, 1) for value in values)
    best, verdict = figures.text("best_rate_hz"), ""
    rate = f"{number(given['rate'], 3)} Hz" if figures.number("repeats") is None else "adaptive refresh"
    if short == long:
        hero, line = f"every {short} ms", "each frame stays equally long"
    else:
        hero, verdict = "not evenly", f"No, at {rate}"
        line = f"{number(values[0], 0)} or {number(values[1], 0)} ms"
        line += f"; {best} plays evenly" if best else " a frame"
    if answer.verdict and answer.verdict.word == YES:
        verdict = f"Yes, at {rate}" if figures.number("repeats") is None else ""
    likelier = listed(given["rate"])
    if likelier.cut_from is not None and figures.number("repeats") is None:
        line = f"at exactly {number(given['rate'], 2)} Hz; it is likelier {number(likelier.exact.value, 2)}"
    elif answer.verdict and answer.verdict.word == DEPENDS:
        slip = figures.text("slip_s")
        line = f"with a slip about every {slip}" if slip else "with a slip now and then"
    return Card(hero=hero, verdict=verdict, line=line, drawing=own_drawing(answer), drawn_hero=short == long)


def adaptive(given: Values, answer: Answer) -> Card:
    """The display's range, the frame rate, and the refresh that comes of it."""
    figures = Figures(answer)
    low, high, frames = (float(given[key]) for key in ("low", "high", "frames"))
    refresh, repeats = figures.number("refresh_hz"), figures.number("repeats")
    most = round_end(max(high, frames, refresh or 0))
    apart = refresh is not None and refresh != frames
    pins = [Pin(frames, f"{number(frames, 2)} frames a second", True, step=0 if apart else 1)]
    if refresh is not None and apart:
        often = f": each {_often(int(repeats))}" if repeats and repeats > 1 else ""
        pins.append(Pin(refresh, f"{number(refresh, 1)} Hz{often}", step=1))
    hero = f"shown at {significant(refresh, 4)} Hz" if refresh is not None else "tears or stutters"
    line = "each frame is shown as it comes"
    if repeats and repeats > 1:
        line = f"each frame is shown {_often(int(repeats))}"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "tears or waits, by the sync setting" if frames > high else "if driver and display play along"
    if answer.verdict and answer.verdict.word == "no":
        line = "no repeating brings it into the range"
    zones = [Zone(low, high, f"the range: {number(low, 2)} to {number(high, 2)} Hz")]
    scale = screen_scale(0, most, zones=zones, pins=pins, unit="Hz")
    verdict = ""
    if answer.verdict and answer.verdict.word == YES and repeats and repeats > 1:
        verdict = "Below, but it copes"
    return Card(hero=hero, verdict=verdict, line=line, drawing=scale, drawn_hero=refresh is None)


def _often(times: int) -> str:
    return "twice" if times == 2 else plural(times, "time")
