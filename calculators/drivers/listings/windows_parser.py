"""
Reads what pnputil says of display adapters and driver packages, in any language of the system.

Labels are translated, values are not: an instance id, a class GUID, an .inf name, a date with a version and a problem
number are told by their shape, so no label is read. Only the word for 'started' is known in English alone, and so is
the name of the class in listings older than the class's GUID. The property names of Win32_VideoController are the
same in every language, and are read.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from calculators.drivers.listings.adapter_facts import STOPPED, UNTOLD, WORKS, Adapter, Listing, Package

# The setup class of display adapters. Microsoft Learn, system-defined device setup classes, from memory.
DISPLAY_CLASS = "{4d36e968-e325-11ce-bfc1-08002be10318}"
# The inbox packages of the basic display driver. From memory.
BASIC_PACKAGES = frozenset({"display.inf", "basicdisplay.inf"})
NOT_INSTALLED = 28  # CM_PROB_FAILED_INSTALL: no driver is installed for the device
STATES = {"started": WORKS, "stopped": STOPPED, "disabled": STOPPED, "problem": STOPPED, "disconnected": "gone"}

# Names of the display class in pnputil -e, which has no GUID. From memory.
OLD_CLASSES = frozenset({"display adapters", "display"})
# Properties of Win32_VideoController. Microsoft Learn, Win32_VideoController class.
_PROPERTY = re.compile(r"(DriverVersion|DriverDate|InfFilename|PNPDeviceID)\s*[:=]\s*(\S.{0,400})?", re.IGNORECASE)
_PROPERTY_PLACES = re.compile(
    r"(?<=\S)\s+(?=(?:DriverVersion|DriverDate|InfFilename|PNPDeviceID)\s*[:=]\s*\S)", re.IGNORECASE
)
_NUMBER = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,6}){1,3}")
# The same properties as a table: a line of names, with no sign behind them, then a line for each adapter.
_TABLE = re.compile(r"(?=.{0,400}\bDriverVersion\b)[A-Za-z ]{1,400}", re.IGNORECASE)
_IN_TABLE = re.compile(r"(?<!\S)[0-9]{1,6}(?:\.[0-9]{1,6}){3}(?!\S)")
# The rest of a GUID or an instance id that a narrow window broke in two.
_BROKEN = re.compile(
    r"[:\uff1a]\s*(?:\{[0-9a-f\-]{0,36}|[A-Za-z0-9_]{2,40}\\[^\s\\]{0,200}(?:\\\S{0,200})?)$", re.IGNORECASE
)
_REST = re.compile(r"(?![A-Za-z]{2,10}\\(?:VEN|CC)_)[^\s:\uff1a]{1,200}", re.IGNORECASE)
# The values that stand in a line which lost its line ends: whatever lies between them is labels and descriptions.
_VALUES = re.compile(
    r"(?P<instance>(?<=[:\uff1a\s])[A-Za-z0-9_]{2,40}\\[^\s\\]{1,200}\\\S{1,200})"
    r"|(?P<hardware>(?<=[:\uff1a\s])[A-Za-z0-9_]{2,40}\\(?:VEN|CC)_[^\s\\]{1,200}(?=\s|$))"
    r"|(?P<guid>\{[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\})"
    r"|(?P<inf>\b[A-Za-z0-9_.\-]{1,60}\.inf\b)"
    r"|(?P<version>\b[0-9]{1,4}[./\-][ ]?[0-9]{1,2}[./\-][ ]?[0-9]{1,4}\.?\s+[0-9]{1,6}(?:\.[0-9]{1,6}){1,3}\b)"
    r"|(?P<problem>\b[0-9]{1,3}\s*\(0x[0-9A-F]{1,8}\))"
    r"|(?<=[:\uff1a])\s*(?P<state>Started|Stopped|Disabled|Problem|Disconnected)\b",
    re.IGNORECASE,
)
_LINE = re.compile(r"([^:\uff1a]{1,80})[:\uff1a]\s*(.{0,400})")
_INSTANCE = re.compile(r"[A-Za-z0-9_{}.\-]{2,40}\\[^\s\\]{1,200}\\[^\s]{1,200}")
_PCI = re.compile(r"PCI\\VEN_([0-9A-F]{4})&DEV_([0-9A-F]{4})", re.IGNORECASE)
_HARDWARE = re.compile(r"[A-Za-z0-9_]{2,40}\\(?:VEN|CC)_[^\s\\]{1,200}", re.IGNORECASE)
_GUID = re.compile(r"\{[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\}", re.IGNORECASE)
_INF = re.compile(r"[A-Za-z0-9_.\-]{1,60}\.inf", re.IGNORECASE)
_STORED = re.compile(r"oem[0-9]{1,5}\.inf", re.IGNORECASE)
_VERSION = re.compile(r"([0-9]{1,4}[./\-][ ]?[0-9]{1,2}[./\-][ ]?[0-9]{1,4})\.?\s+([0-9]{1,6}(?:\.[0-9]{1,6}){1,3})")
_PROBLEM = re.compile(r"([0-9]{1,3})\s*\(0x[0-9A-F]{1,8}\)", re.IGNORECASE)


class _Device:
    """One device in the making."""

    def __init__(self, instance: str) -> None:
        self.instance = instance.upper()
        self.group = ""
        self.driver = ""
        self.state = UNTOLD
        self.problem: int | None = None
        self.version = ""
        self.placed = bool(instance)


class _Stored:
    """One stored package in the making."""

    def __init__(self, name: str) -> None:
        self.name = name.lower()
        self.group = ""
        self.original = ""
        self.older_class = False
        self.matching = False  # told of a device as one that would match, by its hardware id
        self.date = ""
        self.version = ""


class Lists(NamedTuple):
    """The records found, whatever their class."""

    devices: list[_Device]
    stored: list[_Stored]


def read_windows(lines: list[str]) -> Listing | None:
    """
    The display adapters and display packages in pnputil's output.

    Args:
        lines: What was pasted, line by line. [list]

    Returns:
        What was found; None where nothing looks like this program's output. [object]

    Source:
        Microsoft Learn, PnPUtil examples, page of 2025-11-05, for the lists; the shapes of ids and versions are those
        of device instance ids, GUIDs and driver versions, from memory.

    Example:
        >>> read_windows(["x: PCI\\\\VEN_1234&DEV_5678\\\\3&1", "y: oem4.inf"]).adapters[0].driver
        'oem4.inf'
    """
    lines, controllers = _without_controllers(_without_breaks(lines))
    lists = _records(_one_a_line(lines))
    lists.devices[:] = _merged([*lists.devices, *controllers])
    stored = [s for s in lists.stored if not s.matching]
    if not any(s.group or s.older_class for s in stored):
        stored = []  # of no package is the class told: a list cut down, from which nothing follows
    if not lists.devices and not stored:
        return None
    adapters: dict[str, Adapter] = {}
    gone = 0
    for device in lists.devices:
        pci = _PCI.match(device.instance)
        if device.group not in ("", DISPLAY_CLASS) or device.instance in adapters:
            continue
        if device.state == "gone":
            gone += 1
            continue
        # silence is not 'none': that takes the problem number which says that no driver is installed
        basic = device.driver in BASIC_PACKAGES or (not device.driver and device.problem == NOT_INSTALLED)
        state = STOPPED if device.problem else device.state
        vendor, number = (pci.group(1).lower(), pci.group(2).lower()) if pci else ("", "")
        adapters[device.instance] = Adapter(
            vendor, number, device.driver, basic, state, device.problem, (), device.version, device.placed
        )
    packages = {
        s.name: Package(s.name, s.original, s.date, s.version)
        for s in stored
        if s.group == DISPLAY_CLASS or (s.older_class and not s.group)
    }
    return Listing(
        "windows",
        tuple(adapters.values()) if lists.devices else None,
        tuple(packages.values()) if stored else None,
        gone=gone,
    )


def _records(lines: list[str]) -> Lists:
    """Go through the lines once; a record begins at an instance id, or at a stored package's name."""
    lists = Lists([], [])
    now: _Device | _Stored | None = None
    apart = True  # whether an empty line came just before
    beside = False  # whether a list has begun that tells of other drivers
    for i, line in enumerate(lines):
        if not line.strip():
            apart = True
            continue
        match = _LINE.match(line.strip())
        value = match.group(2).strip() if match else ""
        beside = beside and not apart and not _INSTANCE.fullmatch(value)
        if beside or (not value and match and isinstance(now, _Device) and now.driver):
            beside, apart = True, False  # the drivers that would match, under a heading: none of them is this device's
            continue
        if match is None or (line[0] in " \t" and now is not None and not _INSTANCE.fullmatch(value)):
            continue  # a heading, a continuation, or the indented list of drivers that would match
        if _INSTANCE.fullmatch(value):
            now = _Device(value)
            lists.devices.append(now)
        elif _STORED.fullmatch(value) and (now is None or apart or _begins_package(now, lines[i + 1 : i + 2])):
            now = _Stored(value)
            lists.stored.append(now)
        elif isinstance(now, _Device):
            _fill_device(now, value)
        elif isinstance(now, _Stored):
            _fill_stored(now, value)
        apart = False
    return lists


