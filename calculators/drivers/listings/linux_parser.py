"""Reads what lspci -nnk says of display adapters, and lsmod of loaded modules. Neither translates what it says."""

from __future__ import annotations

import re

from calculators.drivers.listings.adapter_facts import LENT, UNTOLD, WORKS, Adapter, Listing

# Base class 03 of PCI is 'display controller'. PCI Code and ID Assignment Specification, section 1, from memory.
_HEADER = re.compile(
    r"(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s.{0,200}?\[(?:Class )?([0-9a-f]{4})\]:(.{0,300})",
    re.IGNORECASE,
)
_NUMBERS = re.compile(r"\[([0-9a-f]{4}):([0-9a-f]{4})\]", re.IGNORECASE)
_WITHOUT_NUMBERS = re.compile(
    r"(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s+(?:VGA compatible|3D|Display) controller:", re.IGNORECASE
)
# lspci -n: the class and the numbers alone; releases before 2.2 wrote 'Class' before them, from memory.
_BARE_HEADER = re.compile(
    r"(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s+(?:Class )?([0-9a-f]{4}):\s+([0-9a-f]{4}):([0-9a-f]{4})\b",
    re.IGNORECASE,
)
_SLOT = re.compile(r"\s*((?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7])\s", re.IGNORECASE)
# What cannot be the rest of a header that a narrow window broke in two.
_NO_REST = re.compile(r"\s*(?:$|--$|[A-Za-z][A-Za-z /]{0,30}:|Module\s+Size\s)")
_MOST_PIECES = 4  # a header of 320 characters in a window of 80
# Where a new line must have begun, in text that came as one: at a device's place, at a detail, at a module.
_PLACES = re.compile(
    r"(?<=\S)\s+(?=(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s|Subsystem:|DeviceName:|Flags:|"
    r"Kernel driver in use:|Kernel modules:|Module\s+Size\s+Used by)",
    re.IGNORECASE,
)
_MODULE_PLACES = re.compile(r"(?<=\S)\s+(?=[A-Za-z_][A-Za-z0-9_]{0,63}\s+[0-9]{2,12}\s+-?[0-9]{1,6}(?:\s|$))")
_IN_USE = re.compile(r"\s*Kernel driver in use:\s*([A-Za-z0-9_\-]{1,64})\s*")
_MODULES = re.compile(r"\s*Kernel modules:\s*(.{1,400})")
_NAME = re.compile(r"[A-Za-z0-9_\-]{1,64}")
_LOADED = re.compile(r"([A-Za-z0-9_]{1,64})\s+[0-9]{1,12}\s+-?[0-9]{1,6}(?:\s+\S{0,400})?\s*")
_LOADED_HEADING = re.compile(r"Module\s+Size\s+Used by\s*")
_SKIPPED = "--"  # what grep prints between the lines that it picked out of a list: grep(1), group separator
# Drivers that keep a card for a virtual machine. Linux kernel documentation, VFIO, from memory.
KEEPERS = frozenset({"vfio-pci", "pci-stub", "xen-pciback"})


def without_numbers(lines: list[str]) -> bool:
    """Whether this is a list of devices made without the option that shows their numbers."""
    return any(_WITHOUT_NUMBERS.match(line) for line in lines)


def numbers_cut_off(lines: list[str]) -> bool:
    """Whether the list names a display adapter without its numbers, as where the line was cut."""
    cards = [_card(line) for line in _one_a_line(lines)]
    return any(card is not None and card[0].startswith("03") and not card[1] for card in cards)


