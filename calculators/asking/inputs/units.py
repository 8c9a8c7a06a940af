"""The unit behind a number: an input's own, in its everyday forms, or one of something else."""

from __future__ import annotations

from calculators.asking.facts import Facts, Quantity, behind
from calculators.asking.inputs.plan import AskedInput, unit_key
from calculators.desk.inputs import Number

# How people write units, beside what an input declares. Common practice, no source.
_EVERYDAY_UNITS = {
    "gig": "gb", "gigs": "gb", "gigabyte": "gb", "gigabytes": "gb", "g": "gb", "gbs": "gb", "gbytes": "gb",
    "mts": "mt/s", "mt": "mt/s", "c": "cl", "megahertz": "mhz",
    "mbitps": "mbit/s", "mbits": "mbit", "mbits/s": "mbit/s", "mbits/sec": "mbit/s", "mbit/sec": "mbit/s",
    "megabit": "mbit", "megabits": "mbit", "gigabits": "gbit", "gbits/sec": "gbit/s", "gig/s": "gb/s",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m", "mtr": "m", "feet": "ft", "foot": "ft", "'": "ft",
    "ohm": "ω", "ohms": "ω", "Ω": "ω", "decibel": "db", "decibels": "db", "dbs": "db", "volt": "v", "volts": "v",
    "hrs": "h", "hr": "h", "hour": "h", "hours": "h", "mins": "min", "minute": "min", "minutes": "min",
    "sec": "s", "secs": "s", "second": "s", "seconds": "s", "millisecond": "ms", "milliseconds": "ms", "msec": "ms",
    "percent": "%", "herz": "hz", "hertz": "hz", "framespersecond": "fps", "frames": "fps", "nits": "nits",
    "asecond": "fps", "persecond": "fps", "xaweek": "timesaweek", "xperweek": "timesperweek", "xweek": "timesaweek",
    "gbe": "gbit/s", "cd/m": "cd/m²", "k": "thousand", "pixels": "px", "pixel": "px", "mio": "million",
    "mil": "million", "mill": "million",
}  # fmt: skip


# Signs, and the words by which inputs name themselves.
SYMBOLS = {"ω": "ohm", "Ω": "ohm", "cd/m²": "nit"}
# Units of other things: a number with one of these is none of a calculator that does not ask for it.
OTHER_UNITS = frozenset(
    "w watt watts kw € euro euros eur bucks dollars dollar pounds quid usd years year months month weeks week days day "
    "minutes minute hours hour times inch inches zoll cm mm ghz rpm percent % pc pcs pins pin rings ring bit "
    "bits fps hz "
    "mhz khz gb mb tb kb ms ns s px dpi ohm v db x m st nd rd th".split()
)
NETWORKS = frozenset(
    "link network ethernet lan port switch nic connection networking fibre fiber line internet broadband router".split()
)
_NETWORK_GIGS = frozenset("1 2.5 2,5 5 10 ten".split())  # of a card with so many gigs it is no memory


def as_written(facts: Facts, asked: AskedInput, quantity: Quantity) -> str:
    """A number with its unit, in the very words of the text."""
    _, last, _ = unit_behind(facts, asked, quantity.at)
    return facts.text[quantity.start : max(quantity.end, facts.words[last].end)]


def unit_behind(facts: Facts, asked: AskedInput, at: int) -> tuple[str, int, float]:
    """The unit of the input's that a number has, the place of its last word, and how near it is to the declared one."""
    follows = [word.text for word in facts.words[at + 1 : at + 3]]
    if (
        "gbit/s" in asked.units
        and follows[:1] in (["g"], ["gig"], ["gb"])
        and (follows[-1] in NETWORKS or (follows[-1] in ("card", "cards") and facts.words[at].text in _NETWORK_GIGS))
    ):
        return "gbit/s", at + 1, asked.units["gbit/s"]
    for text, place in behind(facts, at):
        beyond = [w.text for w in facts.words[place + 1 : place + 3]]
        if beyond[:1] == ["/"] and text[-1] != "/" and beyond[-1] in ("s", "sec", "second", "mw", "v"):
            continue  # 'GB/s' is no GB
        for spelled in (text, _EVERYDAY_UNITS.get(text, "")):
            if spelled in asked.units:
                return spelled, place, asked.units[spelled]
            if spelled.replace("ω", "Ω") in asked.units:
                return spelled.replace("ω", "Ω"), place, 1.0
    if "clocks" in asked.units and at:
        word = facts.words[at - 1]
        if word.text in ("cl", "c", "cas") and facts.words[at].start - word.end <= 1:
            return "cl", at, 1.0
    return "", at, 0.0


def declared_unit(asked: AskedInput, facts: Facts, at: int, last: int, unit: str) -> str:
    """The unit as the input declares it, where upper and lower case tell bits from bytes as it was typed."""
    if last > at:
        typed = facts.text[facts.words[at + 1].start : facts.words[last].end].replace(" ", "")
        if unit_key(typed) in asked.units and typed[:2] in ("MB", "GB", "KB", "Mb", "Gb", "Kb"):
            return typed
    entry = asked.entry
    declared = [entry.unit, *entry.also] if isinstance(entry, Number) else list(getattr(entry, "units", ()))
    return next((one for one in declared if unit_key(one) == unit), unit)


def foreign_unit(facts: Facts, at: int) -> str:
    """The unit behind a number, of any input or of none here; nothing where none is known."""
    for text, _ in behind(facts, at):
        if text in OTHER_UNITS or text in _EVERYDAY_UNITS:
            return text
    return ""