def _without_controllers(lines: list[str]) -> tuple[list[str], list[_Device]]:
    """The other lines, and the devices of Win32_VideoController: list, table, with equals signs, or one line."""
    lines, devices = _without_table(lines)
    others: list[str] = []
    values: dict[str, str] = {}

    def done() -> None:
        instance = values.get("pnpdeviceid", "")
        version = _NUMBER.match(values.get("driverversion", ""))
        if _INSTANCE.fullmatch(instance) or version:
            device = _Device(instance if _INSTANCE.fullmatch(instance) else "")
            inf = values.get("inffilename", "")
            device.driver = inf.lower() if _INF.fullmatch(inf) else ""
            device.version = version.group(0) if version else ""
            devices.append(device)
        values.clear()

    parts = [part for line in lines for part in _PROPERTY_PLACES.sub("\n", line).split("\n")]
    properties = [_PROPERTY.match(part.strip()) for part in parts]
    if not any(m and _of_a_controller(m.group(1).lower(), m.group(2) or "") for m in properties):
        return lines, devices  # no such list: where a label happens to be called so, it is a label
    for part, match in zip(parts, properties, strict=True):
        if match is None:
            others.append(part)
            if not part.strip() and "pnpdeviceid" in values:
                done()  # an empty line ends an adapter, so that the next one's values do not fill its gaps
        else:
            key, value = match.group(1).lower(), (match.group(2) or "").strip()
            if key in values:
                done()
            values[key] = value.split()[0] if value else ""
    done()
    return others, devices