def read_linux(lines: list[str]) -> Listing | None:
    """
    The display adapters in the output of lspci -nnk, and the loaded modules of lsmod.

    Args:
        lines: What was pasted, line by line. [list]

    Returns:
        What was found; None where nothing looks like these programs' output. [object]

    Source:
        lspci(8), pciutils 3.9.0; lsmod(8), kmod 30.

    Example:
        >>> read_linux(["01:00.0 VGA compatible controller [0300]: Maker A [1234:5678]"]).adapters[0].driver_known
        False
    """
    entries: dict[str, _Entry] = {}  # by their place on the bus, so that two lists of one machine are one
    loaded: set[str] = set()
    devices = heading = drivers_listed = filtered = False
    current: _Entry | None = None
    lines_here: list[str] = []  # what has been told of the last device: two of a kind belong to two devices
    for line in _one_a_line(lines):
        numbers = _card(line)
        if numbers is not None:
            devices = True
            if current is not None:
                current.whole = True
            current = None
            lines_here.clear()
            if numbers[0].startswith("03") and numbers[1]:
                current = entries.setdefault(_place(line), _Entry(numbers[1], numbers[2]))
                current.whole = False  # told again, it may be told less
            continue
        in_use, modules = _IN_USE.fullmatch(line), _MODULES.fullmatch(line)
        if in_use or modules:
            kind = "in use" if in_use else "modules"
            filtered = filtered or kind in lines_here
            lines_here.append(kind)
        if in_use:
            drivers_listed = True
            if current is not None:
                current.driver = in_use.group(1)
        elif modules:
            drivers_listed = True
            if current is not None:
                names = tuple(part.strip() for part in modules.group(1).split(","))
                current.candidates = tuple(n for n in names if _NAME.fullmatch(n))[:20]
                current.whole = True
        elif line.strip() == _SKIPPED:
            current = None  # its entry may have gone on
            lines_here.clear()
        elif _LOADED_HEADING.fullmatch(line):
            heading = True
            if current is not None:
                current.whole, current = True, None
        elif heading and (module := _LOADED.fullmatch(line)):
            loaded.add(module.group(1))
    if not devices and not heading:
        return None
    adapters = tuple(entry.adapter(drivers_listed, filtered) for entry in entries.values())
    return Listing("linux", adapters if devices else None, loaded=frozenset(loaded) if heading else None)


class _Entry:
    """One display adapter in the making."""

    def __init__(self, vendor: str, device: str) -> None:
        self.vendor = vendor
        self.device = device
        self.driver = ""
        self.candidates: tuple[str, ...] = ()
        self.whole = False  # whether the entry is sure to have ended where the list goes on

    def adapter(self, drivers_listed: bool, filtered: bool) -> Adapter:
        """The adapter; a driver in use would have been named in a whole entry of a list that names them."""
        if filtered:  # lines were picked out of the list, so a driver may stand below another device's name
            return Adapter(self.vendor, self.device, "", False, UNTOLD)
        if self.driver:
            state = LENT if self.driver in KEEPERS else WORKS
            return Adapter(self.vendor, self.device, self.driver, False, state, None, self.candidates)
        none = drivers_listed and self.whole
        state = WORKS if none else UNTOLD
        return Adapter(self.vendor, self.device, "", none, state, None, self.candidates)


def _place(line: str) -> str:
    """Where a device sits on the bus, without the domain, which a list may leave out."""
    slot = _SLOT.match(line)
    return slot.group(1).lower().removeprefix("0000:") if slot else line


def _one_a_line(lines: list[str]) -> list[str]:
    """The lines, with those taken apart that hold several entries, as where line ends were lost in copying."""
    apart: list[str] = []
    after_heading = False
    for line in _without_breaks(lines):
        for part in _PLACES.sub("\n", line).split("\n"):
            heading = _LOADED_HEADING.match(part)
            after_heading = after_heading or bool(heading)
            if heading and heading.end() < len(part):
                apart.append(part[: heading.end()].strip())
                part = part[heading.end() :]
            apart += _MODULE_PLACES.sub("\n", part).split("\n") if after_heading and _card(part) is None else [part]
    return apart


def _without_breaks(lines: list[str]) -> list[str]:
    """The lines, with a device's first line put together again where a narrow window broke it."""
    joined: list[str] = []
    pieces = 0
    for line in lines:
        before = joined[-1] if joined else ""
        card = _card(before)
        broken = card is None or not card[1]
        if 0 < pieces < _MOST_PIECES and broken and not _NO_REST.match(line) and not _SLOT.match(line):
            joined[-1] = before + line  # nothing between: the window breaks within a word
            pieces += 1
        else:
            joined.append(line)
            pieces = 1 if _SLOT.match(line) else 0
    return joined


def _card(line: str) -> tuple[str, str, str] | None:
    """Class, vendor and device of an entry's first line; the last two empty where it does not tell them."""
    line = line.lstrip()
    codes_only = _BARE_HEADER.match(line)
    if codes_only:
        return codes_only.group(1).lower(), codes_only.group(2).lower(), codes_only.group(3).lower()
    header = _HEADER.match(line)
    if header is None:
        return None
    numbers = _NUMBERS.search(header.group(2).split("Subsystem:")[0])  # the first pair is the card's
    if numbers is None:
        return header.group(1).lower(), "", ""
    return header.group(1).lower(), numbers.group(1).lower(), numbers.group(2).lower()
