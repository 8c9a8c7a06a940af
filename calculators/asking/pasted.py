"""
What systems print, pasted whole: lists of memory modules and of display modes, and what a private input takes.

Only numbers and choices leave here: serial and part numbers, addresses, names of hosts, users and places are never even
looked at. Knows which kinds of listings there are; how each is read, `listings` knows.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calculators.asking.facts import gather
from calculators.asking.kits import ADD, HAVE
from calculators.asking.listings.display_modes import read_modes
from calculators.asking.listings.listing import Listing, Shown
from calculators.asking.listings.memory_modules import read_memory
from calculators.asking.listings.private_inputs import read_private
from calculators.asking.reading import read_inputs

# Lines and words that tell a machine or a person.
_PERSONAL = re.compile(
    r"(?im)^[\s|]*(?:[\w.-]+ ){0,2}(?:serial(?: ?number| ?no\.?)?|uuid|guid|mac(?: address)?|hwaddr|ether|"
    r"asset tag|host ?name|"
    r"computer ?name|pscomputername|user ?name|logged on user|registered owner|product id|node name|"
    r"ip(?:v[46])?(?: address)?|inet6?)\s*(?:\([^)\n]{0,20}\)\s*)?[:=].*$"
    r"|\b[0-9a-f]{8}-(?:[0-9a-f]{4}-){3}[0-9a-f]{12}\b|\b(?:[0-9a-f]{2}[:-]){5}[0-9a-f]{2}\b"
    r"|\b\S+@\S+:[~/]\S*[$#]|[A-Za-z]:\\Users\\\S+|/(?:home|Users)/[^\s/]+"
)


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
    return read_memory(text) or read_private(text) or read_modes(text)


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


def answers_of(listing: Listing, pages: Sequence[tuple[str, Sequence[str]]]) -> list[Shown]:
    """A listing's answers, each with a page: where none was named, the first page that shows its calculator."""
    placed = []
    for shown in listing.answers:
        page = shown.page or next((page for page, calculators in pages if shown.calculator in calculators), "")
        placed.append(Shown(page, shown.calculator, shown.inputs))
    return placed
