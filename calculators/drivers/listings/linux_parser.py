"""Reads what lspci -nnk says of display adapters, and lsmod of loaded modules. Neither translates what it says."""

from __future__ import annotations

import re

from calculators.drivers.listings.adapter_facts import LENT, UNTOLD, WORKS, Adapter, Said

# Base class 03 of PCI is 'display controller'. PCI Code and ID Assignment Specification, section 1, from memory.
_HEADER = re.compile(
    r"(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s.{0,200}?\[([0-9a-f]{4})\]:(.{0,300})", re.IGNORECASE
)
_NUMBERS = re.compile(r"\[([0-9a-f]{4}):([0-9a-f]{4})\]", re.IGNORECASE)
_WITHOUT_NUMBERS = re.compile(
    r"(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s+(?:VGA compatible|3D|Display) controller:", re.IGNORECASE
)
# lspci -n: the class and the numbers alone.
_BARE_HEADER = re.compile(
    r"(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s+([0-9a-f]{4}):\s+([0-9a-f]{4}):([0-9a-f]{4})\b", re.IGNORECASE
)
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
# Drivers that keep a card for a virtual machine. Linux kernel documentation, VFIO, from memory.
KEEPERS = frozenset({"vfio-pci", "pci-stub", "xen-pciback"})


def without_numbers(lines: list[str]) -> bool:
    """Whether this is a list of devices made without the option that shows their numbers."""
    return any(_WITHOUT_NUMBERS.match(line) for line in lines)


def read_linux(lines: list[str]) -> Said | None:
    """
    The display adapters in the output of lspci -nnk, and the loaded modules of lsmod.

    Args:
        lines: What was pasted, line by line. [list]

    Returns:
        What was found; None where nothing looks like these programs' output. [object]

    Source:
        lspci(8), pciutils 3.9.0; lsmod(8), kmod 30.

    Example:
        >>> read_linux(["01:00.0 VGA compatible controller [0300]: Maker A [1234:5678]"]).adapters[0].told
        False
    """
    adapters: list[Adapter] = []
    loaded: set[str] = set()
    devices = heading = drivers_listed = False
    complete: set[int] = set()  # the adapters whose entry is sure to have ended
    current: Adapter | None = None
    for line in _one_a_line(lines):
        numbers = _card(line)
        if numbers is not None:
            devices = True
            current = None
            complete = set(range(len(adapters)))
            if numbers[0].startswith("03") and numbers[1]:
                current = Adapter(numbers[1], numbers[2], "", False, UNTOLD)
                adapters.append(current)
            continue
        in_use, modules = _IN_USE.fullmatch(line), _MODULES.fullmatch(line)
        drivers_listed = drivers_listed or bool(in_use or modules)
        if current is not None and (in_use or modules):
            if in_use:
                name = in_use.group(1)
                state = LENT if name in KEEPERS else WORKS
                current = current._replace(driver=name, basic=False, state=state)
            elif modules:
                complete.add(len(adapters) - 1)
                names = tuple(part.strip() for part in modules.group(1).split(","))
                current = current._replace(candidates=tuple(n for n in names if _NAME.fullmatch(n))[:20])
            adapters[-1] = current
            continue
        if _LOADED_HEADING.fullmatch(line):
            heading = True
            complete = set(range(len(adapters)))
        elif heading and (module := _LOADED.fullmatch(line)):
            loaded.add(module.group(1))
    if not devices and not heading:
        return None
    if drivers_listed:  # a driver in use would have been named: a whole entry that names none has none
        adapters = [
            a._replace(basic=True, state=WORKS) if not a.driver and i in complete else a for i, a in enumerate(adapters)
        ]
    return Said("linux", tuple(adapters) if devices else None, loaded=frozenset(loaded) if heading else None)


def _one_a_line(lines: list[str]) -> list[str]:
    """The lines, with those taken apart that hold several entries, as where line ends were lost in copying."""
    apart: list[str] = []
    after_heading = False
    for line in lines:
        for part in _PLACES.sub("\n", line).split("\n"):
            heading = _LOADED_HEADING.match(part)
            after_heading = after_heading or bool(heading)
            if heading and heading.end() < len(part):
                apart.append(part[: heading.end()].strip())
                part = part[heading.end() :]
            apart += _MODULE_PLACES.sub("\n", part).split("\n") if after_heading and _card(part) is None else [part]
    return apart


def _card(line: str) -> tuple[str, str, str] | None:
    """Class, vendor and device of an entry's first line; the last two empty where it does not tell them."""
    line = line.lstrip()
    bare = _BARE_HEADER.match(line)
    if bare:
        return bare.group(1).lower(), bare.group(2).lower(), bare.group(3).lower()
    header = _HEADER.match(line)
    if header is None:
        return None
    numbers = _NUMBERS.search(header.group(2).split("Subsystem:")[0])  # the first pair is the card's
    if numbers is None:
        return header.group(1).lower(), "", ""
    return header.group(1).lower(), numbers.group(1).lower(), numbers.group(2).lower()
