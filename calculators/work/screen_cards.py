"""What the calculators of work show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, NO, YES, Answer
from calculators.desk.card_declared import (
    LONGEST_HERO,
    MOST_LINE,
    Card,
    Equation,
    Figures,
    Over,
    ScreenDrawing,
    first_drawn,
    words,
)
from calculators.desk.inputs import Values
from calculators.desk.numbers import listed, number, plural, settled, significant
from calculators.desk.screen_drawings.bars import screen_bars
from calculators.desk.screen_drawings.ladders import screen_levels
from calculators.desk.screen_drawings.marks import Pin, Row, Zone, narrow_or
from calculators.desk.screen_drawings.scale import round_end, screen_scale
from calculators.work.card_bars import bars_against, levels_below, untold
from calculators.work.formulas.footage_rates import CALM_SHARE
from calculators.work.lanes import CARD_ENOUGH_GB_S, CARD_LITTLE_GB_S, LANES
from calculators.work.tables.disk_rates import FOUR_LANES_MB_S, SATA_MB_S, SPINNING_MB_S

# What each is about, in a line of a side panel.
TOPICS = {
    "gain": "What to buy first?",
    "balance": "Which part counts?",
    "footage": "How fast a disk?",
    "scene": "Does the scene fit?",
    "lanes": "Enough lanes?",
}


def gain(given: Values, answer: Answer) -> Card:
    """A day's waits now and with each of the two options; of one that is not told no minutes are shown."""
    figures = Figures(answer)
    now = figures.number("now_min")
    if now is None:
        return Card()
    ways = []
    for option in ("a", "b"):
        after = figures.number(f"{option}_min")
        name = figures.label(f"{option}_min").removeprefix("With ").removeprefix("the ")
        if after is not None:
            ways.append((now - after if _is_told(given, option) else None, name, after))
    told = [saved for saved, _, _ in ways if saved is not None]
    most = max(told, default=0.0)
    memory_first = given["memory_fills"] == "yes"  # then no option stands out, since nothing is ranked
    rows = [Row("you wait each day", now, f"{number(now, 0)} min", step=0)]
    for saved, name, after in ways:
        best = saved == most > 0 and not memory_first
        own = Row(name, after, f"{number(after, 0)} min", best, step=int(best or memory_first or most <= 0))
        rows.append(untold(name) if saved is None else own)
    drawing = first_drawn(bars_against(rows), screen_bars(rows)) if told else bars_against(rows)
    if memory_first:
        return Card(
            hero="memory first", verdict="Neither of them yet", line="full memory looks like waiting for the disk",
            drawing=drawing, drawn_hero=True,
        )  # fmt: skip
    if not told:  # nobody has said anything of either
        return Card(
            hero="which two parts?",
            verdict="Can't say yet",
            line="tell us what each part would save",
            drawing=drawing,
            drawn_hero=True,
        )
    hero = f"{number(most, 0)} min saved" if most >= 1 else "under 1 min saved" if most > 0 else "no time saved"
    line = "of the waits of one day" if most > 0 else "by either of the two options"
    verdict = ""
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if memory and price are no matter"
    if answer.verdict and answer.verdict.word == NO:
        verdict = "Neither helps"
    return Card(hero=hero, verdict=verdict, line=line, drawing=drawing, drawn_hero=True)


def _is_told(given: Values, option: str) -> bool:
    """Whether anything was said of an option: what it makes faster or slower, or what it costs."""
    speeds = [given[f"{option}_{key}"] for key in ("one_core", "all_cores", "card", "disk")]
    return set(speeds) != {1} or given.get(f"{option}_price") is not None


_PARTS = (
    ("one_core", "one core at a time"), ("all_cores", "all cores"), ("card", "graphics card"),
    ("card_memory", "card's memory"), ("memory", "main memory"), ("disk", "disk"),
)  # fmt: skip
_COUNTS = ("no", "one", "two", "three", "four", "five", "six")
# Of the one part that counts most: what goes before everything else.
_FIRST = {
    "one_core": "a fast core first", "all_cores": "many cores first", "card": "graphics card first",
    "card_memory": "card's memory first", "memory": "main memory first", "disk": "a fast disk first",
}  # fmt: skip
_LOADED = {"one_core": "one core", "card": "the card", "disk": "the disk"}  # in a sentence
_LEVELS = {"little": 1, "some": 2, "much": 3}


