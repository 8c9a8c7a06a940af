"""What the calculators of work show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import LONGEST_HERO, Card, Equation, Figures, Over, first_drawn
from calculators.desk.inputs import Values
from calculators.desk.numbers import listed, number, plural, settled, significant
from calculators.desk.screen_drawings import Pin, Row, Zone, round_end, screen_bars, screen_levels, screen_scale
from calculators.work.formulas.footage_rates import CALM_SHARE
from calculators.work.formulas.lane_rates import lane_gb_s
from calculators.work.gain import options_told
from calculators.work.lanes import CARD_ENOUGH_GB_S

# What each is about, in a line of a side panel.
TOPICS = {
    "gain": "What to buy first?",
    "balance": "Which part counts?",
    "footage": "How fast a disk?",
    "scene": "Does the scene fit?",
    "lanes": "Enough lanes?",
}


def gain(given: Values, answer: Answer) -> Card:
    """A day's waits now and with each of the two options."""
    figures = Figures(answer)
    now = figures.number("now_min")
    if now is None:
        return Card()
    ways = [
        (now - after, figures.label(key).removeprefix("With ").removeprefix("the "), after)
        for key in ("a_min", "b_min")
        if (after := figures.number(key)) is not None
    ]
    most = max((saved for saved, _, _ in ways), default=0.0)
    memory_first = given["memory_fills"] == "yes"  # then no option stands out, since nothing is ranked
    if not options_told(given) and not memory_first:
        # nothing is drawn of what nobody has told: three like bars would say that neither helps
        rows = [Row("you wait now", now, f"{number(now, 0)} min", step=0)]
        fewer = [*rows, Row("either option", 0.0, "?", step=0)]
        rows += [Row(name, 0.0, "?", step=0) for _, name, _ in ways]
        drawing = first_drawn(screen_bars(rows), screen_bars(fewer))
        return Card(verdict="Can't say yet", line="tell us what each part would save", drawing=drawing)
    rows = [Row("you wait now", now, f"{number(now, 0)} min")]
    rows += [
        Row(name, after, f"{number(after, 0)} min", saved == most > 0 and not memory_first)
        for saved, name, after in ways
    ]
    if memory_first:
        return Card(
            hero="memory first", verdict="Neither of them yet", line="full memory looks like waiting for the disk",
            drawing=screen_bars(rows), drawn_hero=True,
        )  # fmt: skip
    hero = f"{number(most, 0)} min saved" if most >= 1 else "under 1 min saved" if most > 0 else "no time saved"
    verdict = ""
    line = "of the waits of one day" if most > 0 else "by either of the two options"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if price is no matter"
        if given["memory_fills"] == "unsure":
            line = "if memory never fills up"
            best = [name for saved, name, _ in ways if saved == most > 0]
            verdict = f"Perhaps the {best[0]}" if len(best) == 1 else "Perhaps either" if best else ""
    return Card(hero=hero, line=line, verdict=verdict, drawing=screen_bars(rows), drawn_hero=True)


_PARTS = (
    ("one_core", "one core alone"), ("all_cores", "all cores"), ("card", "the card"), ("card_memory", "card's memory"),
    ("memory", "main memory"), ("disk", "the disk"),
)  # fmt: skip
_COUNTS = ("no", "one", "two", "three", "four", "five", "six")
# What is taken first, for the hero.
_SHORT = {
    "one_core": "fast cores", "all_cores": "many cores", "card": "graphics card", "card_memory": "card's memory",
    "memory": "main memory", "disk": "disk",
}  # fmt: skip
_LEVELS = {"little": 1, "some": 2, "much": 3}


def balance(given: Values, answer: Answer) -> Card:
    """How much a week asks of each part."""
    figures = Figures(answer)
    rows = [(label, _LEVELS.get(figures.text(key), 0)) for key, label in _PARTS]
    most = [_SHORT.get(key, label) for key, label in _PARTS if _LEVELS.get(figures.text(key), 0) == 3]
    hero, line = f"{listed(most)} first", "your week loads it most" if len(most) == 1 else "your week loads both most"
    if most == [_SHORT["card"], _SHORT["card_memory"]]:
        hero, line = f"{_SHORT['card']} first", "your week loads it and its memory most"
    elif not most:
        hero, line = "nothing much", "your week loads no part much"
    elif len(most) > 2 or len(hero) > LONGEST_HERO:
        hero, line = f"{_COUNTS[len(most)]} parts", "your week loads these most"
    verdict = {"no": "Not alike", DEPENDS: "Nearly alike"}
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if the hours stay as you told"
    return Card(
        hero=hero, line=line, verdict=verdict.get(answer.verdict.word, "") if answer.verdict else "",
        drawing=screen_levels(rows, 3, ("little", "much")), drawn_hero=True,
        question="3D and editing: which part counts?",
    )  # fmt: skip


