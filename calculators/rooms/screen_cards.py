"""What the calculators of rooms show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, NO, YES, Answer
from calculators.desk.card_declared import LONGEST_HERO, Card, Figures, Over, first_drawn
from calculators.desk.inputs import Values
from calculators.desk.numbers import number, significant, span
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.marks import Pin, Row, Zone, narrow_or
from calculators.desk.screen_drawings.scale import round_end, screen_scale
from calculators.desk.screen_drawings.strip import screen_strip
from calculators.rooms.lipsync.sync_tolerances import DETECTABLE
from calculators.rooms.lipsync.timeline_on_screen import Offset, screen_timeline
from calculators.rooms.paths.room_on_screen import NONE, RADIO, WIRE, screen_rooms
from calculators.rooms.streams.typical_streams import LIMITS_MS
from calculators.rooms.wording.cautions import OPEN_DOORS

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
    late = ""
    if ends and works:
        late = span(*ends, "ms", 0) if ends[1] > 1 else "at most 1 ms"
    line = f"{late} late, over {number(float(given['distance_m']), 1)} m" if late else ""
    depends = answer.verdict is not None and answer.verdict.word == DEPENDS
    hero, verdict = WAYS.get(best, "") if works else "", ""
    if depends and hero:
        # the verdict names the way: it stands in every form, the hero not
        hero, verdict = "test it first", f"Try {hero}"
        line = "does it get through the wall?" if _kind(best) == RADIO else "does it get through well?"
        if figures.text("least_link").startswith("DisplayPort"):  # of a cable that nothing else carries so far
            hero, line = "look at both ends", "if both ends have DisplayPort"
    return Card(
        hero=hero,
        verdict=verdict,
        line=line if works else "",
        drawing=screen_rooms(best if works and best else "no way found", _kind(best) if works else NONE, far),
        figures=(("late by", late),) if late and depends else (),
        # no wire is laid, so it is not a wire that the strip warns of
        caution=OPEN_DOORS.short if works and _kind(best) == RADIO else "",
        drawn_hero=True,
    )


# What is taken, in words that are short enough for a hero.
WAYS = {
    "a long copper cable": "a long copper cable",
    "a display cable with glass or booster": "an active cable",
    "an extender pair": "an extender pair",
    "a stream by wire": "a stream by wire",
    "a stream over the air": "a wireless stream",
    "a stream over the air from a wired sender": "a wireless stream",
    "a stream over mains wiring or coax": "mains or coax wiring",
    "a wireless pair": "a wireless pair",
    "a second small machine there": "a second machine",
}


def _kind(best: str) -> str:
    """How a way is drawn."""
    if "machine" in best:
        return NONE
    return RADIO if "air" in best.replace("pair", "") or "wireless" in best else WIRE


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
    limit = float(LIMITS_MS[given["use"]])
    most = round_end(max(high, limit * _BEYOND))  # what is too late has room on the scale
    # a range is a stretch of its own, a single value one from 0 on, whose words lead to its end
    zones = [Zone(low if low != high else 0, high, f"the picture: {hero}", "mark", to_end=low == high)]
    pins = [Pin(limit, f"{_BEARS[given['use']]}: {limit:g} ms at most")]
    figures: tuple[tuple[str, str], ...] = ()
    if room is not None:
        figures = (
            ("stream, at most", f"{significant(rate[1], 3)} Mb/s"),
            ("your network has", f"{significant(room, 3)} Mb/s"),
        )
    drawing = first_drawn(
        screen_scale(0, most, zones=zones, pins=pins, unit="ms"),
        screen_scale(0, most, zones=zones, pins=[Pin(limit, f"{limit:g} ms at most")], unit="ms"),
    )
    verdict = _says(results, answer, limit)
    if verdict == _FEW:
        line = "if your box can decode so much"
    return Card(
        hero=hero, line=line, verdict=verdict, drawing=drawing, figures=figures, question="How late is a stream?"
    )


_BEYOND = 1.6
_CLOSE = 0.9  # of the limit, from which on it is only just kept
_FEW = "Few boxes decode it"
_BEARS = {"film": "films", "desk": "desk work", "action": "fast games"}


def _says(results: Figures, answer: Answer, limit: float) -> str:
    """What 'perhaps' is about: whether it fits, or whether it is quick enough."""
    late, rate, room = results.ends("delay_ms"), results.ends("stream_mbps"), results.number("room_mbps")
    if answer.verdict and answer.verdict.word == YES and late:
        return "Just quick enough" if late[1] > limit * _CLOSE else "Quick enough"
    if not answer.verdict or answer.verdict.word != DEPENDS or not late or not rate or room is None:
        return ""
    if rate[1] > room:
        return "Perhaps it fits" if rate[0] <= room else "A tight fit"
    if late[1] > limit:
        return "Perhaps quick enough"
    return "Nearly quick enough" if answer.verdict.said().startswith("Nearly") else _FEW


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
        ("your data, in each packet", own, f"{number(own, 0)} bytes", "fill-1"),
        ("addresses and gaps", wire - own, f"{number(wire - own, 0)} bytes", "fill-3"),
    ]
    line = f"your own data, of {number(float(given['link_mbps']), 0)} Mb/s"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if link and numbers are as told"
    link = float(given["link_mbps"])
    # to the end where what fills the wire is the link's rate; else the share alone
    whole = abs(own / wire * link / best - 1) < _ROUNDED
    working = ("×", number(link, 0), "=", f"{significant(best, 4)} Mb/s") if whole else ("=", f"{number(share, 1)} %")
    rates = [
        Row("the link", link, f"{number(link, 0)} Mb/s"),
        Row("your data, at most", best, f"{hero.removeprefix('at most ')}", True),
    ]
    return Card(
        hero=hero, line=line, drawing=narrow_or(screen_bars(rates), screen_strip(parts)),
        working=(Over(number(own, 0), number(wire, 0)), *working),
    )  # fmt: skip


_ROUNDED = 0.0005  # four digits say the same


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
        hero = f"sound {number(abs(high), 0)} ms {side}" if round(high) else "in step"
    elif low * high >= 0:
        near, far = sorted((abs(low), abs(high)))
        hero = f"{number(near, 0)} to {number(far, 0)} ms {side}"
        if len(f"sound {hero}") <= LONGEST_HERO:
            hero = f"sound {hero}"
    else:
        hero = "early or late"
    most = round_end(max(-low, high, DETECTABLE.late_ms * 1.2))
    drawing = screen_timeline(
        Offset(low, high, f"sound: {hero.removeprefix('sound ')}"), (DETECTABLE.late_ms, DETECTABLE.early_ms), most
    )  # fmt: skip
    line = "the sound, against the lips"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "as far as your numbers are right"
    if low < 0 < high:
        line = f"{number(-low, 0)} ms late to {number(high, 0)} ms early"
    delay = figures.number("delay_sound_ms")
    verdict = ""
    if answer.verdict and answer.verdict.word == NO:
        verdict = "Out of step: delay sound" if delay else "Out of step"
    if delay and answer.verdict and answer.verdict.word != DEPENDS:
        line = f"the picture takes {number(delay, 0)} ms longer"
    return Card(hero=hero, line=line, verdict=verdict, drawing=drawing)