def balance(given: Values, answer: Answer) -> Card:
    """How much a week asks of each part."""
    figures = Figures(answer)
    levels = {key: _LEVELS.get(figures.text(key), 0) for key, _ in _PARTS}
    rows = [(label, levels[key]) for key, label in _PARTS]
    most = [key for key, _ in _PARTS if levels[key] == 3]
    names = dict(_PARTS)
    if not most:
        hero, line = "no part stands out", "your week asks much of none"
    elif most == ["card", "card_memory"]:  # who buys the one buys the other
        hero, line = _FIRST["card"], "your week loads card and card memory most"
    elif len(most) == 1:
        hero, line = _FIRST[most[0]], "your week loads it most"
    else:
        hero = f"{_COUNTS[len(most)]} parts count"
        line = f"your week loads {listed([_LOADED.get(key, names[key]) for key in most])} most"
        if words(line) > MOST_LINE:
            line = "your week loads those at 'much' most"
    verdict = ""
    if answer.verdict and answer.verdict.word == DEPENDS:
        verdict, line = "3D and editing nearly alike", "if the hours stay as you told"
    if answer.verdict and answer.verdict.word == YES:
        verdict = "3D and editing alike"
    return Card(
        hero=hero, verdict=verdict, line=line, question="Which part counts most?",
        drawing=narrow_or(_most_of(rows, hero), screen_levels(rows, 3, ("little", "much"))),
        # that 3D work and editing part is no fault of anything, and not what the card asks
        unjudged=answer.verdict is not None and answer.verdict.word == NO,
    )  # fmt: skip


def _most_of(rows: list[tuple[str, int]], hero: str) -> ScreenDrawing:
    """For a side panel: the answer's words and as many rows as have room below them, those that count most."""
    ranked = sorted(range(len(rows)), key=lambda i: (-rows[i][1], i))
    some = [[rows[i] for i in sorted(ranked[:most])] for most in (len(rows), 4, 3, 2)]
    return first_drawn(*(levels_below(hero, each, 3, ("little", "much")) for each in some))


def footage(given: Values, answer: Answer) -> Card:
    """What the footage needs against what the disk gives."""
    figures = Figures(answer)
    values = figures.ends("all_mb_s")
    if values is None:
        return Card()
    need = values[1]
    if given.get("disk_mb_s") is None:
        if answer.verdict:  # one asks about a decoder
            rows = [Row("your footage", need, f"{significant(need, 3)} MB/s", True)]
            if raw := figures.number("raw_mb_s"):
                rows.append(Row("without compression", raw, f"{significant(raw, 3)} MB/s"))
            hero, line = _profile_asked(given, figures)
            return Card(hero=hero, line=line, drawing=screen_bars(rows))
        return _need_of_a_disk(given, figures, need)
    disk = float(given["disk_mb_s"])
    calm = disk * CALM_SHARE.over / CALM_SHARE.under
    rows = [
        Row("your footage", need, f"{significant(need, 3)} MB/s", True),
        Row("calm share of the disk", calm, f"{significant(calm, 3)} MB/s"),
        Row("the disk", disk, f"{significant(disk, 3)} MB/s"),
    ]
    line = f"of the disk's {significant(disk, 3)} MB/s"
    if need > disk:
        line = f"are needed, the disk gives {significant(disk, 3)} MB/s"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if nothing else needs the disk"
    return Card(hero=f"{significant(need, 3)} MB/s", line=line, drawing=screen_bars(rows), question=_DISK_ASKED)


_DISK_ASKED = "How fast a disk does my footage need?"
_DISKS = (
    ("hard disk", "about", SPINNING_MB_S), ("SATA disk", "up to", SATA_MB_S), ("NVMe disk", "up to", FOUR_LANES_MB_S),
)  # fmt: skip


def _need_of_a_disk(given: Values, figures: Figures, need: float) -> Card:
    """What footage needs, against what kinds of disk give."""
    rows = [Row(name, rate, f"{how} {significant(rate, 3)} MB/s", step=0) for name, how, rate in _DISKS]
    said, named = f"{significant(need, 3)} MB/s", given.get("mbps")
    streams = "" if given["streams"] == 1 else f"{given['streams']} × "
    size, rate = f"{given['width']} × {given['height']}", number(given["rate"], 2)
    working: Equation = ()
    if named is not None:
        packed, line = "", f"{plural(given['streams'], 'stream')} at {number(named, 2)} Mb/s"
        working = (f"{streams}{number(named, 2)} Mb/s ÷ 8", "=", said)
    else:
        packed = "uncompressed" if given["ratio"] == 1 else f"compressed {number(given['ratio'], 2)}:1"
        line = f"{streams}{size}, {rate} frames/s, {packed}"
        frame, ratio = figures.number("frame_mb"), "" if given["ratio"] == 1 else f" ÷ {number(given['ratio'], 2)}"
        if frame:
            working = (f"{streams}{significant(frame, 4)} MB a frame × {rate}{ratio}", "=", said)
    label = f"your footage{f', {packed}' if packed else ''}: {said}"
    drawing = bars_against(rows, limit=Pin(need, label, step=1))
    return Card(hero=said, line=line, drawing=drawing, working=working, question=_DISK_ASKED)


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
    values = figures.numbers("low_gb", "high_gb", "room_gb")
    if not values:
        return _without_a_card(given, figures)
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


