"""Reads what lspci -nnk says of display adapters, and lsmod of loaded modules. Neither translates what it says."""

from __future__ import annotations

import re

from calculators.drivers.listings.adapter_facts import LENT, WORKS, Adapter, Said

# Base class 03 of PCI is 'display controller'. PCI Code and ID Assignment Specification, section 1, from memory.
_HEADER = re.compile(
    r"(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s.{0,200}?\[([0-9a-f]{4})\]:(.{0,300})", re.IGNORECASE
)
_NUMBERS = re.compile(r"\[([0-9a-f]{4}):([0-9a-f]{4})\]", re.IGNORECASE)
_WITHOUT_NUMBERS = re.compile(
    r"(?:[0-9a-f]{4,8}:)?[0-9a-f]{2}:[0-9a-f]{2}\.[0-7]\s+(?:VGA compatible|3D|Display) controller:", re.IGNORECASE
)
_IN_USE = re.compile(r"\s+Kernel driver in use:\s*([A-Za-z0-9_\-]{1,64})\s*")
_MODULES = re.compile(r"\s+Kernel modules:\s*(.{1,400})")
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

    Raises:
        Nothing.

    Source:
        lspci(8), pciutils 3.9.0; lsmod(8), kmod 30.

    Example:
        >>> read_linux(["01:00.0 VGA compatible controller [0300]: Maker A [1234:5678]"]).adapters[0].basic
        True
    """
    adapters: list[Adapter] = []
    loaded: set[str] = set()
    devices = heading = False
    current: Adapter | None = None
    for line in lines:
        header = _HEADER.match(line)
        if header:
            devices = True
            numbers = _NUMBERS.findall(header.group(2))
            current = None
            if header.group(1).lower().startswith("03") and numbers:
                vendor, device = numbers[-1]
                current = Adapter(vendor.lower(), device.lower(), "", True, WORKS)
                adapters.append(current)
            continue
        in_use, modules = _IN_USE.fullmatch(line), _MODULES.fullmatch(line)
        if current is not None and (in_use or modules):
            if in_use:
                name = in_use.group(1)
                state = LENT if name in KEEPERS else WORKS
                current = current._replace(driver=name, basic=False, state=state)
            elif modules:
                names = tuple(part.strip() for part in modules.group(1).split(","))
                current = current._replace(candidates=tuple(n for n in names if _NAME.fullmatch(n))[:20])
            adapters[-1] = current
            continue
        if _LOADED_HEADING.fullmatch(line):
            heading = True
        elif heading and (module := _LOADED.fullmatch(line)):
            loaded.add(module.group(1))
    if not devices and not heading:
        return None
    return Said("linux", tuple(adapters) if devices else None, loaded=frozenset(loaded) if heading else None)