def footage(given: Values, answer: Answer) -> Card:
    """What the footage needs against what the disk gives."""
    figures = Figures(answer)
    values = figures.ends("all_mb_s")
    if values is None:
        return Card()
    need = values[1]
    if given.get("disk_mb_s") is None:
        plain = given.get("mbps") is None and float(given["ratio"]) == 1
        named = "your footage, uncompressed" if plain else "your footage"
        rows = [Row(named, need, f"{significant(need, 3)} MB/s", True)]
        raw = figures.number("raw_mb_s")
        if raw and settled(raw) != settled(need):
            rows.append(Row("without compression", raw, f"{significant(raw, 3)} MB/s"))
        if answer.verdict:  # one asks about a decoder
            hero, line = _profile_asked(given, figures)
            return Card(hero=hero, line=line, drawing=screen_bars(rows))
        rows += [Row(f"{name}, at most", most, f"{significant(most, 3)} MB/s", step=0) for name, most in _LINKS]
        line, working = _footage_named(given, need)
        return Card(
            hero=f"{significant(need, 3)} MB/s", line=line, drawing=screen_bars(rows), working=working,
            question=_HOW_FAST,
        )  # fmt: skip
    disk = float(given["disk_mb_s"])
    calm = disk * CALM_SHARE.over / CALM_SHARE.under
    rows = [
        Row("your footage", need, f"{significant(need, 3)} MB/s", True),
        Row(f"best kept below {CALM_SHARE.over * 100 // CALM_SHARE.under} %", calm, f"{significant(calm, 3)} MB/s"),
        Row("the disk", disk, f"{significant(disk, 3)} MB/s"),
    ]
    line = f"of the disk's {significant(disk, 3)} MB/s"
    if need > disk:
        line = f"are needed, the disk gives {significant(disk, 3)} MB/s"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if nothing else needs the disk"
    return Card(hero=f"{significant(need, 3)} MB/s", line=line, drawing=screen_bars(rows), question=_HOW_FAST)


_HOW_FAST = "How fast a disk does my footage need?"
# What a disk's own link carries at most. Serial ATA revision 3: 6 Gb/s, of which 8 bits in 10 are data; from memory.
_ATA_MB_S = 6000 * 8 / 10 / 8
_LANES, _GENERATION = 4, 3  # of usual disks on lanes; their rate is that of work.lanes
_LINKS = (
    ("serial ATA", _ATA_MB_S),
    (f"{_LANES} lanes, generation {_GENERATION}", lane_gb_s(_GENERATION) * 1000 * _LANES),
)


def _footage_named(given: Values, need: float) -> tuple[str, Equation]:
    """Which footage it is that needs so much, and the sum where that is its pixels, uncompressed."""
    if int(given["streams"]) > 1:
        return f"{int(given['streams'])} such streams at once need", ()
    if given.get("mbps") is not None:
        return f"at {significant(float(given['mbps']), 3)} Mb/s the disk must give", ()
    size, rate = f"{given['width']}×{given['height']}", float(given["rate"])
    how = "uncompressed" if float(given["ratio"]) == 1 else f"{significant(float(given['ratio']), 3)}:1"
    line = f"{size} at {number(rate, 3)}, {how}, needs"
    if how != "uncompressed":
        return line, ()
    each = need * 1e6 / (given["width"] * given["height"] * rate)  # bytes a pixel
    return line, (f"{given['width']} × {given['height']} × {number(rate, 3)} × {significant(each, 3)} bytes", "=",
                  f"{significant(need, 3)} MB/s")  # fmt: skip


def _profile_asked(given: Values, figures: Figures) -> tuple[str, str]:
    """What the decoder's list must name, and the condition."""
    if "chroma" in given.assumed or "bits" in given.assumed:
        return "sampling and depth", "if the decoder's list names both"
    profile = figures.text(f"profile_{given['codec']}")
    if not profile:
        return "no profile", "holds this sampling and depth"
    if len(profile) > LONGEST_HERO:
        return "a rare profile", f"if the list names {profile}"
    return profile, "if the decoder's list names this profile"


def scene(given: Values, answer: Answer) -> Card:
    """What the scene takes of the card's memory."""
    figures = Figures(answer)
    ends = figures.numbers("low_gb", "high_gb")
    if ends and figures.number("room_gb") is None:
        return _scene_alone(given, *ends)
    values = figures.numbers("low_gb", "high_gb", "room_gb")
    if not values:
        return Card()
    low, high, room = values
    if (peak := figures.number("peak_full_gb")) is not None:
        return _measured_scene(answer, peak, float(given["card_gb"]) - float(given["taken_gb"]))
    size_text = f"{significant(low, 2)} to {significant(high, 2)} GB"
    hero = f"about {size_text}" if len(size_text) <= 14 else size_text
    line = f"of {significant(room, 2)} GB that the card has left"
    if high > room:
        line = f"the card has {significant(room, 2)} GB left"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if little else fills the card's memory"
    zones = [Zone(0, low, "", "fill-1"), Zone(low, high, f"the scene: {size_text}", "fill-3")]
    pins = [Pin(room, f"left on the card: {significant(room, 2)} GB")]
    return Card(
        hero=hero, line=line, drawing=screen_scale(0, round_end(max(room, high)), zones=zones, pins=pins, unit="GB")
    )