_COUNTS_OF_SCENE = {"textures", "texture_px", "triangles_m"}


def _without_a_card(given: Values, figures: Figures) -> Card:
    """What is missing, said and drawn: the card's memory, and the scene where nobody has told that either."""
    ends, peak = figures.numbers("low_gb", "high_gb"), figures.number("peak_full_gb")
    empty = untold("left on your card")
    if peak is None and (not ends or set(given.assumed) >= _COUNTS_OF_SCENE):
        return Card(
            hero="can't say yet", line="tell the scene's size and the card's memory",
            drawing=bars_against([untold("your scene"), empty]),
        )  # fmt: skip
    low, high = (peak, peak) if peak is not None else ends or (0.0, 0.0)
    size = f"{significant(high, 2)} GB" if peak is not None else f"{significant(low, 2)} to {significant(high, 2)} GB"
    hero = f"about {size}" if len(size) <= 14 else size
    line = "for the scene; now tell the card's memory"
    return Card(hero=hero, line=line, drawing=bars_against([Row("your scene", high, size, True), empty]))


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
        return Pin(float(needs), f"the {given['device']} moves {significant(float(needs), 3)} GB/s", step=0)
    if card:
        return Pin(CARD_ENOUGH_GB_S, f"below about {number(CARD_ENOUGH_GB_S, 1)} GB/s: a card waits", step=0)
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
    others = [usual for usual in (4, 8, 16) if usual != own][-2:]
    if enough := _enough_lanes(given, lane):
        others = sorted({enough, 16})
    rows = [
        Row(plural(n, "lane"), lane * n, f"{significant(lane * n, 3)} GB/s", n == own) for n in sorted({own, *others})
    ]
    line = f"each way, over {plural(own, 'lane')}"
    needs = given.get("needs_gb_s")
    if needs is not None:
        line = f"each way; the {given['device']} moves {significant(float(given['needs_gb_s']), 3)} GB/s"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "each way, if nothing else shares them" if given["generation"] > 1 else "each way, if it is not at rest"
        if given["device"] == "disk" and needed is None:
            line = "each way, if the disk needs no more"
    gigabytes = float(given["gigabytes"])
    working = (
        Over(f"{significant(gigabytes, 3)} GB", f"{significant(link, 3)} GB/s"),
        "=",
        f"{significant(seconds, 2)} s at best",
    )
    hero, verdict = f"at most {significant(link, 3)} GB/s", ""
    if enough:
        verdict = f"{plural(own, 'lane')} {'is' if own == 1 else 'are'} too few"
        hero, line = f"about {enough} are enough", f"{plural(own, 'lane')}: {hero} each way"
    elif answer.verdict and answer.verdict.word == YES and given["device"] == "card" and needs is None:
        verdict = f"{plural(own, 'lane')} {'is' if own == 1 else 'are'} enough"
    drawing = bars_against(rows, limit=needed)
    if needed:  # a side panel has no room for more than two
        drawing = narrow_or(first_drawn(drawing, bars_against(_two(rows), limit=needed)), drawing)
    return Card(hero=hero, verdict=verdict, line=line, drawing=drawing, working=working)


def _two(rows: list[Row]) -> list[Row]:
    """One's own lanes and the next more, or the most others where one's own are the most."""
    own = next(i for i, row in enumerate(rows) if row.mark)
    return rows[own : own + 2] if own + 1 < len(rows) else rows[-2:]


def _enough_lanes(given: Values, lane: float) -> int:
    """Where so few lanes are too few for a card: the fewest below which none is felt to wait; else 0."""
    own, needs = int(given["lanes"]), given.get("needs_gb_s")
    asked = given["device"] == "card" and given["overflows"] != "yes" and needs is None and given["generation"] > 1
    if not asked or settled(lane * own) >= CARD_LITTLE_GB_S:
        return 0
    return next((int(n) for n in LANES if settled(lane * int(n)) >= CARD_ENOUGH_GB_S), 0)
