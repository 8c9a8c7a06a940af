"""What the calculators of motion show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import LONGEST_HERO, Card, Figures, ScreenDrawing, first_drawn, own_drawing
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, plural, significant
from calculators.desk.screen_drawings import (
    Beat,
    Pin,
    Row,
    Zone,
    narrow_or,
    round_end,
    screen_bars,
    screen_beats,
    screen_fall,
    screen_scale,
)
from calculators.motion.formulas.listed_rates import listed

_LEAST_TOLD_MS = 0.1

# What each is about, in a line of a side panel.
TOPICS = {
    "hertz": "How many hertz?",
    "delay": "How late is it?",
    "film": "Is film even?",
    "adaptive": "Out of range?",
}


def hertz(given: Values, answer: Answer) -> Card:
    """How far a moving edge smears at each of two refresh rates."""
    figures = Figures(answer)
    values = figures.numbers("gain_ms", "frame_ms_a", "frame_ms_b")
    if not values:
        return Card()
    gain, one, other = values
    a, b = (number(float(given[key]), 2) for key in ("rate_a", "rate_b"))
    if gain:
        won = f"{number(gain, 1)} ms" if gain >= _LEAST_TOLD_MS else f"under {number(_LEAST_TOLD_MS, 1)} ms"
        hero, line = f"{won} {'shorter' if one > other else 'longer'}", f"each refresh, from {a} to {b} Hz"
        apart = abs(round(one, 1) - round(other, 1))
        if gain >= _LEAST_TOLD_MS and abs(apart - round(gain, 1)) > 0.01 and len(f"about {hero}") <= LONGEST_HERO:
            hero = f"about {hero}"  # the two that are drawn differ by a tenth more or less, as they are rounded
    else:
        hero, line = "no difference", "both refresh equally often"
    rows = [
        Row(f"one refresh at {a} Hz", one, f"{number(one, 1)} ms"),
        Row(f"at {b} Hz", other, f"{number(other, 1)} ms", True),
    ]
    beats = [
        Beat(f"{a} Hz", f"{number(one, 1)} ms each", one),
        Beat(f"{b} Hz", f"{number(other, 1)} ms each", other, True),
    ]
    # the drawing shows what the hero says: how long each stands; how far an edge smears where that is alike
    drawn = first_drawn(screen_beats(beats), screen_bars(rows)) if gain else first_drawn(own_drawing(answer))
    return Card(hero=hero, line=line, drawing=drawn, drawn_hero=True)


_PARTS = (
    ("make_ms", "making the frame"), ("wait_ms", "waiting for it"), ("queue_ms", "frames queued"),
    ("sync_ms", "waiting for refresh"), ("scan_ms", "drawing down"), ("display_ms", "the display"),
    ("response_ms", "pixels changing"), ("poll_ms", "mouse or keyboard"),
)  # fmt: skip


_ON_THE_WAY = (
    "mouse or keyboard", "waiting for it", "making the frame", "frames queued", "waiting for refresh", "drawing down",
    "the display", "pixels changing",
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
    best = figures.text("best_rate_hz")
    if short == long:
        hero, line = f"every {short} ms", "each frame stands equally long"
    else:
        hero = f"{number(values[0], 0)} and {number(values[1], 0)} ms"
        line = f"frames stand unequally long; {best} is even" if best else "frames stand unequally long"
    likelier = listed(given["rate"])
    if likelier.cut_from is not None and figures.number("repeats") is None:
        line = f"at exactly {number(given['rate'], 2)} Hz; it is likelier {number(likelier.exact.value, 2)}"
    elif answer.verdict and answer.verdict.word == DEPENDS:
        slip = figures.text("slip_s")
        line = f"with a slip about every {slip}" if slip else "with a slip now and then"
    return Card(hero=hero, line=line, drawing=own_drawing(answer), drawn_hero=True)


def adaptive(given: Values, answer: Answer) -> Card:
    """The display's range, the frame rate, and the refresh that comes of it."""
    figures = Figures(answer)
    low, high, frames = (float(given[key]) for key in ("low", "high", "frames"))
    refresh, repeats = figures.number("refresh_hz"), figures.number("repeats")
    most = round_end(max(high, frames, refresh or 0))
    pins = [Pin(frames, f"{number(frames, 2)} frames a second", True)]
    if refresh is not None and refresh != frames:
        pins.append(Pin(refresh, f"shown at {number(refresh, 1)} Hz"))
    hero = f"shown at {significant(refresh, 4)} Hz" if refresh is not None else "tears or stutters"
    line = "each frame is shown as it comes"
    if repeats and repeats > 1:
        line = "each frame is shown " + ("twice" if repeats == 2 else plural(int(repeats), "time"))
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "tears or waits, by the sync setting" if frames > high else "if driver and display play along"
    if answer.verdict and answer.verdict.word == "no":
        line = "no repeating brings it into the range"
    zones = [Zone(low, high, f"the range: {number(low, 2)} to {number(high, 2)} Hz")]
    scale = screen_scale(0, most, zones=zones, pins=pins, unit="Hz")
    return Card(hero=hero, line=line, drawing=scale, drawn_hero=refresh is None)