def _scene_alone(given: Values, low: float, high: float) -> Card:
    """What the scene takes, and the question that is open: how much the card has."""
    size_text = f"{significant(low, 2)} to {significant(high, 2)} GB"
    hero = f"about {size_text}"
    whose = "our example scene" if "textures" in given.assumed else "your scene"
    zones = [Zone(0, low, "", "fill-1"), Zone(low, high, f"the scene: {size_text}", "fill-3")]
    return Card(
        hero=hero if len(hero) <= LONGEST_HERO else size_text,
        line=f"tell us your card; {whose} takes",
        drawing=screen_scale(0, round_end(high), zones=zones, unit="GB"),
        question="How much memory does the scene take?",
        topic="What a scene takes",
    )


def _measured_scene(answer: Answer, peak: float, left: float) -> Card:
    """The peak that two renders foretell, against what the card has left, both as programs count them."""
    line = f"of {significant(left, 2)} GB that the card has left"
    if peak > left:
        line = f"the card has {significant(left, 2)} GB left"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if little else fills the card's memory"
    zones = [Zone(0, peak, f"the scene, measured: {significant(peak, 2)} GB", "fill-3")]
    pins = [Pin(left, f"left on the card: {significant(left, 2)} GB")]
    return Card(
        hero=f"about {significant(peak, 2)} GB", line=line,
        drawing=screen_scale(0, round_end(max(left, peak)), zones=zones, pins=pins, unit="GB"),
    )  # fmt: skip


def _needed(given: Values) -> Pin | None:
    """What the device moves, or below what a card is felt to wait; None where neither is known or nothing is enough."""
    needs, card = given.get("needs_gb_s"), given["device"] == "card"
    if card and given["overflows"] == "yes":
        return None
    if needs is not None:
        return Pin(float(needs), f"the {given['device']} moves {significant(float(needs), 3)} GB/s")
    if card:
        return Pin(CARD_ENOUGH_GB_S, f"a card waits below about {number(CARD_ENOUGH_GB_S, 1)} GB/s")
    return None


def lanes(given: Values, answer: Answer) -> Card:
    """What so many lanes carry beside what is needed, to one scale."""
    figures = Figures(answer)
    values = figures.numbers("link_gb_s", "seconds", "lane_gb_s")
    if not values:
        return Card()
    link, seconds, lane = values
    own = int(given["lanes"])
    needed = _needed(given)
    others = [usual for usual in (4, 8, 16) if usual != own][-1 if needed else -2 :]
    rows = [
        Row(plural(n, "lane"), lane * n, f"{significant(lane * n, 3)} GB/s", n == own) for n in sorted({own, *others})
    ]
    line = f"each way, of generation {given['generation']}"
    device = f"the {given['device']}"
    verdict = {"no": "too few", "yes": "enough"}.get(answer.verdict.word, "") if answer.verdict else ""
    if verdict:
        verdict = f"{plural(own, 'lane')} {'is' if own == 1 else 'are'} {verdict}"
    if device == "the card" and given["overflows"] == "yes":
        verdict = ""  # then none is enough, as the answer says itself
    if given.get("needs_gb_s") is not None:
        line = f"each way; the {given['device']} moves {significant(float(given['needs_gb_s']), 3)} GB/s"
    if answer.verdict and answer.verdict.word == DEPENDS:
        verdict = "Perhaps enough" if answer.verdict.said().startswith("That depends") else ""
        line = "if nothing else shares these lanes" if given["generation"] > 1 else "if it is not at rest"
        if given["device"] == "disk" and needed is None:
            line = "if the disk reads no faster"
    gigabytes = float(given["gigabytes"])
    working = (
        Over(f"{significant(gigabytes, 3)} GB", f"{significant(link, 3)} GB/s"),
        "=",
        f"{significant(seconds, 2)} s at best",
    )
    drawing = first_drawn(screen_bars(rows, limit=needed), screen_bars(_with_row(rows, needed)))
    return Card(
        hero=f"at most {significant(link, 3)} GB/s", line=line, verdict=verdict, drawing=drawing, working=working,
        question=f"{'Is' if own == 1 else 'Are'} {plural(own, 'lane')} enough for {device}?",
    )  # fmt: skip


def _with_row(rows: list[Row], needed: Pin | None) -> list[Row]:
    """The rows with what is needed as one more of them, for a room in which no line through all has its words."""
    if needed is None:
        return rows
    words = needed.label.rsplit(" ", 2)
    return [Row(words[0], needed.value, " ".join(words[1:]), fill="fill-3", step=0), *rows]
