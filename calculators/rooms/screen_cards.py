"""What the calculators of rooms show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from dataclasses import replace

from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import Card, Figures, Over, first_drawn
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, significant
from calculators.desk.screen_drawings import (
    Pin,
    Row,
    Zone,
    narrow_or,
    round_end,
    screen_bars,
    screen_chain,
    screen_scale,
    screen_strip,
)
from calculators.rooms.lipsync.sync_tolerances import DETECTABLE

# What each is about, in a line of a side panel.
TOPICS = {
    "ways": "To another room?",
    "stream": "How late is it?",
    "network": "How much arrives?",
    "lips": "Why are lips late?",
}


def ways(given: Values, answer: Answer) -> Card:
    """From the computer through the wall to the display, by the best way."""
    figures = Figures(answer)
    best = figures.text("best")
    ends = figures.ends("delay_ms")
    far = f"{number(float(given['distance_m']), 1)} m away"
    works = answer.verdict is None or answer.verdict.word != "no"
    nodes = [("computer", "the computer", ""), ("cable", best if works and best else "no way found", "")]
    nodes.append(("display", "other room", far))
    hero = ""
    if ends and works:
        hero = (
            f"{number(ends[0], 0)} to {number(ends[1], 0)} ms late"
            if ends[0] != ends[1]
            else f"{number(ends[1], 0)} ms late"
        )
        hero = "at most 1 ms late" if ends[1] <= 1 else hero
    line = f"over {number(float(given['distance_m']), 1)} m, the best way"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if a trial shows that it carries"
        if figures.text("least_link").startswith("DisplayPort"):  # of a cable that nothing else carries so far
            line = "if both ends have DisplayPort"
    return Card(
        hero=hero,
        line=line if works else "",
        drawing=screen_chain(nodes, mark=1 if works else -1, broken=-1 if works else 1),
        drawn_hero=True,
    )


def stream(given: Values, answer: Answer) -> Card:
    """How late the picture comes, and what the stream takes of the network."""
    results = Figures(answer)
    late, rate = results.ends("delay_ms"), results.ends("stream_mbps")
    room = results.number("room_mbps")
    if late is None or rate is None:
        return Card()
    low, high = late
    hero = f"{number(low, 0)} to {number(high, 0)} ms late" if low != high else f"{number(high, 0)} ms late"
    line = "from one screen to the other"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if network and boxes are quick ones"
    most = next((top for top in (50.0, 100.0, 250.0, 500.0, 1000.0) if high <= top), high)
    zones = [Zone(low if low != high else 0, high, f"the picture: {hero}", "mark")]
    figures: tuple[tuple[str, str], ...] = ()
    if room is not None:
        figures = (
            ("stream, at most", f"{significant(rate[1], 3)} Mb/s"),
            ("room for it", f"{significant(room, 3)} Mb/s"),
        )
    return Card(hero=hero, line=line, drawing=screen_scale(0, most, zones=zones, unit="ms"), figures=figures)


def network(given: Values, answer: Answer) -> Card:
    """One full frame on the wire: your own data and what travels with them; what was measured beside what can be."""
    figures = Figures(answer)
    values = figures.numbers("goodput_mbps", "payload_bytes", "wire_bytes", "efficiency_percent")
    if not values:
        return Card()
    best, own, wire, share = values
    measured = given.get("measured_mbps")
    if measured is not None:
        return _measured(answer, measured, best)
    hero = f"at most {significant(best, 4)} Mb/s" if best < 1e5 else f"{significant(best, 3)} Mb/s"
    if len(hero) > 20:
        hero = f"{significant(best, 3)} Mb/s"
    parts = [
        ("your own data", own, f"{number(own, 0)} bytes", "fill-1"),
        ("headers and gaps", wire - own, f"{number(wire - own, 0)} bytes", "fill-3"),
    ]
    line = f"your own data, of {number(float(given['link_mbps']), 0)} Mb/s"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if link and numbers are as told"
    link = float(given["link_mbps"])
    rates = [
        Row("the link", link, f"{number(link, 0)} Mb/s"),
        Row("your data, at most", best, f"{hero.removeprefix('at most ')}", True),
    ]
    return Card(
        hero=hero, line=line, drawing=narrow_or(screen_bars(rates), screen_strip(parts)),
        working=(Over(number(own, 0), number(wire, 0)), "=", f"{number(share, 1)} %"),
    )  # fmt: skip


def _measured(answer: Answer, measured: float, best: float) -> Card:
    """What arrived, of what can arrive: the verdict is about that and not about the best."""
    shown, most = significant(measured, 3), significant(best, 3)
    line = "measured, of what the link can carry"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if link and numbers are as told"
    parts = [("you measured", min(measured, best), f"{shown} Mb/s", "fill-1")]
    if measured < best:
        parts.append(("what is missing", best - measured, f"{significant(best - measured, 3)} Mb/s", "fill-3"))
    hero = f"{shown} of {most} Mb/s"
    rates = [Row("you measured", measured, f"{shown} Mb/s", True), Row("the link can carry", best, f"{most} Mb/s")]
    drawing = narrow_or(screen_bars(rates), screen_strip(parts))
    return Card(hero=hero if len(hero) <= 20 else f"{shown} Mb/s", line=line, drawing=drawing)


def lips(given: Values, answer: Answer) -> Card:
    """When picture and sound arrive, to one scale of time."""
    figures = Figures(answer)
    ends, air = figures.ends("offset_ms"), figures.number("air_ms")
    if ends is None or air is None:
        return Card()
    low, high = ends
    side = "early" if low >= 0 else "late"
    if low == high:
        hero = f"{number(abs(high), 0)} ms {side}" if round(high) else "in step"
    elif low * high >= 0:
        near, far = sorted((abs(low), abs(high)))
        hero = f"{number(near, 0)} to {number(far, 0)} ms {side}"
    else:
        hero = "early or late"
    least, most = -round_end(max(-low, 150.0)), round_end(max(high, 150.0))
    end_labels = (f"{number(-least, 0)} ms late", f"{number(most, 0)} ms early")
    label = f"your sound: {hero}"
    zones = [Zone(low, high, label, "mark")] if low != high else []
    pins = [Pin(0, "the lips"), *([Pin(high, label, True)] if low == high else [])]
    borne = Zone(-DETECTABLE.late_ms, DETECTABLE.early_ms, "hardly noticed", "fill-2")
    line = "the sound, against the lips"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "as far as your numbers are right"
    if low < 0 < high:
        line = f"{number(-low, 0)} ms late to {number(high, 0)} ms early"
    delay = figures.number("delay_sound_ms")
    if delay and answer.verdict and answer.verdict.word != DEPENDS:
        line = f"delay the sound by {number(delay, 0)} ms"
    drawn = (
        screen_scale(least, most, zones=[borne, *zones], pins=pins, ends=end_labels),
        screen_scale(least, most, zones=[replace(borne, label=""), *zones], pins=pins, ends=end_labels),
    )
    return Card(hero=hero, line=line, drawing=first_drawn(*drawn))
