"""
Lists of memory modules, as two systems print them, whether by lines, in a table or with their line ends lost.

Only numbers and choices leave here: serial and part numbers, makers and places are never even looked at.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any

from calculators.asking.kits import ADD, HAVE
from calculators.asking.listings.listing import LEAST_LINES, Listing, Shown, accepted_inputs, tidy

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
# The numbers by which DMTF DSP0134 (SMBIOS) knows types and forms of a memory device. From memory.
_TYPES = {"24": "ddr3", "26": "ddr4", "34": "ddr5"}
_FORMS = {"8": "dimm", "12": "sodimm", "dimm": "dimm", "sodimm": "sodimm", "so-dimm": "sodimm"}
_PAIR = re.compile(r"^[\s|]*([A-Za-z][A-Za-z .()_-]{1,40}?)\s*[:=]\s*(.*?)\s*$")
_SIZE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(tb|gb|mb|kb|gib|mib|b|bytes)?\b", re.I)
_IN_GB = {"tb": 1024.0, "gb": 1.0, "gib": 1.0, "mb": 1 / 1024, "mib": 1 / 1024, "kb": 1 / 1024**2}
_MOST_KINDS = 2  # of modules: what is there and what was added


@dataclass(frozen=True, slots=True)
class _Module:
    """One module, by what its listing tells. runs: the rate at which it runs now, beside the one it is rated for."""

    size_gb: float
    generation: str = ""
    form: str = ""
    rate: int = 0
    runs: int = 0
    ranks: str = ""
    volts: float = 0.0
    ecc: str = ""


def read_memory(text: str) -> Listing | None:
    """A list of memory modules, counted by kind; None where the text is none."""
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
    answers = [Shown("memory/add-bigger-sticks", "memory.mix", accepted_inputs("memory.mix", inputs))]
    if first.runs and first.rate:
        rated = {"generation": first.generation, "rate": first.rate}
        slower = Shown("memory/shows-slower-number", "memory.rate", accepted_inputs("memory.rate", rated))
        answers.insert(0 if first.runs < first.rate and len(counted) == 1 else 1, slower)
    total = tidy(sum(kind.size_gb * count for kind, count in counted))
    whole = inputs | {"have_gb": total, "total_gb": total}
    forms = {name: accepted_inputs(name, whole) for name in ("memory.ways", "memory.need", "memory.check")}
    if first.rate and len(counted) == 1:
        forms["memory.rate"] = accepted_inputs("memory.rate", {"generation": first.generation, "rate": first.rate})
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
    if text.count("\n") >= LEAST_LINES:
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
        "generation": kind.generation, "count": count, "size": tidy(kind.size_gb), "rate": kind.rate or None,
        "form": kind.form, "ranks": kind.ranks, "ecc": kind.ecc, "volts": kind.volts or None,
    }  # fmt: skip
    return {key: value for key, value in values.items() if value not in (None, "")}


def _kind_in_words(kind: _Module, count: int) -> str:
    parts = [f"{count} × {tidy(kind.size_gb)} GB"]
    parts += [kind.generation.upper()] if kind.generation else []
    parts += [f"rated {kind.rate} MT/s"] if kind.rate else []
    parts += [f"runs at {kind.runs} MT/s"] if kind.runs and kind.runs != kind.rate else []
    return ", ".join(parts)