def _of_a_controller(key: str, value: str) -> bool:
    """Whether a property by this name has a value that Win32_VideoController gives it."""
    if key == "pnpdeviceid":
        return _starts_instance(value)
    return key == "driverversion" and bool(_NUMBER.fullmatch(value.strip()))


def _without_table(lines: list[str]) -> tuple[list[str], list[_Device]]:
    """The other lines, and the adapters of Win32_VideoController where its properties came as a table."""
    others: list[str] = []
    devices: list[_Device] = []
    inside = False
    for line in lines:
        if _TABLE.fullmatch(line.strip()):
            inside = True
            continue
        version = _IN_TABLE.search(line) if inside else None
        if version is None:
            inside = inside and (not line.strip() or set(line.strip()) <= {"-", " "})
            if not inside:
                others.append(line)
            continue
        instance, inf = _PCI.search(line), _INF.search(line)
        device = _Device(line[instance.start() :].split()[0] if instance else "")
        device.driver = inf.group(0).lower() if inf else ""
        device.version = version.group(0)
        devices.append(device)
    return others, devices


def _without_breaks(lines: list[str]) -> list[str]:
    """The lines, with a GUID or an instance id put together again where a narrow window broke it."""
    joined: list[str] = []
    for line in lines:
        if joined and _REST.fullmatch(line) and _BROKEN.search(joined[-1]):
            joined[-1] += line
        else:
            joined.append(line)
    return joined


def _starts_instance(value: str | None) -> bool:
    """Whether a value begins with a device's instance id."""
    return bool(value and _INSTANCE.fullmatch(value.split()[0]))


def _one_a_line(lines: list[str]) -> list[str]:
    """The lines, with those taken apart that hold more than one value, as where line ends were lost in copying."""
    apart: list[str] = []
    for line in lines:
        values = list(_VALUES.finditer(line)) if len(line) > 80 else []
        if len(values) < 2:
            apart.append(line)
        else:
            apart += [f"x: {match.group(match.lastgroup or 0).strip()}" for match in values]
    return apart


def _merged(devices: list[_Device]) -> list[_Device]:
    """Each device once, with what any of its listings tells of it."""
    by_instance: dict[str, _Device] = {}
    unplaced = [device for device in devices if not device.placed]
    for device in devices:
        if not device.placed:
            continue
        known = by_instance.setdefault(device.instance, device)
        known.group = known.group or device.group
        known.driver = known.driver or device.driver
        known.version = known.version or device.version
        known.problem = known.problem if known.problem is not None else device.problem
        known.state = known.state if known.state != UNTOLD else device.state
    if by_instance:  # told of by their place already: what is left to say of them is the version
        for device in by_instance.values():
            same = [u.version for u in unplaced if u.driver and u.driver == device.driver]
            device.version = device.version or (same[0] if same else "")
    else:
        for number, device in enumerate(unplaced):
            device.instance = f"#{number}"
            by_instance[device.instance] = device
    return list(by_instance.values())


def _begins_package(now: _Device | _Stored, following: list[str]) -> bool:
    """Whether a stored name opens a new package where the empty line between the records was lost."""
    if isinstance(now, _Stored):
        return bool(now.original)
    match = _LINE.match(following[0].strip()) if following else None
    original = match.group(2).strip() if match else ""
    return bool(now.driver and _INF.fullmatch(original) and not _STORED.fullmatch(original))


def _fill_device(device: _Device, value: str) -> None:
    problem = _PROBLEM.match(value)
    if _GUID.fullmatch(value):
        device.group = value.lower()
    elif _INF.fullmatch(value):
        device.driver = device.driver or value.lower()  # the first is the driver; others only extend it
    elif problem:
        device.problem = int(problem.group(1))
    elif value.casefold() in STATES and device.state == UNTOLD:
        device.state = STATES[value.casefold()]


def _fill_stored(stored: _Stored, value: str) -> None:
    version = _VERSION.fullmatch(value)
    if _HARDWARE.fullmatch(value):
        stored.matching = True
    elif _GUID.fullmatch(value):
        stored.group = stored.group or value.lower()
    elif value.casefold() in OLD_CLASSES and not stored.group:
        stored.older_class = True
    elif _INF.fullmatch(value):
        stored.original = stored.original or value.lower()
    elif version and not stored.version:
        stored.date, stored.version = version.group(1), version.group(2)
