"""
What systems print, pasted whole: lists of memory modules and of display modes, and what a private input takes.

Only numbers and choices leave here: serial and part numbers, addresses, names of hosts, users and places are never even
looked at. Knows listings; knows calculators by what they declare.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields
from typing import Any

from calculators.asking.facts import gather
from calculators.asking.kits import ADD, HAVE
from calculators.asking.reading import read_inputs
from calculators.catalogue import find, names
from calculators.desk.errors import InputErrors
from calculators.desk.inputs import Input, PrivateText, Text

# How the two systems call the same thing, small letters without blanks. SMBIOS's words: DMTF DSP0134, memory device;
# Windows' words: the properties of its class of memory modules. From memory.
_KEYS = {
    "size": "size", "capacity": "size", "formfactor": "form", "type": "type", "memorytype": "other",
    "smbiosmemorytype": "type", "speed": "speed", "configuredmemoryspeed": "runs", "configuredclockspeed": "runs",
    "rank": "rank", "attributes": "rank", "totalwidth": "total", "datawidth": "data", "configuredvoltage": "volts",
    "numberofdevices": "slots", "memorydevices": "slots",
}  # fmt: skip
# What stands beside in such listings, whose values end where the next begins and are dropped.
_BESIDE = (
    "serialnumber serial partnumber assettag manufacturer locator devicelocator banklocator banklabel bank tag name "
    "caption description model sku version pscomputername systemname creationclassname otheridentifyinginfo set "
    "typedetail minimumvoltage maximumvoltage minvoltage maxvoltage memorytechnology handle uuid hostname username "
    "interleavedatadepth interleaveposition positioninrow removable replaceable hotswappable poweredon status "
    "installdate firmwareversion moduleManufacturerid errorinformationhandle arrayhandle location use "
    "errorcorrectiontype maximumcapacity cachesize volatilesize nonvolatilesize logicalsize "
    "memoryoperatingmodecapability modulemanufacturerid moduleproductid node productname family"
).casefold().split()  # fmt: skip
_TYPES = {"24": "ddr3", "26": "ddr4", "34": "ddr5"}
_FORMS = {"8": "dimm", "12": "sodimm", "dimm": "dimm", "sodimm": "sodimm", "so-dimm": "sodimm"}
_PAIR = re.compile(r"^[\s|]*([A-Za-z][A-Za-z .()_-]{1,40}?)\s*[:=]\s*(.*?)\s*$")
_SIZE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(tb|gb|mb|kb|gib|mib|b|bytes)?\b", re.I)
_IN_GB = {"tb": 1024.0, "gb": 1.0, "gib": 1.0, "mb": 1 / 1024, "mib": 1 / 1024, "kb": 1 / 1024**2}
_MODE_LINE = re.compile(r"(?<!\w)(\d{3,5})\s?[x×]\s?(\d{3,5})(i?)(?![\w+])(.*)")
_RATE = re.compile(r"(?<![\w.+-])(\d{2,3}(?:[.,]\d{1,3})?)(?![\d.,x×]|\s?mm)\s*(?:hz)?\s*([*+]*)", re.I)
_PERSONAL = re.compile(
    r"(?im)^[\s|]*(?:[\w.-]+ ){0,2}(?:serial(?: ?number| ?no\.?)?|uuid|guid|mac(?: address)?|hwaddr|ether|"
    r"asset tag|host ?name|"
    r"computer ?name|pscomputername|user ?name|logged on user|registered owner|product id|node name|"
    r"ip(?:v[46])?(?: address)?|inet6?)\s*(?:\([^)\n]{0,20}\)\s*)?[:=].*$"
    r"|\b[0-9a-f]{8}-(?:[0-9a-f]{4}-){3}[0-9a-f]{12}\b|\b(?:[0-9a-f]{2}[:-]){5}[0-9a-f]{2}\b"
    r"|\b\S+@\S+:[~/]\S*[$#]|[A-Za-z]:\\Users\\\S+|/(?:home|Users)/[^\s/]+"
)
_LEAST_LINES = 3
_MOST_KINDS = 2


@dataclass(frozen=True, slots=True)
class Shown:
    """One answer to a listing: page (or none), calculator, its inputs."""

    page: str
    calculator: str
    inputs: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Listing:
    """
    A listing that was recognised: one sentence about it, made of numbers alone, and the answers it fills.

    forms: inputs of further calculators, which it fills only where somebody pastes it into their own form.
    """

    title: str
    answers: tuple[Shown, ...]
    forms: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Place:
    """
    A place in a calculator's form where a listing may be pasted.

    what: what it takes, in words. systems: for each system, how one gets the text, in one line.
    """

    what: str
    systems: tuple[tuple[str, str], ...]


_MEMORY = Place(
    "the list of your memory modules, or the line on a kit's box",
    (
        ("Windows", "in its terminal: Get-CimInstance Win32_PhysicalMemory | Format-List"),
        ("Linux", "in a terminal: sudo dmidecode --type memory"),
        ("macOS", "in a terminal: system_profiler SPMemoryDataType"),
    ),
)
_MODES = Place(
    "the list of modes that your system offers for the display",
    (
        (
            "Windows",
            "nothing there prints it: type what the list of all modes shows, such as 3840x2160 60, a line each",
        ),
        ("Linux", "in a terminal: xrandr"),
    ),
)
# Which calculators' forms have such a place. Their other private inputs take listings by themselves.
PLACES: Mapping[str, Place] = {
    "memory.mix": _MEMORY, "memory.ways": _MEMORY, "memory.rate": _MEMORY, "memory.need": _MEMORY,
    "memory.check": _MEMORY, "display.link": _MODES, "motion.film": _MODES,
}  # fmt: skip


def fill_form(text: str, name: str) -> tuple[str, Mapping[str, Any]]:
    """
    What a pasted text gives one calculator's own form: of a listing, or of a label's line.

    Args:
        text: As pasted. [text]
        name: The calculator. [text]

    Returns:
        One sentence about the listing, empty where it is none, and the inputs; none where nothing was read. [tuple]

    Raises:
        UnknownCalculator: There is none of this name.

    Source:
        None: a look-up.

    Example:
        >>> fill_form("DDR5-6000 CL30 2x16GB", "memory.rate")
        ('', {'generation': 'ddr5', 'rate': 6000, 'cas': 30})
    """
    listing = recognise(text)
    if listing is not None:
        inputs = next((one.inputs for one in listing.answers if one.calculator == name), listing.forms.get(name, {}))
        return listing.title, inputs
    readings = read_inputs(gather(without_names(text)), name)
    starts = {reading.key: reading.start for reading in readings}
    # What one line tells of the kit in it, it does not tell of another to come: 'DDR4' is said of one kit, once.
    return "", {
        reading.key: reading.value
        for reading in readings
        if not reading.key.startswith(ADD) or starts.get(HAVE + reading.key.removeprefix(ADD)) != reading.start
    }


@dataclass(frozen=True, slots=True)
class _Module:
    size_gb: float
    generation: str = ""
    form: str = ""
    rate: int = 0
    runs: int = 0
    ranks: str = ""
    volts: float = 0.0
    ecc: str = ""


def recognise(text: str) -> Listing | None:
    """
    What a pasted listing tells.

    Args:
        text: As pasted. [text]

    Returns:
        The listing; None where the text is none that is known here: a question, perhaps. [object]

    Source:
        DMTF DSP0134, memory device: from memory. The forms in which systems print it: common practice, no source.

    Example:
        >>> found = recognise("Memory Device\\n\\tSize: 8 GB\\n\\tType: DDR4\\n\\tSpeed: 3200 MT/s\\n")
        >>> found.title
        '1 × 8 GB, DDR4, rated 3200 MT/s'
    """
    return _memory(text) or _private(text) or _modes(text)


def without_names(text: str) -> str:
    """
    A text without lines and words that tell a machine or a person: serials, addresses, hosts, users.

    Args:
        text: Any. [text]

    Returns:
        The text, each such part replaced by a blank. [text]

    Source:
        Common practice, no source.

    Example:
        >>> without_names("Serial Number: 1234\\n2x8 GB")
        ' \\n2x8 GB'
    """
    return _PERSONAL.sub(" ", text)


# ---------------------------------------------------------------- memory


def _memory(text: str) -> Listing | None:
    records = list(_records(text))
    modules = [module for record in records if (module := _module(record)) is not None]
    if not modules:
        return None
    slots = max((int(r["slots"]) for r in records if r.get("slots", "").isdecimal()), default=0)
    slots = slots or (len([r for r in records if "size" in r]) if any(_is_empty(r) for r in records) else 0)
    counted = _counted(modules)
    inputs: dict[str, Any] = {}
    for role, (kind, count) in zip((HAVE, ADD), counted[:_MOST_KINDS], strict=False):
        inputs |= {role + key: value for key, value in _as_inputs(kind, count).items()}
    if slots in (2, 4):
        inputs["slots"] = str(slots)
    title = "; ".join(_kind_in_words(kind, count) for kind, count in counted[:_MOST_KINDS])
    if len(counted) > _MOST_KINDS:
        title += f"; and {len(counted) - _MOST_KINDS} further kinds, which are left out"
    if slots:
        title += f"; {len(modules)} of {slots} slots taken"
    first = counted[0][0]
    answers = [Shown("memory/add-bigger-sticks", "memory.mix", _taken("memory.mix", inputs))]
    if first.runs and first.rate:
        rated = {"generation": first.generation, "rate": first.rate}
        slower = Shown("memory/shows-slower-number", "memory.rate", _taken("memory.rate", rated))
        answers.insert(0 if first.runs < first.rate and len(counted) == 1 else 1, slower)
    total = _tidy(sum(kind.size_gb * count for kind, count in counted))
    whole = inputs | {"have_gb": total, "total_gb": total}
    forms = {name: _taken(name, whole) for name in ("memory.ways", "memory.need", "memory.check")}
    if first.rate and len(counted) == 1:
        forms["memory.rate"] = _taken("memory.rate", {"generation": first.generation, "rate": first.rate})
    return Listing(title, tuple(answers), forms)


def _counted(modules: Sequence[_Module]) -> list[tuple[_Module, int]]:
    """Modules of one kind together: those that nothing told of them sets apart."""
    kinds: list[tuple[_Module, int]] = []
    for module in modules:
        for at, (kind, count) in enumerate(kinds):
            both = [(getattr(kind, f.name), getattr(module, f.name), f.name) for f in fields(_Module)]
            if all(one == other or not one or not other for one, other, _ in both):
                kinds[at] = (_Module(**{name: one or other for one, other, name in both}), count + 1)
                break
        else:
            kinds.append((module, 1))
    return kinds


def _records(text: str) -> Iterator[dict[str, str]]:
    """Key and value, a module at a time: from lists, from text whose line ends were lost, and from tables."""
    if table := list(_table(text)):
        yield from table
        return
    record: dict[str, str] = {}
    for key, value in _pairs(text):
        if key in record or (key == "total" and "size" in record):
            yield record
            record = {}
        record[key] = value
    if record:
        yield record


def _pairs(text: str) -> Iterator[tuple[str, str]]:
    for line in _one_a_line(text).split("\n"):
        if (match := _PAIR.match(line)) and (key := _KEYS.get(_plain(match[1]))):
            yield key, match[2].strip().strip('"')


def _one_a_line(text: str) -> str:
    """Line ends put back before each known name, where a listing came as one long line."""
    if text.count("\n") >= _LEAST_LINES:
        return text
    return _ANY_KEY.sub(lambda match: "\n" + match[0], text)


def _spaced(key: str) -> str:
    return r"\s?".join(re.escape(letter) for letter in key)


_ANY_KEY = re.compile(
    r"(?<![A-Za-z])(?:" + "|".join(_spaced(k) for k in sorted((*_KEYS, *_BESIDE), key=len, reverse=True)) + r")\s*[:=]",
    re.I,
)


def _table(text: str) -> Iterator[dict[str, str]]:
    """A table with a head of known names: columns by blanks or commas, each row a module."""
    lines = [line for line in text.split("\n") if line.strip()]
    for at, line in enumerate(lines):
        comma = "," in line
        head = [_plain(cell) for cell in (line.split(",") if comma else line.split())]
        if sum(cell in _KEYS for cell in head) < 2 or any(c in line for c in ":="):
            continue
        for row in lines[at + 1 :]:
            cells = row.split(",") if comma else row.split()
            if len(cells) == len(head) and not set(row) <= set("- ,"):
                pairs = zip(head, cells, strict=True)
                yield {_KEYS[key]: cell.strip().strip('"') for key, cell in pairs if key in _KEYS}
        return


def _plain(key: str) -> str:
    return re.sub(r"[^a-z]", "", key.casefold())


def _is_empty(record: Mapping[str, str]) -> bool:
    return record.get("size", "").casefold().startswith(("no module", "not installed", "0 "))


def _module(record: Mapping[str, str]) -> _Module | None:
    size = _gigabytes(record.get("size", ""))
    if not size or not ({"speed", "type", "form", "runs"} & record.keys()):
        return None
    kind = record.get("type", "").casefold().replace("lp", "")
    generation = next((ddr for ddr in ("ddr3", "ddr4", "ddr5") if kind.startswith(ddr)), _TYPES.get(kind, ""))
    total, data = _number(record.get("total", "")), _number(record.get("data", ""))
    return _Module(
        size,
        generation,
        _FORMS.get(record.get("form", "").casefold(), ""),
        int(_number(record.get("speed", ""))),
        int(_number(record.get("runs", ""))),
        rank if (rank := record.get("rank", "")) in ("1", "2") else "",
        _volts(record.get("volts", "")),
        ("yes" if total > data else "no") if total and data else "",
    )


def _gigabytes(text: str) -> float:
    match = _SIZE.match(text.strip())
    if not match:
        return 0.0
    value, unit = float(match[1].replace(",", ".")), (match[2] or "").casefold()
    in_gb = value * _IN_GB[unit] if unit in _IN_GB else value / 1024**3
    return in_gb if 0.1 <= in_gb <= 4096 else 0.0


def _number(text: str) -> float:
    match = re.match(r"\s*(\d{1,6}(?:[.,]\d+)?)", text)
    return float(match[1].replace(",", ".")) if match else 0.0


def _volts(text: str) -> float:
    value = _number(text)
    value = value / 1000 if value > 100 else value
    return value if 1.0 <= value <= 2.0 else 0.0


def _as_inputs(kind: _Module, count: int) -> dict[str, Any]:
    values = {
        "generation": kind.generation, "count": count, "size": _tidy(kind.size_gb), "rate": kind.rate or None,
        "form": kind.form, "ranks": kind.ranks, "ecc": kind.ecc, "volts": kind.volts or None,
    }  # fmt: skip
    return {key: value for key, value in values.items() if value not in (None, "")}


def _kind_in_words(kind: _Module, count: int) -> str:
    parts = [f"{count} × {_tidy(kind.size_gb)} GB"]
    parts += [kind.generation.upper()] if kind.generation else []
    parts += [f"rated {kind.rate} MT/s"] if kind.rate else []
    parts += [f"runs at {kind.runs} MT/s"] if kind.runs and kind.runs != kind.rate else []
    return ", ".join(parts)


# ---------------------------------------------------------------- display modes


def _modes(text: str) -> Listing | None:
    """A list of display modes: the largest size (or the marked one) with its highest refresh."""
    rates_by_size: dict[tuple[int, int], list[float]] = {}
    marked: tuple[int, int] | None = None
    lines = 0
    for line in text.split("\n"):
        match = _MODE_LINE.search(line)
        if not match or match[3]:
            continue
        size = (int(match[1]), int(match[2]))
        offered = [(float(rate.replace(",", ".")), sign) for rate, sign in _RATE.findall(match[4])]
        offered = [(rate, sign) for rate, sign in offered if 20 <= rate <= 1000]
        if not offered or not 300 <= size[0] <= 16384 or not 200 <= size[1] <= 16384:
            continue
        lines += 1
        rates_by_size.setdefault(size, []).extend(rate for rate, _ in offered)
        if any("+" in sign for _, sign in offered):
            marked = marked or size
    if lines < _LEAST_LINES:
        return None
    size = marked or max(rates_by_size, key=lambda s: s[0] * s[1])
    rates = sorted(dict.fromkeys(rates_by_size[size]))
    best = _tidy(max(rates))
    inputs = {"width": size[0], "height": size[1], "refresh": best}
    listed = ", ".join(str(_tidy(rate)) for rate in rates)
    title = f"{len(rates_by_size)} sizes; of {size[0]} × {size[1]} these rates: {listed} Hz"
    film = {"rate": best, "rates": listed}
    return Listing(
        title,
        (
            Shown("display/carry-my-mode", "display.link", _taken("display.link", inputs)),
            Shown("motion/films-stutter", "motion.film", _taken("motion.film", film)),
        ),
    )


# ---------------------------------------------------------------- what a calculator's own reader takes


def _private(text: str) -> Listing | None:
    """A text that a calculator's private input takes as it is: a display's declaration, a system's list of drivers."""
    if text.count("\n") < 1 and len(text.strip()) < 200:
        return None
    for name in names():
        calculator = find(name)
        for entry in calculator.inputs:
            if not isinstance(entry, PrivateText) or entry.optional or not _is_taken(entry, text):
                continue
            try:
                result = calculator.run({entry.key: text})
            except InputErrors:
                continue
            answers = [Shown("", name, {entry.key: text})]
            figures = {figure.key: figure.value for figure in result.answer.figures}
            wanted = {
                "width": figures.get("preferred_width"),
                "height": figures.get("preferred_height"),
                "refresh": figures.get("fastest_refresh") or figures.get("preferred_refresh"),
            }
            if all(wanted.values()):
                answers.append(Shown("display/carry-my-mode", "display.link", _taken("display.link", wanted)))
            return Listing(calculator.title, tuple(answers))
    return None


def _is_taken(entry: Input, text: str) -> bool:
    try:
        entry.read(text)
    except ValueError:
        return False
    return True


def _taken(name: str, inputs: Mapping[str, Any]) -> dict[str, Any]:
    """The values that a calculator has inputs for and accepts; all others are left out."""
    accepted = {}
    for entry in find(name).inputs:
        value = inputs.get(entry.key)
        if value in (None, ""):
            continue
        try:
            accepted[entry.key] = entry.echo(entry.read(value if not isinstance(entry, Text) else str(value)))
        except ValueError:
            continue
    return accepted


def _tidy(value: float) -> float | int:
    return int(value) if value == int(value) else round(value, 3)


def answers_of(listing: Listing, pages: Sequence[tuple[str, Sequence[str]]]) -> list[Shown]:
    """A listing's answers, each with a page: where none was named, the first page that shows its calculator."""
    placed = []
    for shown in listing.answers:
        page = shown.page or next((page for page, calculators in pages if shown.calculator in calculators), "")
        placed.append(Shown(page, shown.calculator, shown.inputs))
    return placed
