"""What the calculators of work show on the screen. Knows their figures' keys; computes no result."""

from __future__ import annotations

from calculators.desk.answer import DEPENDS, Answer
from calculators.desk.card_declared import LONGEST_HERO, Card, Figures, Over
from calculators.desk.inputs import Values
from calculators.desk.numbers import listed, number, plural, significant
from calculators.desk.screen_drawings import Pin, Row, Zone, round_end, screen_bars, screen_levels, screen_scale
from calculators.work.formulas.footage_rates import CALM_SHARE
from calculators.work.lanes import CARD_ENOUGH_GB_S

# What each is about, in a line of a side panel.
TOPICS = {
    "gain": "What to buy first?",
    "balance": "Which part counts?",
    "footage": "Is the disk fast?",
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
    rows = [Row("waits now", now, f"{number(now, 0)} min")]
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
    line = "of the waits of one day" if most > 0 else "by either of the two options"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if memory and price are no matter"
    speeds = [given[f"{option}_{key}"] for option in ("a", "b") for key in ("one_core", "all_cores", "card", "disk")]
    if set(speeds) == {1} and given.get("a_price") is None and given.get("b_price") is None:
        hero, line = "no option yet", "if you tell what two options bring"
    return Card(hero=hero, line=line, drawing=screen_bars(rows), drawn_hero=True)


_PARTS = (
    ("one_core", "one core"), ("all_cores", "all cores"), ("card", "the card"), ("card_memory", "its memory"),
    ("memory", "memory"), ("disk", "the disk"),
)  # fmt: skip
_COUNTS = ("no", "one", "two", "three", "four", "five", "six")
_SHORT = {"card": "card", "card_memory": "card memory", "disk": "disk"}  # for the hero
_LONGEST = 16  # of a hero that names two parts, so that it stands in two lines
_LEVELS = {"little": 1, "some": 2, "much": 3}


def balance(given: Values, answer: Answer) -> Card:
    """How much a week asks of each part."""
    figures = Figures(answer)
    rows = [(label, _LEVELS.get(figures.text(key), 0)) for key, label in _PARTS]
    most = [_SHORT.get(key, label) for key, label in _PARTS if _LEVELS.get(figures.text(key), 0) == 3]
    hero = listed(most) if most else "nothing much"
    if hero == "card and card memory":
        hero = "card and its memory"
    elif len(most) > 2 or len(hero) > _LONGEST:
        hero = f"{_COUNTS[len(most)]} parts"
    line = "what your week asks most of" if most else "what your week asks of any part"
    if answer.verdict:
        line = ("is" if len(most) == 1 else "are") + " asked the most by your week"
    if answer.verdict and answer.verdict.word == DEPENDS:
        line = "if the hours stay as you told"
    return Card(hero=hero, line=line, drawing=screen_levels(rows, 3, ("little", "much")), drawn_hero=True)


def footage(given: Values, answer: Answer) -> Card:
    """What the footage needs against what the disk gives."""
    figures = Figures(answer)
    values = figures.ends("all_mb_s")
    if values is None:
        return Card()
    need = values[1]
    if given.get("disk_mb_s") is None:
        rows = [Row("your footage", need, f"{significant(need, 3)} MB/s", True)]
        if raw := figures.number("raw_mb_s"):
            rows.append(Row("without compression", raw, f"{significant(raw, 3)} MB/s"))
        if answer.verdict:  # one asks about a decoder
            hero, line = _profile_asked(given, figures)
            return Card(hero=hero, line=line, drawing=screen_bars(rows))
        return Card(hero=f"{significant(need, 3)} MB/s", line="what the disk must give", drawing=screen_bars(rows))
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
    question = "How fast a disk does my footage need?"
    return Card(hero=f"{significant(need, 3)} MB/s", line=line, drawing=screen_bars(rows), question=question)


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


def _needed(given: Values) -> Row | None:
    """What the device moves, or below what a card is felt to wait; None where neither is known or nothing is enough."""
    needs, card = given.get("needs_gb_s"), given["device"] == "card"
    if card and given["overflows"] == "yes":
        return None
    if needs is not None:
        return Row(
            f"the {given['device']} moves", float(needs), f"{significant(float(needs), 3)} GB/s", fill="fill-3", step=0
        )
    if card:
        return Row(
            "a card waits below", CARD_ENOUGH_GB_S, f"about {number(CARD_ENOUGH_GB_S, 1)} GB/s", fill="fill-3", step=0
        )
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
    rows = [needed] if needed else []
    rows += [
        Row(plural(n, "lane"), lane * n, f"{significant(lane * n, 3)} GB/s", n == own) for n in sorted({own, *others})
    ]
    line = f"each way, over {plural(own, 'lane')}"
    if given.get("needs_gb_s") is not None:
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
    return Card(hero=f"at most {significant(link, 3)} GB/s", line=line, drawing=screen_bars(rows), working=working)
